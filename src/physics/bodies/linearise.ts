import { createJacobianWorkspace, jacobian } from "../../math/differentiate/index.ts";
import { BugError } from "../../math/errors.ts";
import { quaternionFromRotationVector, quaternionMultiply } from "../../math/rotation/index.ts";
import type { PairMotion } from "./pair-motion.ts";

/**
 * Linear model of the pair about a state of rest in H: ẋ = A·x with x = [η, η̇, extra].
 *
 * η are the independent coordinates: position of the aircraft in H [m] and rotation vector in body axes [rad],
 * and the tip position [m] when the boom is free. `extra` are snubber travel, carrier and law states.
 */
export interface Linearisation {
  /** n, order of A. */
  readonly size: number;
  /** Row-major, shape (n, n). */
  readonly matrix: Float64Array;
  /** Number of independent coordinates. */
  readonly coordinates: number;
  /** All coordinates from the independent ones, row-major, shape (full, coordinates); full = 6 or 9. */
  readonly basis: Float64Array;
  /** Names of the states of A. */
  readonly names: readonly string[];
  /**
   * Port of the boom's swing: η̈ per moment about the hinge [1/(kg·m²)·…] and swing angle per η; shape (coordinates).
   * Absent without a boom, and for a carrier with states of its own, which the hinge moment would move too.
   */
  readonly swing?: SwingPort;
}

export interface SwingPort {
  readonly perMoment: Float64Array;
  readonly angle: Float64Array;
  /**
   * With bending motions of the boom: what a moment about the hinge and a force on the jack travel change of ẋ, shape (size)
   * each. The jack travel is then the first of the extra states and its rate the second.
   */
  readonly motions?: { readonly byMoment: Float64Array; readonly byTravelForce: Float64Array };
}

const NAMES = ["x", "y", "z", "roll", "pitch", "yaw", "tip x", "tip y", "tip z"] as const;
const STEP = { position: 1e-3, rotation: 1e-3, velocity: 0.05, rate: 1e-3, extra: 1e-3 } as const;

/**
 * Linearises the nonlinear equations by Richardson-extrapolated central differences, then keeps the motion that
 * the joints allow.
 *
 *     A = [0 1 0; J_q·N  J_v·N  J_e; …],   δ(all coordinates) = N·η            (README eq. 8)
 *     J = M⁻¹·∂(b − M·s)/∂x,  s the accelerations and joint force at trim       (README eq. 8a)
 *
 * Because everything rests in H at trim, N·η is exact to first order for positions, velocities and accelerations.
 *
 * @param motion  the equations
 * @param state   trim state: velocities and rates zero, shape (stateCount)
 * @throws {BugError} if the state does not rest
 * @source own derivation, README eq. 8
 * @verified analytic/hooked-linear and generated/hooked-independent (eigenvalues, rtol 1e-9); linearise.test.ts (order four);
 * test/validation/hooked-decay (ζ in time and in other coordinates)
 */
