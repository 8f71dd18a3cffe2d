import { type HookedPair, type Linearisation, linearise, TangentialModel } from "../../physics/bodies/index.ts";
import { boundTravel, innerMass } from "../../physics/boom/index.ts";
import { type EnergyModel, ModeAnalysis, type PairMode, type VibrationEnergy } from "../../physics/modes/index.ts";
import type { TangentialRates } from "../../physics/snubber/index.ts";
import type { HoldInputs } from "./inputs.ts";
import { type Operating, pairAt, tangentialRates } from "./operating.ts";

/**
 * Linear models of one operating point for any tangential path: the nonlinear equations are linearised once with an
 * empty path and the path is added exactly (see physics/bodies, README eq. 11).
 */
export class PointModel {
  readonly at: Operating;
  readonly pair: HookedPair;
  readonly rates: TangentialRates;
  private readonly inputs: HoldInputs;
  private readonly tangential: TangentialModel;

  constructor(inputs: HoldInputs, at: Operating) {
    this.inputs = inputs;
    this.at = at;
    const empty = pairAt(inputs, { ...at, bending: 0, accumulator: 0, snubber: 0 });
    this.pair = empty;
    this.tangential = new TangentialModel(linearise(empty.motion, empty.state), inputs.boom.length);
    this.rates = tangentialRates(inputs, at, empty.hookedMass.tangential);
  }

  get trimmed(): boolean {
    return this.pair.trim.outcome === "trimmed";
  }

  /** The linear model without a tangential path. */
  get base(): Linearisation {
    return this.tangential.base;
  }

  /** Rates with other stiffness or snubber; the structural damping follows the bending stiffness. */
  ratesWith(change: Partial<Pick<Operating, "bending" | "accumulator" | "snubber">>): TangentialRates {
    return tangentialRates(this.inputs, { ...this.at, ...change }, this.pair.hookedMass.tangential);
  }

  /** All modes for a tangential path, or those of one plane. */
  modes(rates: TangentialRates = this.rates, plane?: PairMode["plane"]): PairMode[] {
    const n = this.tangential.sizeFor(rates);
    const A = scratch(n);
    this.tangential.assemble(rates, A);
    return planeModes(A, n, this.tangential.base, this.energy(rates, n), plane);
  }

  /** Matrix of the linear model, for export and checks. */
  matrix(rates: TangentialRates = this.rates): { matrix: Float64Array; size: number; names: string[] } {
    const size = this.tangential.sizeFor(rates);
    const matrix = new Float64Array(size * size);
    this.tangential.assemble(rates, matrix);
    const names = [...this.tangential.base.names];
    if (size < names.length) names.splice(2 * this.tangential.base.coordinates, 2);
    if (size > names.length) names.splice(2 * this.tangential.base.coordinates, 0, "snubber travel");
    return { matrix, size, names };
  }

  private energy(rates: TangentialRates, n: number): EnergyModel {
    const { base } = this.tangential;
    const { boom } = this.inputs;
    const tip = boom.tip.at(this.at.boomAngleDown);
    const vibration = this.vibration(rates);
    const relaxing = vibration === undefined ? n > base.size : n === base.size;
    const series = relaxing ? rates.bending : rates.bending === Infinity ? rates.accumulator : rates.bending;
    return {
      mass: this.at.mass.properties,
      tipMass: tip.effectiveTipMass,
      basis: base.basis,
      coordinates: base.coordinates,
      boom: {
        angleDown: this.at.boomAngleDown,
        length: boom.length,
        axial: tip.axial,
        lateral: tip.lateral,
        bending: series,
        accumulator: rates.accumulator,
        snubberState: relaxing ? 2 * base.coordinates : -1,
      },
      ...(vibration === undefined ? {} : { vibration }),
    };
  }

  /** Inertia of the boom with its bending motions for a path; the states are [coordinates, rates, travel and rate, motions, rates]. */
  private vibration(rates: TangentialRates): VibrationEnergy | undefined {
    const { motions } = this.pair.settings.boom;
    if (motions === undefined) return undefined;
    const share = boundTravel(rates);
    const { mass } = innerMass(motions, share);
    const omega = Array.from(motions.frequency);
    const travel = 2 * this.tangential.base.coordinates;
    const first = share === undefined ? [travel] : [];
    const motion = travel + 2 * first.length;
    const still = first.map(() => 0);
    return {
      mass,
      place: [...first, ...omega.map((_, i) => motion + i)],
      rate: [...first.map((at) => at + 1), ...omega.map((_, i) => motion + omega.length + i)],
      stiffness: [...still, ...omega.map((value) => value * value)],
      lateral: [...first.map(() => false), ...omega.map((_, i) => i >= motions.inSwingPlane)],
    };
  }
}

const matrices = new Map<number, Float64Array>();
function scratch(n: number): Float64Array {
  let A = matrices.get(n);
  if (A === undefined) {
    A = new Float64Array(n * n);
    matrices.set(n, A);
  }
  return A;
}

const analyses = new Map<number, ModeAnalysis>();
function analysis(n: number): ModeAnalysis {
  let found = analyses.get(n);
  if (found === undefined) {
    found = new ModeAnalysis(n);
    analyses.set(n, found);
  }
  return found;
}

