import { luFactor, luSolve } from "../../math/dense/index.ts";
import { BugError, DomainError } from "../../math/errors.ts";
import type { TangentialRates } from "../snubber/index.ts";

/** Inertia and bending motions of the boom; what `tipVibration` of `physics/boom-structure` gives. */
export interface BoomMotions {
  /** 4 + number of motions. */
  readonly order: number;
  /** Coordinates: tip along, swing, right [m], jack travel referred to the tip [m], motions [m·√kg]; shape (order²). */
  readonly mass: Float64Array;
  /** ω of the motions [rad/s], those in the swing plane first. */
  readonly frequency: Float64Array;
  readonly inSwingPlane: number;
}

/**
 * Share of the tip travel that a jack travel without freedom of its own takes: 0 when the jack is rigid, 1 when the boom is.
 * `undefined` when both yield: then the jack travel is a coordinate.
 */
export function boundTravel({ bending, bendingDamping, accumulator, snubber }: TangentialRates): 0 | 1 | undefined {
  if (accumulator === Infinity || snubber === Infinity) return 0;
  return bending === Infinity || bendingDamping === Infinity ? 1 : undefined;
}

/** Mass matrix of tip (along, swing, right) and inner coordinates [jack travel], motions. */
export interface InnerMass {
  /** Number of inner coordinates: motions, and the jack travel unless it is bound. */
  readonly inner: number;
  /** Shape ((3 + inner)²). */
  readonly mass: Float64Array;
}

/** Takes a bound jack travel s = share·x out of the mass matrix (README eq. 9). */
export function innerMass({ order, mass }: BoomMotions, share: 0 | 1 | undefined): InnerMass {
  const kept = Array.from({ length: order }, (_, i) => i).filter((i) => share === undefined || i !== 3);
  const entry = (i: number, j: number): number => {
    let value = mass[i * order + j];
    if (share === 1) {
      if (i === 1) value += mass[3 * order + j];
      if (j === 1) value += mass[i * order + 3];
      if (i === 1 && j === 1) value += mass[3 * order + 3];
    }
    return value;
  };
  return { inner: kept.length - 3, mass: Float64Array.from(kept.flatMap((i) => kept.map((j) => entry(i, j)))) };
}

/**
 * Bending motions of the boom beside its tip, and the inertia that its tip alone does not carry.
 *
 * With w = (ℓ, L·Γ, L·λ) of the tip, z the inner coordinates (jack travel if free, motions) and M̂ constant,
 *
 *     f_onTip −= Jᵀ·((M̂_tt − m_t·1)·ẅ + M̂_tz·z̈),  ẅ = J·a + J̇·v,  J = ∂w/∂d
 *     M̂_zz·z̈ + M̂_zt·ẅ = F_z,  F_z = (travel force of the springs, −ω²η − 2ζ_s·ω·η̇)            (README eq. 8–9)
 *
 * which are Lagrange's equations of T = ½m_t|v|² + ½(ẇ, ż)ᵀ(M̂ − m_t·1_t)(ẇ, ż): energy is kept for any motion of the tip.
 * z̈ is taken out, so that the pair solves for no more unknowns than without bending motions. The carrier must be steady.
 */
export class BoomVibration {
  readonly motions: BoomMotions;
  /** Whether the jack travel is a coordinate with inertia. */
  readonly freeTravel: boolean;
  /** Rate of the jack travel (if free), motions, their rates. */
  readonly stateCount: number;
  readonly names: readonly string[];
  /** What the tip's equations gain, carrier axes: added mass, shape (3, 3), and added force [N], shape (3). */
  readonly addedMass = new Float64Array(9);
  readonly addedForce = new Float64Array(3);
  /** z̈ after `finish`, shape (inner). */
  readonly acceleration: Float64Array;

