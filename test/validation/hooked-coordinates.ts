/** Linearisation of the pair in other coordinates and with other differences than `linearise` uses. */
import { quaternionFromEuler } from "../../src/math/rotation/index.ts";
import type { HookedPair } from "../../src/physics/bodies/index.ts";
import { hangOnTip } from "../support/vacuum.ts";

/** Euler angle rates from body rates at an attitude, 3-2-1. */
function eulerRates(pitch: number, roll: number, p: number, q: number, r: number): [number, number, number] {
  const [s, c] = [Math.sin(roll), Math.cos(roll)];
  const yawRate = (q * s + r * c) / Math.cos(pitch);
  return [yawRate, q * c - r * s, p + yawRate * Math.sin(pitch)];
}
function bodyRates(pitch: number, roll: number, yawRate: number, pitchRate: number, rollRate: number) {
  const [s, c] = [Math.sin(roll), Math.cos(roll)];
  const across = yawRate * Math.cos(pitch);
  return [rollRate - yawRate * Math.sin(pitch), pitchRate * c + across * s, across * c - pitchRate * s];
}

/**
 * Matrix of the linear model in z = [ℓ, Γ, λ, yaw, pitch, roll, their rates, snubber travel]: tip in polar
 * coordinates about the hinge, attitude in Euler angles, five-point differences with steps of their own.
 *
 * @returns row-major matrix and its order
 */
export function linearisePolar(pair: HookedPair): { matrix: Float64Array; size: number } {
  const { motion, state, trim } = pair;
  const { length, angleDown } = motion.settings.boom!.settings.geometry;
  const relaxing = motion.layout.carrier > motion.layout.snubber;
  const size = relaxing ? 13 : 12;
  const { tip, snubber } = motion.layout;
  const full = new Float64Array(state.length);
  const rate = new Float64Array(state.length);

  /** ż(z), written out. Terms of second order in the rates cancel in central differences about rest. */
  const flow = (z: Float64Array): Float64Array => {
    const [ell, gamma, lambda, yaw, pitch, roll, ellRate, gammaRate, lambdaRate, yawRate, pitchRate, rollRate] = z;
    const [cg, sg, cl, sl] = [Math.cos(gamma), Math.sin(gamma), Math.cos(lambda), Math.sin(lambda)];
    // unit vectors of ℓ, Γ, λ
    const e = [
      [-cg * cl, sl, sg * cl],
      [sg, 0, cg],
      [cg * sl, cl, -sg * sl],
    ];
    const speed = [ellRate, ell * cl * gammaRate, ell * lambdaRate];
    full.fill(0);
    quaternionFromEuler(yaw, pitch, roll, full, 3);
    full.set(bodyRates(pitch, roll, yawRate, pitchRate, rollRate), 10);
    for (let i = 0; i < 3; i++) {
      full[tip + i] = ell * e[0][i];
      full[tip + 3 + i] = e[0][i] * speed[0] + e[1][i] * speed[1] + e[2][i] * speed[2];
    }
    if (relaxing) full[snubber] = z[12];
    hangOnTip(motion, full);
    motion.derivative(0, full, rate);
    const along = (k: number): number => e[k].reduce((sum, x, i) => sum + x * rate[tip + 3 + i], 0);
    const out = new Float64Array(size);
    out.set(z.subarray(6, 12));
    out.set([along(0), along(1) / (ell * cl), along(2) / ell], 6);
    out.set(eulerRates(pitch, roll, rate[10], rate[11], rate[12]), 9);
    if (relaxing) out[12] = rate[snubber];
    return out;
  };

  const rest = new Float64Array(size);
  rest.set([length, angleDown, 0, 0, trim.alpha, 0]);
  const matrix = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    const step = j < 6 || j === 12 ? 2e-3 : 2e-2;
    const at = (k: number): Float64Array => flow(rest.map((x, i) => (i === j ? x + k * step : x)));
    const [farBack, back, ahead, farAhead] = [at(-2), at(-1), at(1), at(2)];
    for (let i = 0; i < size; i++) {
      matrix[i * size + j] = (8 * (ahead[i] - back[i]) - (farAhead[i] - farBack[i])) / (12 * step);
    }
  }
  return { matrix, size };
}