/** Coupling between the planes below which they are analysed apart, relative to the largest entry of the row. */
const APART = 1e-9;
const LATERAL_MOTION = "boom lateral";
const LATERAL = new Set(["y", "roll", "yaw", "tip y", "y rate", "roll rate", "yaw rate", "tip y rate"]);

/**
 * Modes of the whole matrix, or of the longitudinal and the lateral part apart when nothing couples them, which a
 * symmetric pair guarantees: the same roots at a quarter of the cost, and no mode of mixed plane by round-off. Links of `energy`
 * must lie in one plane each or couple both.
 */
export function planeModes(
  A: Float64Array,
  n: number,
  base: Linearisation,
  energy: EnergyModel,
  plane?: PairMode["plane"],
): PairMode[] {
  const nq = base.coordinates;
  const snubber = energy.boom?.snubberState ?? -1;
  // behind the rates the matrix may have one state more than the base (snubber travel), or two less (travel with inertia, bound)
  const offset = (i: number): number => (i < 2 * nq ? 0 : base.size - n);
  const isLateral = (i: number): boolean => {
    if (i === snubber) return false;
    const name = base.names[i + offset(i)];
    return LATERAL.has(name) || name.startsWith("law") || name.startsWith(LATERAL_MOTION);
  };
  const lateral: number[] = [];
  const longitudinal: number[] = [];
  for (let i = 0; i < n; i++) (isLateral(i) ? lateral : longitudinal).push(i);
  if (coupled(A, n, longitudinal, lateral)) {
    return analysis(n)
      .modes(A, energy)
      .filter((mode) => plane === undefined || mode.plane === plane);
  }
  const modes: PairMode[] = [];
  for (const states of [longitudinal, lateral]) {
    if (plane !== undefined && (states === longitudinal) !== (plane === "longitudinal")) continue;
    const m = states.length;
    const part = scratch(1000 + m).subarray(0, m * m);
    for (let i = 0; i < m; i++) for (let j = 0; j < m; j++) part[i * m + j] = A[states[i] * n + states[j]];
    const kept = states.filter((i) => i < nq);
    const full = energy.basis.length / nq;
    const basis = new Float64Array(full * kept.length);
    for (let i = 0; i < full; i++)
      kept.forEach((j, k) => {
        basis[i * kept.length + k] = energy.basis[i * nq + j];
      });
    const at = (state: number): number => states.indexOf(state);
    const { vibration } = energy;
    const moved =
      vibration === undefined
        ? {}
        : { vibration: { ...vibration, place: vibration.place.map(at), rate: vibration.rate.map(at) } };
    const own = { ...energy, ...moved, basis, coordinates: kept.length };
    const boom = energy.boom && { ...energy.boom, snubberState: states.indexOf(snubber) };
    modes.push(...analysis(m).modes(part, boom === undefined ? own : { ...own, boom }));
  }
  return modes;
}

function coupled(A: Float64Array, n: number, longitudinal: readonly number[], lateral: readonly number[]): boolean {
  const largest = (i: number): number => {
    let size = 0;
    for (let j = 0; j < n; j++) size = Math.max(size, Math.abs(A[i * n + j]));
    return size;
  };
  const crosses = (rows: readonly number[], columns: readonly number[]): boolean =>
    rows.some((i) => {
      const limit = APART * largest(i);
      return columns.some((j) => Math.abs(A[i * n + j]) > limit);
    });
  return crosses(longitudinal, lateral) || crosses(lateral, longitudinal);
}

/**
 * Worst damping ratio of the oscillatory rigid-body-type modes of a plane; a real root that doubles faster than
 * the criterion counts as −1. `null` when the plane has no oscillatory rigid-body-type mode and no such root.
 */
export function worstDamping(
  modes: readonly PairMode[],
  plane: PairMode["plane"],
  timeToDouble: number,
): number | null {
  let worst: number | null = null;
  for (const mode of modes) {
    if (mode.plane !== plane || mode.class === "structural") continue;
    if (mode.imag === 0) {
      if (mode.real > Math.LN2 / timeToDouble) return -1;
      continue;
    }
    const zeta = -mode.real / Math.hypot(mode.real, mode.imag);
    if (worst === null || zeta < worst) worst = zeta;
  }
  return worst;
}

/**
 * Smallest margin of the modes of a plane against the criterion of their own class, in damping ratio; a real root counts
 * by its growth against the growth that the time to double allows. Negative when one is not met, 1 without modes.
 */
export function planeMargin(inputs: HoldInputs, modes: readonly PairMode[], plane: PairMode["plane"]): number {
  const { rigidBodyDamping, structuralDamping, timeToDouble } = inputs.criteria;
  let margin = 1;
  for (const mode of modes) {
    if (mode.plane !== plane) continue;
    const limit = mode.class === "structural" ? structuralDamping.value : rigidBodyDamping.value;
    const zeta = -mode.real / Math.hypot(mode.real, mode.imag);
    margin = Math.min(margin, mode.imag === 0 ? Math.LN2 / timeToDouble.value - mode.real : zeta - limit);
  }
  return margin;
}
