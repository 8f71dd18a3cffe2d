import { createEigenWorkspace, type EigenOutcome, eigenvalues, eigenvectors } from "../../math/eigen/index.ts";
import { BugError } from "../../math/errors.ts";
import type { MassProperties } from "../bodies/index.ts";
import { addCarrierKinetic, type CarrierEnergy, tipAgainstCarrier } from "./carrier-energy.ts";
import { CARRIER_MOTIONS, MOTIONS, type ModePlane, type PairMode, SPRINGS } from "./types.ts";

/** What turns a mode vector into energies. */
export interface EnergyModel {
  readonly mass: MassProperties;
  /** Effective mass of the boom tip [kg]; 0 without a boom. */
  readonly tipMass: number;
  /** All coordinates (6 or 9) from the independent ones, row-major, shape (full, coordinates). */
  readonly basis: Float64Array;
  readonly coordinates: number;
  readonly boom?: {
    readonly angleDown: number;
    readonly length: number;
    readonly axial: number;
    readonly lateral: number;
    /** Bending stiffness, or the whole tangential stiffness when the path has no state. */
    readonly bending: number;
    readonly accumulator: number;
    /** Index of the snubber travel among the states, or −1. */
    readonly snubberState: number;
  };
  /** Bending motions of the boom and its jack travel; without it the boom is `tipMass`. */
  readonly vibration?: VibrationEnergy;
  /** Springs besides the boom's: stiffness [N/m or N·m/rad] and travel per coordinate, shape (full). */
  readonly links?: readonly { readonly stiffness: number; readonly slope: Float64Array }[];
  /** Carrier with motions of its own; places of the pair then count from it. */
  readonly carrier?: CarrierEnergy;
}

/** Energy of the inner coordinates of the boom: jack travel with inertia, bending motions. */
export interface VibrationEnergy {
  /** Shape ((3 + inner)²): tip along, swing, right, then the inner coordinates; takes the place of `tipMass`. */
  readonly mass: Float64Array;
  /** Index among the states of each inner coordinate and of its rate, −1 where it is not among them. */
  readonly place: readonly number[];
  readonly rate: readonly number[];
  /** ω² of each motion, 0 for the jack travel, whose springs are those of `boom` [1/s²]. */
  readonly stiffness: readonly number[];
  readonly lateral: readonly boolean[];
}

/** Strain over kinetic energy from which a mode is structural: air and weight restore less than a quarter of it. */
const STRUCTURAL_SHARE = 0.75;
/** Kinetic energy in the bending of the boom from which on a mode is structural, however it is damped. */
const BENDING_SHARE = 0.5;
/** What a vector of unit length holds below this is round-off, and would otherwise name a root in which nothing moves. */
const ROUND_OFF = 1e-12;

/**
 * Eigenvalue analysis of the pair with workspaces that are reused, for one matrix order at a time.
 */
export class ModeAnalysis {
  readonly size: number;
  readonly re: Float64Array;
  readonly im: Float64Array;
  private readonly vectors: Float64Array;
  private readonly rate = new Float64Array(9);
  private readonly place = new Float64Array(9);
  private readonly workspace: ReturnType<typeof createEigenWorkspace>;

  constructor(size: number) {
    this.size = size;
    this.re = new Float64Array(size);
    this.im = new Float64Array(size);
    this.vectors = new Float64Array(size * size);
    this.workspace = createEigenWorkspace(size);
  }

  /** Eigenvalues only, into `re` and `im`. */
  roots(matrix: Float64Array): EigenOutcome {
    return eigenvalues(matrix, this.size, this.workspace, this.re, this.im);
  }

  /**
   * All modes: conjugate pairs once, real roots each; roots below `neutral` in magnitude are left out as neutral
   * (position and heading of a free aircraft).
   *
   * Energy by motion from the rates part of the vector, strain by spring from the coordinate part. A mode is
   * structural when the springs of the boom restore at least three quarters of it, E_strain ≥ ¾·E_kinetic, so that
   * air and weight hardly take part, or when at least half of it moves in the boom's bending; otherwise it is of
   * rigid-body type.          (README eq. 1–5)
   *
   * @param matrix A, shape (size²)
   * @param energy energy model; its states are [coordinates, rates, …]
   * @param neutral [1/s]
   * @throws {BugError} if the matrix is not finite or the iteration does not converge
   * @source own derivation, README eq. 1–3
   * @verified modes.test.ts: analytic/coupled-oscillators (two masses on springs: frequencies and energy shares,
   *           rtol 1e-9), rigid body on one spring, series of bending and accumulator
   */
  modes(matrix: Float64Array, energy: EnergyModel, neutral = 1e-6): PairMode[] {
    const n = this.size;
    const outcome = this.roots(matrix);
    if (outcome !== "converged") throw new BugError(`eigenvalues: ${outcome}`);
    const shapes = eigenvectors(matrix, n, this.re, this.im, this.workspace, this.vectors);
    if (shapes !== "converged") throw new BugError(`eigenvectors: ${shapes}`);
    const modes: PairMode[] = [];
    for (let k = 0; k < n; k++) {
      const pair = this.im[k] !== 0;
      if (Math.hypot(this.re[k], this.im[k]) > neutral) modes.push(this.describe(k, pair, energy));
      if (pair) k++;
    }
    return modes;
  }

