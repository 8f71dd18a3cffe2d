import type { SocketTurning } from "../../physics/bodies/index.ts";
import { atBoomAngle, type HoldInputs, type ModePlane, type Operating } from "../hold/index.ts";
import { cycleInTime } from "./cycle-in-time.ts";
import { type Balance, balances, centringOnly, unloadedPair } from "./limit-cycle.ts";
import type { AttachmentInputs } from "./read-settings.ts";
import type { CycleInTimeResult, LimitCycle } from "./types.ts";

const DEGREE = Math.PI / 180;
const PLANES: readonly ModePlane[] = ["longitudinal", "lateral"];
/** Travel below this share of the clearance is no oscillation between its sides. */
const INSIDE = 0.9;

/** Limit cycles with both pins latched and unloaded, at the ends and the middle of the stroke. */
export function limitCycles(inputs: HoldInputs, own: AttachmentInputs, at: Operating): LimitCycle[] {
  const { from, to } = own.stroke;
  return [from, 0.5 * (from + to), to].flatMap((boomAngleDown) =>
    cyclesAt(inputs, own, atBoomAngle(inputs, { ...at, boomAngleDown })),
  );
}

function cyclesAt(inputs: HoldInputs, own: AttachmentInputs, at: Operating): LimitCycle[] {
  const { clearance } = own.pins!;
  const base = { condition: at.condition, mass: at.mass.name, boomAngle_deg: at.boomAngleDown / DEGREE };
  const nothing = (plane: ModePlane, outcome: LimitCycle["outcome"]): LimitCycle => ({
    ...{ ...base, plane, outcome, stable: null, frequency_Hz: null, travelOverClearance_1: null },
    ...{ travel_mm: null, pinLoad_N: null, inTime: null, withFriction: null },
  });
  if (clearance.along === 0 && clearance.lateral === 0) return PLANES.map((plane) => nothing(plane, "no clearance"));
  const pair = unloadedPair(inputs, own, at);
  if (pair === null) return PLANES.map((plane) => nothing(plane, "no trim"));
  return PLANES.flatMap((plane) => {
    const found = balances(pair, plane);
    if (found.length === 0) return [nothing(plane, "none")];
    return found.map((balance): LimitCycle => {
      const ratios = pair.elements.map((element, j) =>
        element.clearance > 0 ? balance.travel[j] / element.clearance : 0,
      );
      const widest = ratios.indexOf(Math.max(...ratios));
      return {
        ...{ ...base, plane, outcome: "found", stable: balance.stable },
        frequency_Hz: balance.frequency / (2 * Math.PI),
        travelOverClearance_1: balance.ratio,
        travel_mm: 1e3 * balance.travel[widest],
        pinLoad_N: Math.max(...balance.force),
        ...(balance.stable ? timesOf(inputs, own, at, balance, widest) : { inTime: null, withFriction: null }),
      };
    });
  });
}

function timesOf(inputs: HoldInputs, own: AttachmentInputs, at: Operating, balance: Balance, widest: number) {
  const { clearance } = own.pins!;
  const free = widest % 2 === 0 ? clearance.along : clearance.lateral;
  const { socket } = centringOnly(own);
  const run = (turning: SocketTurning | undefined): CycleInTimeResult => {
    const { outcome, travel, frequency, load, history } = cycleInTime(inputs, own, at, balance, widest, turning);
    return {
      outcome: outcome === "diverged" ? "diverged" : travel > INSIDE * free ? "persists" : "dies out",
      ...{ frequency_Hz: frequency, travel_mm: 1e3 * travel, pinLoad_N: load },
      history: { time_s: history.time, travel_mm: history.travel.map((value) => 1e3 * value) },
    };
  };
  const rubs = own.socket !== null && own.socket.friction.moment > 0;
  return {
    inTime: run(socket),
    withFriction: rubs ? run({ ...socket!, friction: own.socket!.friction }) : null,
  };
}
