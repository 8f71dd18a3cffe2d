import { luFactor, luSolve } from "../../math/dense/index.ts";
import { createJacobianWorkspace, jacobian } from "../../math/differentiate/index.ts";
import { BugError } from "../../math/errors.ts";
import { rotationMatrix } from "../../math/rotation/index.ts";
import { linearise, type PairMotion, perturb, STANDARD_GRAVITY } from "../bodies/index.ts";
import type { GustInput } from "./frozen-gust.ts";

/** What a gust moves, in the order of every vector of outputs. */
export const PENETRATION_OUTPUTS = [
  { key: "tension", name: "tip load along the boom", unit: "N" },
  { key: "shear", name: "tip load normal to the boom", unit: "N" },
  { key: "relativePitch", name: "pitch against the carrier", unit: "rad" },
  { key: "loadFactor", name: "load factor of the carried aircraft", unit: "1" },
] as const;
export type PenetrationOutput = (typeof PENETRATION_OUTPUTS)[number]["key"];

export interface PenetrationSettings {
  readonly motion: PairMotion;
  /** State of rest at trim. */
  readonly state: Float64Array;
  /** Gusts that the environments of the two aircraft read; the carrier's has no effect on a steady carrier. */
  readonly carried: GustInput;
  readonly carrier: GustInput;
}

const FULL = 9;
const NAMES = ["x", "y", "z", "roll", "pitch", "yaw", "tip x", "tip y", "tip z"];
const STEP = { position: 1e-3, rotation: 1e-3, velocity: 0.05, rate: 1e-3, gust: 0.1, gustRate: 0.1 };
const INPUTS = 4;
const M = PENETRATION_OUTPUTS.length;

/**
 * Linear model of the hooked pair with the same vertical gust at the carrier and, later, at the carried aircraft.
 *
 *     ẋ = A·x + B·g,  y = C·x + D·g,  g = (w_c, ẇ_c, w_v, ẇ_v)                               (README eq. 2)
 *
 * by differences on the nonlinear equations at trim.
 *
 * @throws {BugError} if a derivative is not finite
 * @source own derivation, README eq. 2–4
 * @verified penetration.test.ts (steady gust against the trim in climbing air, lag by hand, the nonlinear motion in time)
 */
export class PenetrationModel {
  /** Order of A. */
  readonly size: number;
  /** Row-major (n, n), (n, 4), (m, n), (m, 4). */
  readonly A: Float64Array;
  readonly B: Float64Array;
  readonly C: Float64Array;
  readonly D: Float64Array;
  private readonly work: Float64Array;
  private readonly right: Float64Array;
  private readonly pivots: Int32Array;

  constructor(settings: PenetrationSettings) {
    const { motion, state, carried, carrier } = settings;
    const { matrix, size: n, coordinates: nq, basis, names } = linearise(motion, state);
    const extra = n - 2 * nq;
    const states = 2 * FULL + extra;
    const inputs = states + INPUTS;
    const independent = names.slice(0, nq).map((name) => NAMES.indexOf(name));
    const values = nq + extra + M;
    const moved = new Float64Array(motion.stateCount);
    const rate = new Float64Array(motion.stateCount);
    const measured = new Float64Array(M);
    const evaluate = (x: Float64Array, out: Float64Array): void => {
      perturb(state, x, FULL, motion.layout, moved);
      carrier.down = x[states];
      carrier.rate = x[states + 1];
      carried.down = x[states + 2];
      carried.rate = x[states + 3];
      motion.derivative(0, moved, rate);
      measure(motion, moved, measured);
      for (let k = 0; k < nq; k++) out[k] = motion.acceleration[independent[k]];
      for (let e = 0; e < extra; e++) out[nq + e] = rate[motion.layout.snubber + e];
      for (let k = 0; k < M; k++) out[nq + extra + k] = measured[k];
    };
    const J = new Float64Array(values * inputs);
    const steps = Float64Array.from({ length: inputs }, (_, i) => stepOf(i, states));
    const finite = jacobian(
      evaluate,
      new Float64Array(inputs),
      steps,
      values,
      J,
      createJacobianWorkspace(inputs, values),
    );
    evaluate(new Float64Array(inputs), new Float64Array(values));
    if (!finite) throw new BugError("a derivative of the hooked pair in a gust is not finite");
    this.size = n;
    this.A = matrix;
    this.B = new Float64Array(n * INPUTS);
    this.C = new Float64Array(M * n);
    this.D = new Float64Array(M * INPUTS);
    for (let g = 0; g < INPUTS; g++) {
      for (let k = 0; k < nq; k++) this.B[(nq + k) * INPUTS + g] = J[k * inputs + states + g];
      for (let e = 0; e < extra; e++) this.B[(2 * nq + e) * INPUTS + g] = J[(nq + e) * inputs + states + g];
    }
    for (let i = 0; i < M; i++) {
      const row = (nq + extra + i) * inputs;
      for (let j = 0; j < FULL; j++) {
        for (let k = 0; k < nq; k++) {
          this.C[i * n + k] += J[row + j] * basis[j * nq + k];
          this.C[i * n + nq + k] += J[row + FULL + j] * basis[j * nq + k];
        }
      }
      for (let e = 0; e < extra; e++) this.C[i * n + 2 * nq + e] = J[row + 2 * FULL + e];
      for (let g = 0; g < INPUTS; g++) this.D[i * INPUTS + g] = J[row + states + g];
    }
    this.work = new Float64Array(4 * n * n);
    this.right = new Float64Array(2 * n);
    this.pivots = new Int32Array(2 * n);
  }