  private describe(k: number, pair: boolean, energy: EnergyModel): PairMode {
    const full = energy.basis.length / energy.coordinates;
    const motion = new Float64Array(MOTIONS.length);
    const strain = new Float64Array(SPRINGS.length);
    const inner = energy.vibration?.place.length ?? 0;
    const shape = new Float64Array(2 * (full + inner));
    const ofCarrier = new Float64Array(energy.carrier === undefined ? 0 : CARRIER_MOTIONS.length);
    let tipLateral = 0;
    let linked = 0;
    let length = 0;
    for (let c = 0; c < (pair ? 2 : 1); c++) {
      const column = k + c;
      this.expand(energy, energy.coordinates, column, full, this.rate);
      const v = this.rate;
      addKinetic(v, full, energy, motion);
      if (energy.vibration !== undefined)
        tipLateral += this.addVibration(column, energy, shape.subarray(2 * full), c, motion, strain);
      else if (full === 9) tipLateral += 0.5 * energy.tipMass * v[7] * v[7];
      const state = (i: number): number => clean(this.vectors[i * this.size + column]);
      if (energy.carrier !== undefined) addCarrierKinetic(energy.carrier, state, ofCarrier);
      for (let i = 0; i < full; i++) {
        const weighted = v[i] * Math.sqrt(coordinateMass(i, energy));
        shape[2 * i + c] = weighted;
        length += weighted * weighted;
      }
      for (let i = full; i < full + inner; i++) length += shape[2 * i + c] ** 2;
      if (energy.boom !== undefined) {
        this.expand(energy, 0, column, full, this.place);
        if (energy.carrier !== undefined) tipAgainstCarrier(energy.carrier, state, this.place);
        const snubber = energy.boom.snubberState;
        const travel = snubber < 0 ? 0 : clean(this.vectors[snubber * this.size + column]);
        addStrain(this.place, travel, energy.boom, strain);
        for (const link of energy.links ?? []) linked += linkStrain(this.place, full, link);
      }
    }
    const stored = sum(strain) + linked;
    const kinetic = ofCarrier.length === 0 ? sum(motion) : sum(motion) + sum(ofCarrier);
    const strainShare = stored / Math.max(kinetic, stored, Number.MIN_VALUE);
    let lateral = motion[1] + motion[3] + motion[5] + tipLateral;
    if (ofCarrier.length > 0) lateral += ofCarrier[1] + ofCarrier[3] + ofCarrier[5];
    const plane: ModePlane = lateral > 0.5 * kinetic ? "lateral" : "longitudinal";
    scale(motion, kinetic);
    scale(ofCarrier, kinetic);
    scale(strain, stored);
    scale(shape, Math.sqrt(length));
    return {
      real: this.re[k],
      imag: Math.abs(this.im[k]),
      class: strainShare >= STRUCTURAL_SHARE || motion[7] >= BENDING_SHARE ? "structural" : "rigid-body-type",
      plane,
      motion,
      ...(energy.carrier === undefined ? {} : { carrier: ofCarrier }),
      strain,
      strainShare,
      ...(energy.links === undefined ? {} : { linkStrain: stored > 0 ? linked / stored : 0 }),
      shape,
    };
  }

  /**
   * Kinetic energy of the boom, ½ẇᵀM̂ẇ with what couples tip and inner coordinates split evenly, strain of the motions, and the
   * inner part of the shape.                                                                    (README eq. 5)
   * @returns the lateral part of the kinetic energy
   */
  private addVibration(
    column: number,
    energy: EnergyModel,
    shape: Float64Array,
    c: number,
    motion: Float64Array,
    strain: Float64Array,
  ): number {
    const { mass, place, rate, stiffness, lateral } = energy.vibration!;
    const order = 3 + place.length;
    const v = this.rate;
    const [cos, sin] = [Math.cos(energy.boom!.angleDown), Math.sin(energy.boom!.angleDown)];
    const at = (state: number): number => (state < 0 ? 0 : clean(this.vectors[state * this.size + column]));
    const w = [-cos * v[6] + sin * v[8], sin * v[6] + cos * v[8], v[7], ...rate.map(at)];
    let sideways = 0;
    for (let i = 0; i < order; i++) {
      let momentum = 0;
      for (let j = 0; j < order; j++) momentum += mass[i * order + j] * w[j];
      const kinetic = 0.5 * w[i] * momentum;
      motion[i < 3 ? 6 : 7] += kinetic;
      if (i === 2 || (i > 2 && lateral[i - 3])) sideways += kinetic;
    }
    place.forEach((state, i) => {
      strain[4] += 0.5 * stiffness[i] * at(state) ** 2;
      shape[2 * i + c] = w[3 + i] * Math.sqrt(mass[(3 + i) * (order + 1)]);
    });
    return sideways;
  }

