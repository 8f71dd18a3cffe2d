import { fromNormalScore } from "../../math/distributions/index.ts";
import { DomainError, InputError } from "../../math/errors.ts";
import {
  type HoldCondition,
  type HoldInputs,
  type ModePlane,
  operatingPoint,
  PointModel,
  planeMargin,
  readHoldInputs,
} from "../hold/index.ts";
import type { PatchedPair } from "./patched-pair.ts";
import type { Variables } from "./variables.ts";

export const PLANES: readonly ModePlane[] = ["longitudinal", "lateral"];

/** "impossible": the values describe a pair that cannot exist. */
export type SampleStatus = "modes" | "no trim" | "impossible";

/** What one mass state comes to: by plane worst ζ (NaN without an oscillation) and smallest margin of any mode. */
interface MassOutcome {
  readonly z: Float64Array;
  status: SampleStatus;
  readonly zeta: Float64Array;
  readonly margin: Float64Array;
}

/** Outcomes of a mass state that are kept: neighbouring points of a search often change other mass states only. */
const KEPT = 6;

/**
 * Modes of the operating points of one condition as a function of the uncertain values.
 *
 * A sample is read like a pair: the values are set in a copy, which is read again into physics arguments and linearised about its own
 * trim. Only the ratio along the stroke is kept where nothing behind it is uncertain. A mass state is computed again only when
 * one of its values has changed.
 */
export class SampledModel {
  readonly variables: Variables;
  readonly masses: readonly string[];
  /** After `evaluate`, by plane: worst ζ over the mass states (NaN without an oscillation). */
  readonly zeta = new Float64Array(2);
  /** After `evaluate`, by plane: smallest margin against the criteria; −1 without a trim. */
  readonly margin = new Float64Array(2);
  /** After `evaluate`, by plane: index of the mass state of `zeta`; −1 without one. */
  readonly worstMass = new Int32Array(2);
  /** Operating points computed so far. */
  computed = 0;

  private readonly patched: PatchedPair;
  private readonly conditionName: string;
  private readonly keep: Pick<HoldInputs, "tipPerJack"> | undefined;
  private readonly kept: readonly MassOutcome[][];
  private readonly concerns: readonly (readonly number[])[];
  private readonly scores: Float64Array;

  /**
   * @param patched   copy of the pair
   * @param condition nominal condition
   * @param variables what is uncertain
   * @param keep      ratio along the stroke, where no uncertain value lies behind it
   */
  constructor(
    patched: PatchedPair,
    condition: HoldCondition,
    variables: Variables,
    keep: Pick<HoldInputs, "tipPerJack"> | undefined,
  ) {
    this.patched = patched;
    this.conditionName = condition.name;
    this.variables = variables;
    this.keep = keep;
    this.masses = condition.masses;
    this.scores = new Float64Array(variables.paths.length);
    this.kept = this.masses.map(() => []);
    this.concerns = this.masses.map((mass) =>
      Array.from(variables.paths.keys()).filter((j) => variables.massesOf[j]!.has(mass)),
    );
  }

