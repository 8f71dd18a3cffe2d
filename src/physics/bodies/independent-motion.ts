import { DomainError } from "../../math/errors.ts";
import { eulerFromQuaternion, quaternionFromEuler, rotationMatrix } from "../../math/rotation/index.ts";
import type { HookedPair } from "./hooked-pair.ts";

/** Names of the states of `IndependentMotion` before those of snubber and control law. */
const NAMES = [
  ...["tip along", "tip lateral", "tip normal", "roll", "pitch", "yaw"],
  ...["tip along rate", "tip lateral rate", "tip normal rate", "p", "q", "r"],
] as const;
/** Those that move in the plane of symmetry. */
const IN_PLANE = [0, 2, 4, 6, 8, 10];

/**
 * The hooked pair in coordinates that the joint leaves free, for methods that need every state to be independent.
 *
 *     y = [tip from trim: along the boom at trim, lateral, normal to it; roll, pitch, yaw; tip speeds; p, q, r; s; law]
 *     r = tip − R·p,  v = v_tip − R·(ω×p)                                                    (README eq. 26)
 *
 * Normal is positive towards a larger boom angle. In the plane of symmetry only the states that move there are kept.
 */
export class IndependentMotion {
  readonly pair: HookedPair;
  readonly names: readonly string[];
  readonly size: number;
  /** State of rest at trim, shape (size). */
  readonly rest: Float64Array;

  private readonly kept: readonly number[];
  private readonly full: Float64Array;
  private readonly rate: Float64Array;
  private readonly all = new Float64Array(12);
  private readonly rotation = new Float64Array(9);
  private readonly euler = new Float64Array(3);
  private readonly axes: readonly [number, number];

  /**
   * @param pair    hooked, boom without bending motions, on a carrier in steady flight, without links
   * @param inPlane keep the plane of symmetry alone; only for a pair that has one
   * @throws {DomainError} for a pair with states of carrier or boom motions
   * @source own derivation, README eq. 26
   * @verified independent-motion.test.ts (rates against differences along a motion of all coordinates; eigenvalues)
   */
  constructor(pair: HookedPair, inPlane: boolean) {
    const { layout, settings, stateCount } = pair.motion;
    if (settings.vibration !== undefined) throw new DomainError("boom", "bending motions", "none");
    if (settings.carrier!.stateCount > 0) throw new DomainError("carrier", "states of its own", "steady flight");
    this.pair = pair;
    const first = inPlane ? IN_PLANE : NAMES.map((_, i) => i);
    this.kept = first;
    const extra = stateCount - layout.snubber;
    this.size = first.length + extra;
    const { stateCount: travels } = settings.boom!;
    this.names = [
      ...first.map((i) => NAMES[i]),
      ...Array.from({ length: extra }, (_, e) => (e < travels ? "snubber travel" : `law ${e - travels}`)),
    ];
    this.full = pair.state.slice();
    this.rate = new Float64Array(stateCount);
    const { angleDown } = settings.boom!.settings.geometry;
    this.axes = [Math.cos(angleDown), Math.sin(angleDown)];
    this.rest = new Float64Array(this.size);
    this.reduce(pair.state, this.rest);
  }

  /**
   * Time derivative of the independent states.
   *
   * @param y   shape (size)
   * @param out shape (size), written
   * @cost no allocation
   */
  readonly derivative = (y: Float64Array, out: Float64Array): void => {
    const { motion } = this.pair;
    const { full, rate, all, kept } = this;
    this.expand(y, full);
    motion.derivative(0, full, rate);
    const [roll, pitch] = [all[3], all[4]];
    const [p, q, r] = [all[9], all[10], all[11]];
    for (let i = 0; i < 3; i++) all[i] = all[6 + i];
    const turn = q * Math.sin(roll) + r * Math.cos(roll);
    all[3] = p + turn * Math.tan(pitch);
    all[4] = q * Math.cos(roll) - r * Math.sin(roll);
    all[5] = turn / Math.cos(pitch);
    this.toBoom(motion.acceleration, 6, 6);
    for (let i = 0; i < 3; i++) all[9 + i] = motion.acceleration[3 + i];
    for (let k = 0; k < kept.length; k++) out[k] = all[kept[k]];
    const { snubber } = motion.layout;
    for (let e = kept.length; e < this.size; e++) out[e] = rate[snubber + e - kept.length];
  };