  private readonly count: number;
  private readonly inner: number;
  private readonly length: number;
  private readonly damping: Float64Array;
  /** M̂_zz⁻¹ (inner, inner); M̂_tz·M̂_zz⁻¹ (3, inner); M̂_tt − m_t·1 − M̂_tz·M̂_zz⁻¹·M̂_zt (3, 3); M̂_zt (inner, 3). */
  private readonly inverse: Float64Array;
  private readonly byForce: Float64Array;
  private readonly rest: Float64Array;
  private readonly coupling: Float64Array;
  private readonly gradient = new Float64Array(9);
  private readonly turning = new Float64Array(3);
  private readonly force: Float64Array;

  /**
   * @param motions from `tipVibration`
   * @param path    springs of the swing plane, which say whether the jack travel is free
   * @param own     tip mass m_t that the equations of motion carry [kg], boom length L [m], damping ratio ζ_s of the motions [1]
   * @throws {DomainError} for a free jack travel without inertia
   */
  constructor(
    motions: BoomMotions,
    path: TangentialRates,
    own: { readonly tipMass: number; readonly length: number; readonly damping: number },
  ) {
    const share = boundTravel(path);
    const { inner, mass } = innerMass(motions, share);
    const order = 3 + inner;
    this.motions = motions;
    this.freeTravel = share === undefined;
    this.count = motions.frequency.length;
    this.inner = inner;
    this.length = own.length;
    this.stateCount = 2 * this.count + (this.freeTravel ? 1 : 0);
    this.damping = motions.frequency.map((omega) => 2 * own.damping * omega);
    const named = Array.from({ length: this.count }, (_, i) =>
      i < motions.inSwingPlane ? `boom swing ${i + 1}` : `boom lateral ${i + 1 - motions.inSwingPlane}`,
    );
    const rates = named.map((name) => `${name} rate`);
    this.names = [...(this.freeTravel ? ["snubber travel rate"] : []), ...named, ...rates];
    if (this.freeTravel && !(mass[3 * order + 3] > 0)) {
      throw new DomainError(
        "inertia of the boom against jack travel",
        mass[3 * order + 3],
        "above 0: the boom needs a jack",
      );
    }
    const lu = Float64Array.from({ length: inner * inner }, (_, at) => mass[blockIndex(at, inner, order)]);
    this.inverse = Float64Array.from({ length: inner * inner }, (_, at) => (at % (inner + 1) === 0 ? 1 : 0));
    const pivots = new Int32Array(inner);
    if (!luFactor(lu, inner, pivots)) throw new BugError("the boom's bending motions have no inertia");
    luSolve(lu, inner, pivots, this.inverse, inner);
    this.coupling = Float64Array.from(
      { length: inner * 3 },
      (_, at) => mass[(3 + Math.floor(at / 3)) * order + (at % 3)],
    );
    this.byForce = new Float64Array(3 * inner);
    this.rest = new Float64Array(9);
    for (let i = 0; i < 3; i++) {
      for (let z = 0; z < inner; z++) {
        for (let y = 0; y < inner; y++) {
          this.byForce[i * inner + z] += this.coupling[3 * y + i] * this.inverse[y * inner + z];
        }
      }
      for (let j = 0; j < 3; j++) {
        let value = mass[i * order + j] - (i === j ? own.tipMass : 0);
        for (let z = 0; z < inner; z++) value -= this.byForce[i * inner + z] * this.coupling[3 * z + j];
        this.rest[3 * i + j] = value;
      }
    }
    this.force = new Float64Array(inner);
    this.acceleration = new Float64Array(inner);
  }