export function linearise(motion: PairMotion, state: Float64Array): Linearisation {
  const { layout, settings } = motion;
  const hasTip = settings.boom !== undefined;
  const full = hasTip ? 9 : 6;
  const extra = motion.stateCount - layout.snubber;
  for (let i = 7; i < 13; i++) if (state[i] !== 0) throw new BugError("linearisation needs a state at rest");

  const inputs = 2 * full + extra;
  // bending motions follow the accelerations, so that these cannot be held
  const holds = settings.vibration === undefined;
  const order = holds ? motion.size : full;
  const outputs = order + extra;
  const steps = new Float64Array(inputs);
  for (let i = 0; i < inputs; i++) steps[i] = stepOf(i, full);
  const perturbed = new Float64Array(motion.stateCount);
  const rate = new Float64Array(motion.stateCount);
  motion.derivative(0, state, rate);
  const held = motion.right.slice();
  const evaluate = (x: Float64Array, out: Float64Array): void => {
    perturb(state, x, full, layout, perturbed);
    if (holds) motion.residual(perturbed, held, out, rate);
    else {
      motion.derivative(0, perturbed, rate);
      for (let i = 0; i < full; i++) out[i] = motion.acceleration[i];
    }
    for (let i = 0; i < extra; i++) out[order + i] = rate[layout.snubber + i];
  };
  const J = new Float64Array(outputs * inputs);
  const zero = new Float64Array(inputs);
  jacobian(evaluate, zero, steps, outputs, J, createJacobianWorkspace(inputs, outputs));
  if (holds) motion.solveAt(state, J, inputs);

  const { basis, independent } = allowedMotion(motion, state, full);
  const nq = independent.length;
  const n = 2 * nq + extra;
  const A = new Float64Array(n * n);
  const row = (output: number, target: number): void => {
    for (let k = 0; k < nq; k++) {
      let byPosition = 0;
      let byVelocity = 0;
      for (let j = 0; j < full; j++) {
        byPosition += J[output * inputs + j] * basis[j * nq + k];
        byVelocity += J[output * inputs + full + j] * basis[j * nq + k];
      }
      A[target * n + k] = byPosition;
      A[target * n + nq + k] = byVelocity;
    }
    for (let e = 0; e < extra; e++) A[target * n + 2 * nq + e] = J[output * inputs + 2 * full + e];
  };
  for (let k = 0; k < nq; k++) {
    A[k * n + nq + k] = 1;
    row(independent[k], nq + k);
  }
  for (let e = 0; e < extra; e++) row(order + e, 2 * nq + e);

  const coordinateNames = independent.map((i) => NAMES[i]);
  const extraNames = Array.from({ length: extra }, (_, e) => extraName(motion, e));
  const names = [...coordinateNames, ...coordinateNames.map((name) => `${name} rate`), ...extraNames];
  const result = { size: n, matrix: A, coordinates: nq, basis, names };
  const hasPort = hasTip && settings.carrier?.stateCount === 0;
  return hasPort ? { ...result, swing: swingPort(motion, state, basis, independent) } : result;
}

function stepOf(index: number, full: number): number {
  const isRotation = (i: number): boolean => i >= 3 && i < 6;
  if (index < full) return isRotation(index) ? STEP.rotation : STEP.position;
  if (index < 2 * full) return isRotation(index - full) ? STEP.rate : STEP.velocity;
  return STEP.extra;
}

function extraName(motion: PairMotion, index: number): string {
  const at = motion.layout.snubber + index;
  if (at < motion.layout.vibration) return "snubber travel";
  if (at < motion.layout.carrier) return motion.settings.vibration!.names[at - motion.layout.vibration];
  return at < motion.layout.law ? `carrier ${at - motion.layout.carrier}` : `law ${at - motion.layout.law}`;
}

/**
 * Adds a small motion x = [coordinates, velocities, extra] to a state.
 *
 * @param state   shape (stateCount), not changed
 * @param x       position in H [m], rotation vector in body axes [rad], tip [m], their rates, then the extra states
 * @param full    6 without boom, 9 with
 * @param layout  of the motion
 * @param out     shape (stateCount), written
 * @source own derivation, README eq. 8
 * @verified linearise.test.ts
 */
export function perturb(
  state: Float64Array,
  x: Float64Array,
  full: number,
  layout: PairMotion["layout"],
  out: Float64Array,
): void {
  out.set(state);
  for (let i = 0; i < 3; i++) {
    out[i] += x[i];
    out[7 + i] += x[full + i];
    out[10 + i] += x[full + 3 + i];
  }
  quaternionFromRotationVector(x[3], x[4], x[5], ROTATION, 0);
  quaternionMultiply(state, 3, ROTATION, 0, out, 3);
  if (full === 9) {
    for (let i = 0; i < 3; i++) {
      out[layout.tip + i] += x[6 + i];
      out[layout.tip + 3 + i] += x[full + 6 + i];
    }
  }
  for (let e = layout.snubber; e < out.length; e++) out[e] += x[2 * full + e - layout.snubber];
}
const ROTATION = new Float64Array(4);