  /** Full state of the pair from independent ones: the tip on the probe in place and speed. */
  expand(y: Float64Array, state: Float64Array): void {
    const { all, kept, rotation: R, axes } = this;
    const { motion, settings, state: trim } = this.pair;
    const { tip, snubber } = motion.layout;
    all.fill(0);
    for (let k = 0; k < kept.length; k++) all[kept[k]] = y[k];
    const [c, s] = axes;
    for (const [from, to] of TIP) {
      const [along, lateral, normal] = [all[from], all[from + 1], all[from + 2]];
      const place = from === 0;
      state[tip + to] = (place ? trim[tip] : 0) - c * along + s * normal;
      state[tip + to + 1] = (place ? trim[tip + 1] : 0) + lateral;
      state[tip + to + 2] = (place ? trim[tip + 2] : 0) + s * along + c * normal;
    }
    quaternionFromEuler(all[5], all[4], all[3], state, 3);
    rotationMatrix(state, 3, R);
    const [px, py, pz] = settings.probe;
    const [p, q, r] = [all[9], all[10], all[11]];
    const [tx, ty, tz] = [q * pz - r * py, r * px - p * pz, p * py - q * px];
    for (let i = 0; i < 3; i++) {
      state[i] = state[tip + i] - (R[3 * i] * px + R[3 * i + 1] * py + R[3 * i + 2] * pz);
      state[7 + i] = state[tip + 3 + i] - (R[3 * i] * tx + R[3 * i + 1] * ty + R[3 * i + 2] * tz);
      state[10 + i] = all[9 + i];
    }
    for (let e = kept.length; e < this.size; e++) state[snubber + e - kept.length] = y[e];
  }

  /** Independent states from a full one. */
  reduce(state: Float64Array, out: Float64Array): void {
    const { all, kept, euler } = this;
    const { tip, snubber } = this.pair.motion.layout;
    this.toBoom(state, tip, 0, this.pair.state);
    this.toBoom(state, tip + 3, 6);
    eulerFromQuaternion(state, 3, euler);
    all[3] = euler[2];
    all[4] = euler[1];
    all[5] = euler[0];
    for (let i = 0; i < 3; i++) all[9 + i] = state[10 + i];
    for (let k = 0; k < kept.length; k++) out[k] = all[kept[k]];
    for (let e = kept.length; e < this.size; e++) out[e] = state[snubber + e - kept.length];
  }

  /** Travel of the tip normal to the boom, as the path counts it: L·(Γ − Γ*) [m]. */
  tipTravel(y: Float64Array): number {
    const { geometry } = this.pair.motion.settings.boom!.settings;
    const { tip } = this.pair.motion.layout;
    this.expand(y, this.full);
    return geometry.length * (Math.atan2(this.full[tip + 2], -this.full[tip]) - geometry.angleDown);
  }

  /** Writes a vector in H, less another, in axes of the boom at trim into `all`. */
  private toBoom(v: Float64Array, at: number, to: number, less?: Float64Array): void {
    const [c, s] = this.axes;
    const x = v[at] - (less === undefined ? 0 : less[at]);
    const y = v[at + 1] - (less === undefined ? 0 : less[at + 1]);
    const z = v[at + 2] - (less === undefined ? 0 : less[at + 2]);
    this.all[to] = -c * x + s * z;
    this.all[to + 1] = y;
    this.all[to + 2] = s * x + c * z;
  }
}

/** Where place and speed of the tip stand: in the independent states, and after the tip's own place in the full state. */
const TIP = [
  [0, 0],
  [6, 3],
] as const;
