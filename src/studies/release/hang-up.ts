import { statePoint } from "../hold-attachment/index.ts";
import { operatingAt } from "./build.ts";
import { caseOf, type ReleaseCase } from "./cases.ts";
import { judgedRun } from "./run-case.ts";
import type { ReleaseInputs } from "./settings.ts";
import type { HangUpState, ReleaseOutcome } from "./types.ts";

/** Without the round-off of a balance [N]. */
const settled = (load: number): number => (Math.abs(load) < 1e-3 ? 0 : load);

interface Stuck {
  readonly left: string;
  readonly state: "single point, socket" | "single point" | "left aft pin" | "right aft pin" | "three point";
  readonly ways: readonly { readonly way: string; readonly wanted: ReleaseCase }[];
}

/**
 * What is left after each possible partial release: who holds, with which loads, whether that flies steadily, and what each way out does.
 *
 * Loads and modes are those of `hold` in that state of attachment at the first pose; ways out are separations of this study.
 */
export function hangUpsOf(inputs: ReleaseInputs): HangUpState[] {
  const { latched, settings } = inputs;
  const own = {
    pins: latched?.pins ?? null,
    socket: latched?.socket == null ? null : { linear: latched.socket },
    elevator: typeof latched?.elevator === "number" ? latched.elevator : 0,
  };
  return settings.masses.flatMap((mass) =>
    stuckStates(inputs).map((stuck): HangUpState => {
      const point = { mass, boomAngle: settings.boomAngles[0].si };
      const at = operatingAt(inputs, point, settings.weightShare.si);
      const { outcome, bank_deg, loads, modes } = statePoint(inputs.hold, own, at, stuck.state);
      const worst = modes.length === 0 ? null : modes.reduce((a, b) => (b.real_1_s > a.real_1_s ? b : a));
      return {
        ...{ left: stuck.left, mass, outcome: outcome === "trimmed" ? "balanced" : "no balance", bank_deg },
        socketLoad_N: loads === null ? null : Math.hypot(loads.socketForward_N, loads.socketUp_N),
        pins: (loads?.pins ?? []).map(({ name, tension_N, lateral_N }) => ({
          ...{ name, tension_N: settled(tension_N), lateral_N: settled(lateral_N) },
        })),
        worstMode: worst?.name ?? null,
        dampingRatio_1: worst?.dampingRatio ?? null,
        timeToDouble_s: worst?.timeToDouble_s ?? null,
        waysOut: stuck.ways.map(({ way, wanted }) => ({ way, outcome: outcomeOf(inputs, wanted, mass) })),
      };
    }),
  );
}

function outcomeOf(inputs: ReleaseInputs, wanted: ReleaseCase, mass: string): ReleaseOutcome {
  return judgedRun(inputs, wanted, { mass, boomAngle: inputs.settings.boomAngles[0].si })?.outcome ?? "no balance";
}

function stuckStates({ latched, settings }: ReleaseInputs): Stuck[] {
  const way = (what: string, change: Parameters<typeof caseOf>[2]) => ({
    way: what,
    wanted: caseOf(settings, what, change),
  });
  const single = { attachment: "single point" } as const;
  const socket = latched?.socket == null ? ("single point" as const) : ("single point, socket" as const);
  const nose: Stuck = {
    left: "nose alone: the aft pins are open, its latch does not draw back",
    state: socket,
    ways: [way("cut the probe", { ...single, nose: "cut" })],
  };
  if (latched === null) return [nose];
  const pin = (side: "left" | "right"): Stuck => ({
    left: `nose and ${side} aft pin: it does not open`,
    state: `${side} aft pin`,
    ways: [
      way("draw back the nose latch all the same", { stuckPin: side }),
      way("cut the probe with the pin stuck", { stuckPin: side, nose: "cut" }),
      way("the pin opens late, then the nose", { latePin: side, lateBy: settings.sequence.nose }),
    ],
  });
  const all: Stuck = {
    left: "nose and both aft pins: nothing has opened",
    state: "three point",
    ways: [way("emergency release: pins and cut", { nose: "cut" })],
  };
  return [nose, pin("left"), pin("right"), all];
}
