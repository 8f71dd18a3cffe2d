import { createJacobianWorkspace, jacobian } from "../../math/differentiate/index.ts";
import { BugError } from "../../math/errors.ts";
import { type HookedPair, linearise, PairMotion, perturb } from "../bodies/index.ts";
import { gustAir } from "./gust-air.ts";
import { OUTPUT_COUNT, OutputMeter } from "./outputs.ts";

/** Linear model of the hooked pair with gusts in and loads and motions out: ẋ = A·x + B·g, y = mean + C·x + D·g. */
export interface GustModel {
  /** Order of A. */
  readonly size: number;
  /** Row-major (n, n), (n, 6), (m, n), (m, 6) with m = OUTPUT_COUNT. */
  readonly A: Float64Array;
  readonly B: Float64Array;
  readonly C: Float64Array;
  readonly D: Float64Array;
  /** Outputs at trim, shape (m). */
  readonly mean: Float64Array;
  readonly names: readonly string[];
  /** True airspeed [m/s]. */
  readonly speed: number;
}

const NAMES = ["x", "y", "z", "roll", "pitch", "yaw", "tip x", "tip y", "tip z"];
const FULL = 9;
const STEP = { position: 1e-3, rotation: 1e-3, velocity: 0.05, rate: 1e-3, extra: 1e-3, gust: 0.1, gustRate: 1e-3 };

/**
 * Linear model of the hooked pair in gusts, by differences on the nonlinear equations at trim.
 *
 *     B = ∂ẋ/∂g, C = ∂y/∂x along the motions that the joint allows, D = ∂y/∂g            (README eq. 6)
 *
 * @param pair        at trim
 * @param tipPerJack  i, tip travel per jack travel [1]
 * @throws {BugError} if the pair is not at trim
 * @source own derivation, README eq. 6; A as in physics/bodies eq. 8
 * @verified response.test.ts: steady gusts against the nonlinear equations to second order, the nonlinear motion in a small
 * gust, mirror
 */
export function gustModel(pair: HookedPair, tipPerJack: number): GustModel {
  if (pair.trim.outcome !== "trimmed") throw new BugError("a gust model needs a pair at trim");
  const base = pair.motion;
  const speed = pair.settings.air.trueAirspeed;
  const gust = new Float64Array(6);
  const environment = gustAir(base.settings.environment, speed, (_time, out) => out.set(gust));
  const motion = new PairMotion({ ...base.settings, environment });
  const meter = new OutputMeter(motion, tipPerJack);
  const { matrix: A, size: n, coordinates: nq, basis, names } = linearise(base, pair.state);
  const extra = n - 2 * nq;
  const states = 2 * FULL + extra;
  const inputs = states + 6;
  const values = nq + OUTPUT_COUNT;
  const independent = names.slice(0, nq).map((name) => NAMES.indexOf(name));
  const steps = new Float64Array(inputs);
  for (let i = 0; i < inputs; i++) steps[i] = stepOf(i, states);
  const moved = new Float64Array(motion.stateCount);
  const measured = new Float64Array(OUTPUT_COUNT);
  const evaluate = (x: Float64Array, out: Float64Array): void => {
    perturb(pair.state, x, FULL, motion.layout, moved.fill(0));
    gust.set(x.subarray(states));
    meter.measure(0, moved, measured);
    for (let k = 0; k < nq; k++) out[k] = motion.acceleration[independent[k]];
    for (let k = 0; k < OUTPUT_COUNT; k++) out[nq + k] = measured[k];
  };
  const J = new Float64Array(values * inputs);
  const at = new Float64Array(inputs);
  if (!jacobian(evaluate, at, steps, values, J, createJacobianWorkspace(inputs, values))) {
    throw new BugError("a derivative of the hooked pair in gusts is not finite");
  }
  const B = new Float64Array(n * 6);
  for (let k = 0; k < nq; k++) {
    for (let g = 0; g < 6; g++) B[(nq + k) * 6 + g] = J[k * inputs + states + g];
  }
  const C = new Float64Array(OUTPUT_COUNT * n);
  const D = new Float64Array(OUTPUT_COUNT * 6);
  for (let i = 0; i < OUTPUT_COUNT; i++) {
    const row = (nq + i) * inputs;
    for (let j = 0; j < FULL; j++) {
      for (let k = 0; k < nq; k++) {
        C[i * n + k] += J[row + j] * basis[j * nq + k];
        C[i * n + nq + k] += J[row + FULL + j] * basis[j * nq + k];
      }
    }
    for (let e = 0; e < extra; e++) C[i * n + 2 * nq + e] = J[row + 2 * FULL + e];
    for (let g = 0; g < 6; g++) D[i * 6 + g] = J[row + states + g];
  }
  const mean = new Float64Array(OUTPUT_COUNT);
  gust.fill(0);
  meter.measure(0, pair.state, mean);
  return { size: n, A, B, C, D, mean, names, speed };
}

function stepOf(index: number, states: number): number {
  const isRotation = (i: number): boolean => i >= 3 && i < 6;
  if (index < FULL) return isRotation(index) ? STEP.rotation : STEP.position;
  if (index < 2 * FULL) return isRotation(index - FULL) ? STEP.rate : STEP.velocity;
  if (index < states) return STEP.extra;
  return index - states < 3 ? STEP.gust : STEP.gustRate;
}