  /**
   * Added mass and force of the tip.
   *
   * @param d           tip from hinge [m], shape (3), carrier axes
   * @param v           its velocity seen from the carrier [m/s], shape (3)
   * @param travelForce force of the springs on the jack travel [N]; ignored when it is bound
   * @param state       state of the pair
   * @param offset      where the states of this port begin
   * @cost no allocation
   * @source own derivation, README eq. 8–9
   * @verified boom-vibration.test.ts (energy, directions); test/validation/hooked-boom (whole beam with a body at its tip)
   */
  evaluate(d: Float64Array, v: Float64Array, travelForce: number, state: Float64Array, offset: number): void {
    const L = this.length;
    const dx = d[0];
    const dy = d[1];
    const dz = d[2];
    const vx = v[0];
    const vy = v[1];
    const vz = v[2];
    const rho2 = dx * dx + dz * dz;
    const rho = Math.sqrt(rho2);
    const ell2 = rho2 + dy * dy;
    const ell = Math.sqrt(ell2);
    const J = this.gradient;
    J[0] = dx / ell;
    J[1] = dy / ell;
    J[2] = dz / ell;
    J[3] = (L * dz) / rho2;
    J[4] = 0;
    J[5] = (-L * dx) / rho2;
    J[6] = (-L * dy * dx) / (rho * ell2);
    J[7] = (L * rho) / ell2;
    J[8] = (-L * dy * dz) / (rho * ell2);
    const lengthRate = J[0] * vx + J[1] * vy + J[2] * vz;
    const swingRate = (J[3] * vx + J[5] * vz) / L;
    const lateralRate = (J[6] * vx + J[7] * vy + J[8] * vz) / L;
    const rhoRate = (dx * vx + dz * vz) / rho;
    const q = this.turning;
    q[0] = (vx * vx + vy * vy + vz * vz - lengthRate * lengthRate) / ell;
    q[1] = (-2 * L * rhoRate * swingRate) / rho;
    q[2] = L * ((-dy * rho * swingRate * swingRate) / ell2 - (2 * lengthRate * lateralRate) / ell);

    const F = this.force;
    const first = this.freeTravel ? 1 : 0;
    if (this.freeTravel) F[0] = travelForce;
    for (let k = 0; k < this.count; k++) {
      const omega = this.motions.frequency[k];
      const at = offset + first + k;
      F[first + k] = -omega * omega * state[at] - this.damping[k] * state[at + this.count];
    }
    const { rest, byForce, addedMass, addedForce, inner } = this;
    addedForce.fill(0);
    for (let i = 0; i < 3; i++) {
      let inertia = 0;
      for (let j = 0; j < 3; j++) inertia += rest[3 * i + j] * q[j];
      for (let z = 0; z < inner; z++) inertia += byForce[i * inner + z] * F[z];
      for (let k = 0; k < 3; k++) addedForce[k] -= J[3 * i + k] * inertia;
    }
    for (let a = 0; a < 3; a++) {
      for (let b = 0; b < 3; b++) {
        let value = 0;
        for (let i = 0; i < 3; i++) {
          for (let j = 0; j < 3; j++) value += J[3 * i + a] * rest[3 * i + j] * J[3 * j + b];
        }
        addedMass[3 * a + b] = value;
      }
    }
  }

  /** z̈ from the acceleration of the tip [m/s²], carrier axes, into `acceleration`; after `evaluate`. */
  finish(ax: number, ay: number, az: number): void {
    const { gradient: J, turning: q, coupling, inverse, inner, force } = this;
    const w0 = J[0] * ax + J[1] * ay + J[2] * az + q[0];
    const w1 = J[3] * ax + J[4] * ay + J[5] * az + q[1];
    const w2 = J[6] * ax + J[7] * ay + J[8] * az + q[2];
    for (let z = 0; z < inner; z++) {
      force[z] -= coupling[3 * z] * w0 + coupling[3 * z + 1] * w1 + coupling[3 * z + 2] * w2;
    }
    for (let z = 0; z < inner; z++) {
      let value = 0;
      for (let y = 0; y < inner; y++) value += inverse[z * inner + y] * force[y];
      this.acceleration[z] = value;
    }
  }

  /** Rates of this port's states; after `finish`. */
  rates(state: Float64Array, offset: number, out: Float64Array): void {
    const first = this.freeTravel ? 1 : 0;
    if (this.freeTravel) out[offset] = this.acceleration[0];
    for (let k = 0; k < this.count; k++) {
      const at = offset + first + k;
      out[at] = state[at + this.count];
      out[at + this.count] = this.acceleration[first + k];
    }
  }
}

/** Index in a matrix of order `order` of entry `at` of its block behind the first three. */
function blockIndex(at: number, inner: number, order: number): number {
  return (3 + Math.floor(at / inner)) * order + 3 + (at % inner);
}