  /**
   * Worst damping of every plane at a point of independent standard normal numbers.
   *
   *     z = L·u,   x_j = F_j⁻¹(Φ(z_j))                                        (README eq. 1)
   *
   * @param u shape (n)
   */
  evaluate(u: Float64Array, factor = this.variables.factor): SampleStatus {
    const n = u.length;
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let j = 0; j <= i; j++) sum += factor[i * n + j]! * u[j]!;
      this.scores[i] = sum;
    }
    return this.evaluateScores(this.scores);
  }

  /** As `evaluate`, at given normal scores, which may be correlated or not; shape (n). */
  evaluateScores(z: Float64Array): SampleStatus {
    let inputs: HoldInputs | null | undefined;
    this.zeta.fill(Number.NaN);
    this.margin.fill(Number.POSITIVE_INFINITY);
    this.worstMass.fill(-1);
    let status: SampleStatus = "modes";
    for (let m = 0; m < this.masses.length; m++) {
      let outcome = this.known(m, z);
      if (outcome === undefined) {
        inputs = inputs === undefined ? this.read(z) : inputs;
        outcome = this.compute(m, z, inputs);
      }
      if (outcome.status === "impossible") return this.refuse("impossible");
      if (outcome.status === "no trim") status = "no trim";
      for (let p = 0; p < 2; p++) {
        if (outcome.margin[p]! < this.margin[p]!) this.margin[p] = outcome.margin[p]!;
        if (!(outcome.zeta[p]! >= this.zeta[p]!) && !Number.isNaN(outcome.zeta[p]!)) {
          this.zeta[p] = outcome.zeta[p]!;
          this.worstMass[p] = m;
        }
      }
    }
    return status === "no trim" ? this.refuse("no trim") : "modes";
  }

  /** Linear model of one mass state at normal scores, for the slopes of its roots; `null` where it has none. */
  matrixAt(z: Float64Array, mass: string): { readonly matrix: Float64Array; readonly size: number } | null {
    const inputs = this.read(z);
    if (inputs === null) return null;
    const model = this.pointModel(inputs, mass);
    return model?.trimmed ? possible(() => model.matrix()) : null;
  }

  private refuse(status: SampleStatus): SampleStatus {
    this.zeta.fill(Number.NaN);
    this.margin.fill(status === "no trim" ? -1 : Number.NaN);
    this.worstMass.fill(-1);
    return status;
  }

  private known(m: number, z: Float64Array): MassOutcome | undefined {
    const kept = this.kept[m]!;
    const at = kept.findIndex((one) => this.concerns[m]!.every((j) => one.z[j] === z[j]));
    if (at < 0) return undefined;
    const found = kept[at]!;
    // most recently used first
    for (let i = at; i > 0; i--) kept[i] = kept[i - 1]!;
    kept[0] = found;
    return found;
  }

  /** The pair at normal scores; `null` when it cannot exist. */
  private read(z: Float64Array): HoldInputs | null {
    const { paths, marginals } = this.variables;
    for (let j = 0; j < paths.length; j++) this.patched.set(paths[j]!, fromNormalScore(marginals[j]!, z[j]!));
    const { pair } = this.patched;
    return possible(() => readHoldInputs(() => ({ pair, paths: none }), this.keep).inputs);
  }

  private pointModel(inputs: HoldInputs, mass: string): PointModel | null {
    const condition = inputs.conditions.find(({ name }) => name === this.conditionName)!;
    this.computed++;
    return possible(() => new PointModel(inputs, operatingPoint(inputs, condition, mass)));
  }

  private compute(m: number, z: Float64Array, inputs: HoldInputs | null): MassOutcome {
    const kept = this.kept[m]!;
    const outcome: MassOutcome =
      kept.length < KEPT
        ? { z: new Float64Array(z.length), status: "modes", zeta: new Float64Array(2), margin: new Float64Array(2) }
        : kept.pop()!;
    kept.unshift(outcome);
    outcome.z.set(z);
    outcome.zeta.fill(Number.NaN);
    const model = inputs === null ? null : this.pointModel(inputs, this.masses[m]!);
    outcome.status = model === null ? "impossible" : model.trimmed ? "modes" : "no trim";
    if (model === null || inputs === null || !model.trimmed) return outcome;
    const modes = possible(() => model.modes());
    if (modes === null) {
      outcome.status = "impossible";
      return outcome;
    }
    for (let p = 0; p < 2; p++) {
      const plane = PLANES[p]!;
      outcome.margin[p] = planeMargin(inputs, modes, plane);
      for (const mode of modes) {
        if (mode.plane !== plane || mode.class === "structural" || mode.imag === 0) continue;
        const zeta = -mode.real / Math.hypot(mode.real, mode.imag);
        if (!(zeta >= outcome.zeta[p]!)) outcome.zeta[p] = zeta;
      }
    }
    return outcome;
  }
}

const none = (): string[] => [];

/** What a function returns; `null` when the values are outside of what can exist. */
function possible<T>(make: () => T): T | null {
  try {
    return make();
  } catch (error) {
    if (error instanceof DomainError || error instanceof InputError) return null;
    throw error;
  }
}