/** Basis of the motion that the joints allow; the aircraft's coordinates are kept as the independent ones. */
function allowedMotion(motion: PairMotion, state: Float64Array, full: number) {
  const rows = motion.jointRows(state);
  const dependent = new Array<number>(rows.length / full).fill(-1);
  const G = rows.slice();
  for (let r = 0; r < dependent.length; r++) {
    // pivot on the highest-numbered coordinate that is not yet used: tip before aircraft
    let column = -1;
    for (let j = full - 1; j >= 0 && column < 0; j--) {
      if (!dependent.includes(j) && Math.abs(G[r * full + j]) > 1e-9) column = j;
    }
    if (column < 0) throw new BugError("joint conditions repeat each other");
    dependent[r] = column;
    const pivot = G[r * full + column];
    for (let j = 0; j < full; j++) G[r * full + j] /= pivot;
    for (let other = 0; other < dependent.length; other++) {
      const factor = G[other * full + column];
      if (other === r || factor === 0) continue;
      for (let j = 0; j < full; j++) G[other * full + j] -= factor * G[r * full + j];
    }
  }
  const independent = Array.from({ length: full }, (_, i) => i).filter((i) => !dependent.includes(i));
  const nq = independent.length;
  const basis = new Float64Array(full * nq);
  independent.forEach((i, k) => {
    basis[i * nq + k] = 1;
  });
  dependent.forEach((i, r) => {
    independent.forEach((j, k) => {
      basis[i * nq + k] = -G[r * full + j];
    });
  });
  return { basis, independent };
}

function swingPort(
  motion: PairMotion,
  state: Float64Array,
  basis: Float64Array,
  independent: readonly number[],
): SwingPort {
  const boom = motion.settings.boom!;
  const nq = independent.length;
  const moment = 1e4;
  const out = new Float64Array(motion.stateCount);
  const perMoment = new Float64Array(nq);
  boom.extraMoment = moment;
  motion.derivative(0, state, out);
  independent.forEach((i, k) => {
    perMoment[k] = motion.acceleration[i] / moment;
  });
  boom.extraMoment = 0;
  motion.derivative(0, state, out);
  independent.forEach((i, k) => {
    perMoment[k] -= motion.acceleration[i] / moment;
  });
  const [dx, , dz] = boom.tipAtTrim();
  const rho2 = dx * dx + dz * dz;
  // gradient of the swing angle with the tip position, turned from carrier axes to H
  const C = motion.settings.carrier!.rotation;
  const angle = new Float64Array(nq);
  for (let i = 0; i < 3; i++) {
    const slope = (C[3 * i] * dz - C[3 * i + 2] * dx) / rho2;
    for (let k = 0; k < nq; k++) angle[k] += slope * basis[(6 + i) * nq + k];
  }
  if (motion.settings.vibration?.freeTravel !== true) return { perMoment, angle };
  const pushed = new Float64Array(motion.stateCount);
  const atRest = new Float64Array(motion.stateCount);
  const change = (set: (value: number) => void, force: number): Float64Array => {
    set(force);
    motion.derivative(0, state, pushed);
    const rates = [...independent.map(() => 0), ...independent.map((i) => motion.acceleration[i])];
    set(0);
    motion.derivative(0, state, atRest);
    independent.forEach((i, k) => {
      rates[nq + k] -= motion.acceleration[i];
    });
    for (let e = motion.layout.snubber; e < motion.stateCount; e++) rates.push(pushed[e] - atRest[e]);
    return Float64Array.from(rates, (rate) => rate / force);
  };
  const byMoment = change((value) => {
    boom.extraMoment = value;
  }, moment);
  const byTravelForce = change((value) => {
    boom.extraTravelForce = value;
  }, moment);
  return { perMoment, angle, motions: { byMoment, byTravelForce } };
}
