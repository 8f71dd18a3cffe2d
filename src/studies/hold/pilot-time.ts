import { integrate } from "../../math/ode/index.ts";
import { eulerFromQuaternion, quaternionFromEuler, rotationMatrix } from "../../math/rotation/index.ts";
import type { HookedPair } from "../../physics/bodies/index.ts";
import type { PairMode } from "../../physics/modes/index.ts";
import type { HoldInputs } from "./inputs.ts";
import { type Operating, pairAt } from "./operating.ts";
import type { ModePlane, PilotTime } from "./types.ts";

const DEGREE = Math.PI / 180;
/** Longest simulated time [s]: several times what a pilot can ride a growing oscillation. */
const LONGEST = 60;
const SAMPLE = 0.05;

/**
 * Time from a stated upset to a stated limit, controls as the law leaves them, by the nonlinear equations.
 *
 * The upset turns the aircraft about its probe, at rest, with the boom where it is at trim.
 */
export function pilotTime(
  inputs: HoldInputs,
  at: Operating,
  pointId: string,
  plane: ModePlane,
  modes: readonly PairMode[],
): PilotTime {
  const { upset, limit } =
    plane === "longitudinal"
      ? { upset: inputs.upset.pitch, limit: inputs.upset.pitchLimit }
      : { upset: inputs.upset.roll, limit: inputs.upset.rollLimit };
  const growth = Math.max(0, ...modes.filter((mode) => mode.plane === plane).map((mode) => mode.real));
  const pair = pairAt(inputs, at);
  const state = upsetState(pair, plane, upset);
  const euler = new Float64Array(3);
  const angleOf = (y: Float64Array): number => {
    eulerFromQuaternion(y, 3, euler);
    return plane === "longitudinal" ? euler[1] - pair.trim.alpha : euler[2];
  };
  const history = { time_s: [0], angle_deg: [angleOf(state) / DEGREE] };
  let reached: number | null = null;
  let t = 0;
  let y = state;
  let outcome: PilotTime["outcome"] = "stays inside";
  while (t < LONGEST) {
    const step = integrate({
      derivative: pair.motion.derivative,
      y0: y,
      from: t,
      to: Math.min(LONGEST, t + SAMPLE),
      relativeTolerance: 1e-7,
      absoluteTolerance: 1e-9,
      maxSteps: 2000,
    });
    if (step.outcome !== "reached") {
      outcome = "diverged elsewhere";
      break;
    }
    const before = angleOf(y);
    y = step.y;
    const after = angleOf(y);
    if (Math.abs(after) >= limit) {
      const share = (limit - Math.abs(before)) / (Math.abs(after) - Math.abs(before));
      reached = t + share * (step.t - t);
      outcome = "limit reached";
    }
    t = step.t;
    history.time_s.push(t);
    history.angle_deg.push(after / DEGREE);
    if (reached !== null) break;
  }
  return {
    pointId,
    plane,
    outcome,
    time_s: reached,
    linearEstimate_s: growth > 0 ? Math.log(limit / upset) / growth : null,
    upset_deg: upset / DEGREE,
    limit_deg: limit / DEGREE,
    history,
  };
}

/** Trim state with the aircraft turned about its probe tip. */
export function upsetState(pair: HookedPair, plane: ModePlane, angle: number): Float64Array {
  const state = pair.state.slice();
  const pitch = pair.trim.alpha + (plane === "longitudinal" ? angle : 0);
  quaternionFromEuler(0, pitch, plane === "lateral" ? angle : 0, state, 3);
  const R = new Float64Array(9);
  rotationMatrix(state, 3, R);
  const p = pair.settings.probe;
  const tip = pair.motion.layout.tip;
  for (let i = 0; i < 3; i++) {
    state[i] = state[tip + i] - (R[3 * i] * p[0] + R[3 * i + 1] * p[1] + R[3 * i + 2] * p[2]);
  }
  return state;
}
