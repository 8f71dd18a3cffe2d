import { integrate } from "../../math/ode/index.ts";
import { quaternionFromRotationVector, quaternionMultiply, rotationMatrix } from "../../math/rotation/index.ts";
import { type AttachedPair, attachedPair, type SocketTurning } from "../../physics/bodies/index.ts";
import { type HoldInputs, type Operating, settingsAt } from "../hold/index.ts";
import type { Balance } from "./limit-cycle.ts";
import type { AttachmentInputs } from "./read-settings.ts";
import { pinsAt } from "./states.ts";

/** Cycles that are run, those that are measured at the end, those that are shown. */
const CYCLES = 40;
const MEASURED = 10;
const SHOWN = 3;
/** Samples in a cycle. */
const SAMPLES = 64;
/** The motion starts this much larger than the predicted one. */
const START = 1.15;

/** Motion in time of the pair with unloaded pins in their clearance. */
export interface CycleInTime {
  readonly outcome: "ran" | "diverged";
  /** Largest travel in the measured cycles [m], of the element that the balance names as widest. */
  readonly travel: number;
  /** From upward crossings in the measured cycles [Hz]; 0 when there are fewer than two. */
  readonly frequency: number;
  /** Largest load of any pin in the measured cycles, tension or sideways [N]. */
  readonly load: number;
  readonly history: { readonly time: readonly number[]; readonly travel: readonly number[] };
}

/**
 * Runs the nonlinear equations from the predicted oscillation, somewhat enlarged, with dead bands and, if given, dry friction.
 *
 * @param inputs  pair as physics arguments
 * @param own     settings of the part
 * @param at      operating point
 * @param balance predicted oscillation
 * @param widest  index of the element whose travel is measured: left along, left sideways, right along, right sideways
 * @param socket  what the socket does; absent: it turns freely
 * @source own derivation; `physics/bodies` README eq. 1–6
 * @verified limit-cycle.test.ts
 */
export function cycleInTime(
  inputs: HoldInputs,
  own: AttachmentInputs,
  at: Operating,
  balance: Balance,
  widest: number,
  socket: SocketTurning | undefined,
): CycleInTime {
  const pins = own.pins!;
  const pair = attachedPair({
    pair: settingsAt(inputs, at),
    pitch: pins.pitch(at.boomAngleDown),
    elevator: "pins unloaded",
    pins: pinsAt(pins, at, ["left", "right"], "with clearance").map((pin) => ({
      ...pin,
      misfit: { along: 0, lateral: 0 },
    })),
    ...(socket === undefined ? {} : { socket }),
  });
  const period = (2 * Math.PI) / balance.frequency;
  const sample = period / SAMPLES;
  const time: number[] = [];
  const travel: number[] = [];
  let load = 0;
  let next = 0;
  const measuredFrom = (CYCLES - MEASURED) * period;
  const y = new Float64Array(pair.motion.stateCount);
  const rate = new Float64Array(pair.motion.stateCount);
  const run = integrate({
    derivative: pair.motion.derivative,
    y0: startState(pair, balance),
    from: 0,
    to: CYCLES * period,
    relativeTolerance: 1e-7,
    absoluteTolerance: 1e-10,
    maxSteps: 200_000,
    onStep: (step) => {
      for (; next <= step.t; next += sample) {
        step.interpolate(next, y);
        pair.motion.derivative(next, y, rate);
        time.push(next);
        travel.push(pair.links[widest >> 1].travel[widest & 1]);
        if (next < measuredFrom) continue;
        for (const link of pair.links) load = Math.max(load, Math.abs(link.tension), Math.abs(link.lateralLoad));
      }
    },
  });
  if (run.outcome !== "reached") {
    return { outcome: "diverged", travel: 0, frequency: 0, load: 0, history: { time: [], travel: [] } };
  }
  const from = time.findIndex((t) => t >= measuredFrom);
  const last = travel.slice(from);
  const shown = time.findIndex((t) => t >= (CYCLES - SHOWN) * period);
  return {
    outcome: "ran",
    travel: Math.max(...last.map(Math.abs)),
    frequency: crossingRate(last, sample),
    load,
    history: { time: time.slice(shown).map((t) => t - time[shown]), travel: travel.slice(shown) },
  };
}

/** Rest of the pair moved by the predicted oscillation at phase zero, the boom tip on the probe. */
function startState(pair: AttachedPair, { shape, frequency }: Balance): Float64Array {
  const state = pair.state.slice();
  const q = shape.map((value) => START * value);
  for (let i = 0; i < 3; i++) {
    state[i] += q[2 * i];
    state[7 + i] = -frequency * q[2 * i + 1];
    state[10 + i] = -frequency * q[2 * (3 + i) + 1];
  }
  const turn = new Float64Array(4);
  quaternionFromRotationVector(q[6], q[8], q[10], turn, 0);
  quaternionMultiply(pair.state, 3, turn, 0, state, 3);
  const R = new Float64Array(9);
  rotationMatrix(state, 3, R);
  const [x, y, z] = pair.motion.settings.probe!;
  const [p, w, r] = state.subarray(10, 13);
  const v = [w * z - r * y, r * x - p * z, p * y - w * x];
  const { tip } = pair.motion.layout;
  for (let i = 0; i < 3; i++) {
    const row = 3 * i;
    state[tip + i] = state[i] + R[row] * x + R[row + 1] * y + R[row + 2] * z;
    state[tip + 3 + i] = state[7 + i] + R[row] * v[0] + R[row + 1] * v[1] + R[row + 2] * v[2];
  }
  return state;
}

/** Upward crossings of the mean per time [Hz]. */
function crossingRate(values: readonly number[], sample: number): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const times: number[] = [];
  for (let i = 1; i < values.length; i++) {
    const [a, b] = [values[i - 1] - mean, values[i] - mean];
    if (a < 0 && b >= 0) times.push((i - 1 + a / (a - b)) * sample);
  }
  return times.length < 2 ? 0 : (times.length - 1) / (times[times.length - 1] - times[0]);
}
