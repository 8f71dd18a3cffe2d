/**
 * Result of the part `certainty` of `hold`: how sure are we of the damping of the hooked pair?
 *
 * Keys end in their unit; `_1` is a pure number or a share. Everything is plain JSON data.
 */
import type { ModePlane } from "../hold/types.ts";

/** One value that was sampled. */
export interface UncertainValue {
  readonly path: string;
  /** As written in the pair. */
  readonly text: string;
  /** SI. */
  readonly nominal: number;
  /** Standard deviation, SI. */
  readonly sigma: number;
  readonly distribution: string;
}

/** Where a value stands at a point, in standard deviations of its normal score. */
export interface ValueAt {
  readonly path: string;
  readonly score_1: number;
}

/** What one value, or one group of correlated values, adds to the uncertainty of the worst damping ratio. */
export interface Driver {
  /** Paths of the group; one unless values are correlated. */
  readonly paths: readonly string[];
  /** Share of the variance that learning the group alone would take away, with one standard deviation of the estimate. */
  readonly firstOrder_1: number;
  readonly firstOrderError_1: number;
  /** Share with everything it acts together with. */
  readonly total_1: number;
  readonly totalError_1: number;
  /** Share in the variance of the linear model at the nominal point. */
  readonly linear_1: number;
  /** Change of the nominal worst damping ratio per standard deviation of each path, by eigenvectors. */
  readonly slopes_1: readonly number[];
}

/** What a ground test would change in one plane. */
export interface TestGain {
  readonly test: string;
  /** Share of the variance of the worst damping ratio that the test would take away on average. */
  readonly varianceBought_1: number;
  /** Standard deviation of the worst damping ratio after the test. */
  readonly standardDeviation_1: number;
  /** Probability of missing the criterion if the test confirms the nominal values. */
  readonly failing_1: number;
  /** Probability that after the test alone the criterion is known to be met, or to be missed, with the stated confidence. */
  readonly decides_1: number;
}

/** A ground test as the pair declares it. */
export interface GroundTest {
  readonly name: string;
  readonly measures: readonly string[];
  /** Standard deviation of the measurement as a share of the value. */
  readonly accuracy_1: number;
  readonly cost: string | null;
}

export interface PlaneCertainty {
  readonly plane: ModePlane;
  /** Criterion of the damping ratio of rigid-body-type oscillations. */
  readonly criterion_1: number;
  /** Worst damping ratio at the nominal values; `null` without an oscillation. */
  readonly nominal_1: number | null;
  /** Of the mass state in which it is the worst. */
  readonly nominalMass: string | null;
  readonly samples: number;
  readonly mean_1: number;
  readonly standardDeviation_1: number;
  readonly quantiles: readonly { readonly probability_1: number; readonly dampingRatio_1: number }[];
  readonly histogram: { readonly from_1: number; readonly width_1: number; readonly counts: readonly number[] };
  /** Samples in which some mode of the plane misses its criterion, of either class or as a real root. */
  readonly failing: {
    readonly count: number;
    readonly of: number;
    readonly probability_1: number;
    readonly lower_1: number;
    readonly upper_1: number;
    /** Of them: with every rigid-body-type oscillation above the criterion. */
    readonly otherwise: number;
  };
  /** Damping ratio that 95 % of all pairs exceed, with the stated confidence. */
  readonly lowerBound_1: number;
  /** Share of the samples in which each mass state has the worst damping ratio. */
  readonly worstMass: readonly { readonly mass: string; readonly share_1: number }[];
  readonly worstCase: {
    readonly dampingRatio_1: number;
    /** Values that matter there; `adds_1` is what the damping ratio gains when that value alone goes back to nominal. */
    readonly values: readonly (ValueAt & { readonly adds_1: number })[];
    /** Starts of the search, and how many of them ended at this value. */
    readonly starts: number;
    readonly agreeing: number;
    readonly evaluations: number;
  } | null;
  readonly distance: {
    readonly outcome: "converged" | "on the limit" | "not reached" | "flat" | "no value";
    /** Negative when the nominal values fail. */
    readonly sigma_1: number;
    readonly values: readonly ValueAt[];
    /** Φ(−distance). */
    readonly probability_1: number;
  };
  /** By falling total share. */
  readonly drivers: readonly Driver[];
  /** Pairs of points behind the shares. */
  readonly driverPairs: number;
  /** Linear standard deviation at the nominal point, by eigenvectors. */
  readonly linearDeviation_1: number | null;
  /** By falling variance bought. */
  readonly tests: readonly TestGain[];
}

export interface ConditionCertainty {
  readonly condition: string;
  readonly masses: readonly string[];
  readonly method: "Sobol" | "Latin hypercube";
  readonly samples: number;
  readonly seed: number;
  readonly confidence_1: number;
  readonly bound_1: number;
  readonly values: readonly UncertainValue[];
  readonly correlations: number;
  /** Uncertain values of the pair that the modes do not rest on. */
  readonly notUsed: readonly string[];
  /** Samples that describe a pair that cannot exist (left out), and that have no trim (counted as failing). */
  readonly impossible: number;
  readonly noTrim: number;
  readonly planes: readonly PlaneCertainty[];
}

export interface CertaintyResult {
  readonly groundTests: readonly GroundTest[];
  readonly conditions: readonly ConditionCertainty[];
}