  /**
   * Response to a harmonic gust of 1 m/s downwards: complex amplitude of each output per gust velocity.
   *
   *     G(iω) = C·(iω − A)⁻¹·B·γ + D·γ,  γ = (1, iω, e^{−iωτ}, iω·e^{−iωτ})                  (README eq. 3)
   *
   * @param omega ω [rad/s], > 0
   * @param lag   τ: the carried aircraft meets the gust this much later than the carrier [s]
   * @param out   real and imaginary parts, shape (2m), written
   * @throws {BugError} if iω is a root of the pair
   * @cost one solution of order 2n, no allocation
   */
  response(omega: number, lag: number, out: Float64Array): void {
    const { size: n, A, B, C, D, work, right, pivots } = this;
    const [c, s] = [Math.cos(omega * lag), Math.sin(omega * lag)];
    const re = [1, 0, c, omega * s];
    const im = [0, omega, -s, omega * c];
    // (iω − A)·(x + iy) = b + id as a real system of order 2n
    work.fill(0);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        work[i * 2 * n + j] = -A[i * n + j];
        work[(n + i) * 2 * n + n + j] = -A[i * n + j];
      }
      work[i * 2 * n + n + i] = -omega;
      work[(n + i) * 2 * n + i] = omega;
      right[i] = 0;
      right[n + i] = 0;
      for (let g = 0; g < INPUTS; g++) {
        right[i] += B[i * INPUTS + g] * re[g];
        right[n + i] += B[i * INPUTS + g] * im[g];
      }
    }
    if (!luFactor(work, 2 * n, pivots)) throw new BugError("a gust frequency is a root of the pair");
    luSolve(work, 2 * n, pivots, right);
    for (let k = 0; k < M; k++) {
      let x = 0;
      let y = 0;
      for (let j = 0; j < n; j++) {
        x += C[k * n + j] * right[j];
        y += C[k * n + j] * right[n + j];
      }
      for (let g = 0; g < INPUTS; g++) {
        x += D[k * INPUTS + g] * re[g];
        y += D[k * INPUTS + g] * im[g];
      }
      out[2 * k] = x;
      out[2 * k + 1] = y;
    }
  }
}

function stepOf(index: number, states: number): number {
  const isRotation = (i: number): boolean => i >= 3 && i < 6;
  if (index < FULL) return isRotation(index) ? STEP.rotation : STEP.position;
  if (index < 2 * FULL) return isRotation(index - FULL) ? STEP.rate : STEP.velocity;
  if (index < states) return STEP.rotation;
  return (index - states) % 2 === 0 ? STEP.gust : STEP.gustRate;
}

const TURN = new Float64Array(9);

/** Outputs of the evaluation in hand: load on the socket by the probe, pitch against the carrier, load factor. */
function measure(motion: PairMotion, state: Float64Array, out: Float64Array): void {
  const carrier = motion.settings.carrier!;
  const { tip } = motion.layout;
  const C = carrier.rotation;
  const [dx, dy, dz] = [0, 1, 2].map((i) => state[tip + i] - carrier.hinge[i]);
  const length = Math.hypot(dx, dy, dz);
  const [fx, fy, fz] = motion.jointForce;
  out[0] = -(fx * dx + fy * dy + fz * dz) / length;
  // normal to the boom in the plane of the swing, towards a larger angle: e × the carrier's y axis
  const [yx, yy, yz] = [C[1], C[4], C[7]];
  const [nx, ny, nz] = [dz * yy - dy * yz, dx * yz - dz * yx, dy * yx - dx * yy];
  out[1] = -(fx * nx + fy * ny + fz * nz) / Math.hypot(nx, ny, nz);
  rotationMatrix(state, 3, TURN);
  out[2] = Math.asin(Math.max(-1, Math.min(1, -TURN[6]))) - Math.asin(Math.max(-1, Math.min(1, -C[6])));
  const a = motion.acceleration;
  out[3] = (TURN[8] * (STANDARD_GRAVITY - a[2]) - TURN[2] * a[0] - TURN[5] * a[1]) / STANDARD_GRAVITY;
}