  /** All coordinates (from offset 0) or their rates (from offset nq) of one column of the vectors. */
  private expand(energy: EnergyModel, offset: number, column: number, full: number, out: Float64Array): void {
    const nq = energy.coordinates;
    const { basis } = energy;
    for (let i = 0; i < full; i++) {
      let value = 0;
      for (let j = 0; j < nq; j++) value += basis[i * nq + j] * this.vectors[(offset + j) * this.size + column];
      out[i] = clean(value);
    }
  }
}

function clean(value: number): number {
  return Math.abs(value) < ROUND_OFF ? 0 : value;
}

/** Modes of one matrix; see `ModeAnalysis.modes`. */
export function modesOf(matrix: Float64Array, size: number, energy: EnergyModel): PairMode[] {
  return new ModeAnalysis(size).modes(matrix, energy);
}

function sum(values: Float64Array): number {
  let total = 0;
  for (const value of values) total += value;
  return total;
}

function scale(values: Float64Array, by: number): void {
  if (by > 0) for (let i = 0; i < values.length; i++) values[i] /= by;
}

function coordinateMass(i: number, energy: EnergyModel): number {
  const { mass } = energy;
  if (i < 3) return mass.mass;
  if (i >= 6) return energy.tipMass;
  return i === 3 ? mass.Ixx : i === 4 ? mass.Iyy : mass.Izz;
}

/** Kinetic energy by motion; the roll–yaw product of inertia is shared equally between the two rates. */
function addKinetic(v: Float64Array, full: number, energy: EnergyModel, out: Float64Array): void {
  const { mass, Ixx, Iyy, Izz, Ixy, Ixz, Iyz } = energy.mass;
  const p = v[3];
  const q = v[4];
  const r = v[5];
  for (let i = 0; i < 3; i++) out[i] += 0.5 * mass * v[i] * v[i];
  out[3] += 0.5 * p * (Ixx * p - Ixy * q - Ixz * r);
  out[4] += 0.5 * q * (Iyy * q - Ixy * p - Iyz * r);
  out[5] += 0.5 * r * (Izz * r - Ixz * p - Iyz * q);
  if (full === 9 && energy.vibration === undefined)
    out[6] += 0.5 * energy.tipMass * (v[6] * v[6] + v[7] * v[7] + v[8] * v[8]);
}

function linkStrain(
  place: Float64Array,
  full: number,
  { stiffness, slope }: { readonly stiffness: number; readonly slope: Float64Array },
): number {
  let travel = 0;
  for (let i = 0; i < full; i++) travel += slope[i] * place[i];
  return 0.5 * stiffness * travel * travel;
}

function addStrain(
  place: Float64Array,
  travel: number,
  boom: NonNullable<EnergyModel["boom"]>,
  out: Float64Array,
): void {
  const c = Math.cos(boom.angleDown);
  const s = Math.sin(boom.angleDown);
  const axial = -c * place[6] + s * place[8];
  const swing = s * place[6] + c * place[8];
  const bent = boom.snubberState < 0 ? swing : swing - travel;
  out[0] += 0.5 * boom.axial * axial * axial;
  out[1] += 0.5 * boom.lateral * place[7] * place[7];
  if (Number.isFinite(boom.bending)) out[2] += 0.5 * boom.bending * bent * bent;
  if (boom.snubberState >= 0) out[3] += 0.5 * boom.accumulator * travel * travel;
}

/**
 * Name of a mode from its largest energy shares: one motion from 60 % on, otherwise "coupled X–Y" in the order of
 * `MOTIONS`; "no motion" for a root in which nothing moves (a law that acts on nothing).
 *
 * @param mode its `motion` shares [1], shape (8)
 * @returns name and the share that the name stands for [1]
 * @source project convention, README eq. 4
 * @verified modes.test.ts (59.9 % and 60.1 %)
 */
export function dominantMotion(mode: Pick<PairMode, "motion" | "carrier">): {
  readonly name: string;
  readonly share: number;
} {
  const names: readonly string[] = mode.carrier === undefined ? MOTIONS : [...MOTIONS, ...CARRIER_MOTIONS];
  const shares = mode.carrier === undefined ? mode.motion : Float64Array.of(...mode.motion, ...mode.carrier);
  const order = Array.from(shares.keys()).sort((a, b) => shares[b] - shares[a] || a - b);
  const [first, second] = order;
  if (shares[first] === 0) return { name: "no motion", share: 0 };
  if (shares[first] >= 0.6) return { name: names[first], share: shares[first] };
  const [a, b] = first < second ? [first, second] : [second, first];
  return { name: `coupled ${names[a]}–${names[b]}`, share: shares[first] + shares[second] };
}
