/** Variants of one pair beside each other: the key numbers of `hold`, the verdicts of every study. Plain JSON data. */
import type { Verdict } from "../../studies/finding/types.ts";
import type { ModePlane } from "../../studies/hold/types.ts";

export interface VerdictCount {
  readonly verdict: Verdict;
  readonly met: number;
  readonly notMet: number;
  readonly notAnalysed: number;
}

/** The least damped oscillation of rigid-body type of a plane, over all conditions and masses. */
export interface WorstMode {
  readonly dampingRatio_1: number;
  readonly mode: string;
  readonly frequency_Hz: number;
  readonly condition: string;
  readonly mass: string;
}

export interface PlaneNumbers {
  /** `null` when no such mode oscillates. */
  readonly worst: WorstMode | null;
  /** Airspeeds at which an oscillation of rigid-body type is neutral, between samples of the sweep; one mass. */
  readonly neutralAirspeeds_m_s_EAS: readonly number[];
  /** Ranges of airspeed in which every criterion of the plane is met at all masses. */
  readonly clearAirspeeds_m_s_EAS: readonly (readonly [from: number, to: number])[];
}

/** Lowest oscillation of the boom's own bending. */
export interface BoomBending {
  readonly plane: ModePlane;
  readonly frequency_Hz: number;
  readonly dampingRatio_1: number;
}

export interface HoldNumbers {
  readonly verdict: VerdictCount;
  /** At the first condition and mass. */
  readonly bendingStiffness_N_m: number;
  readonly accumulatorStiffness_N_m: number;
  readonly snubberRate_N_s_m: number;
  readonly planes: Readonly<Record<ModePlane, PlaneNumbers>>;
  /** Of which mass and over which airspeeds the neutral ones were searched; `null` without a sweep of airspeed. */
  readonly neutralSearch: { readonly mass: string; readonly from_m_s_EAS: number; readonly to_m_s_EAS: number } | null;
  /** Most that a mass needs without snubber; `null` when for one of them not even a rigid boom is enough, or none trims. */
  readonly stiffnessNeed_N_m: number | null;
  readonly snubberOptimum: {
    readonly rate_N_s_m: number;
    readonly dampingRatio_1: number;
    /** The best rate lies at an end of the searched range. */
    readonly atEnd: boolean;
  } | null;
  /** Lowest frequency of the boom alone with its jack locked, least along the stroke; `null` when its stiffness was measured. */
  readonly boomAlone_Hz: number | null;
  /** "none taken in" when the boom is a mass on springs, "does not oscillate" when its bending is all damped out. */
  readonly boomBending: BoomBending | "none taken in" | "does not oscillate";
}

/** Key numbers of `hookon`, in the design turbulence with the first controller. */
export interface HookonNumbers {
  readonly verdict: VerdictCount;
  readonly case: string;
  readonly success_1: number;
  /** Exact interval. */
  readonly success_1_interval: readonly [lower: number, upper: number];
  /** By the lower bound; `null`: no number up to a thousand is enough. */
  readonly attempts: number | null;
  readonly closure_m_s: readonly [lower: number | null, upper: number | null];
  readonly captureRadius_m: number | null;
  /** 99 % of the approaches that touched; `null`: none touched. */
  readonly axialLoad_N: number | null;
}

/** Key numbers of `release`, of the loading that is worst. */
export interface ReleaseNumbers {
  readonly verdict: VerdictCount;
  /** Cases that are clean with every loading, of how many. */
  readonly cleanCases: number;
  readonly cases: number;
  /** `null`: clean nowhere in the range with some loading. */
  readonly leastAirspeed_m_s_EAS: number | null;
  readonly largestThrust_N: number | null;
  /** Lower bound of the share of clean releases in the design turbulence. */
  readonly clean_1: number | null;
}

/** Key numbers of `balance`. */
export interface BalanceNumbers {
  readonly verdict: VerdictCount;
  readonly startMass_kg: number;
  readonly start_percentMac: number;
  /** Course with the least margin of the c.g. to its limits, in parts of the chord, and the leg of it. */
  readonly worst: { readonly margin_percentMac: number; readonly course: string; readonly leg: string };
  /** Load factor and elevator of the first planned release; `null` when there is none, or no control power. */
  readonly release: { readonly loadFactorStep_1: number; readonly elevator_deg: number | null } | null;
  /** `null` where the ground is not described. */
  readonly tipBack_deg: number | null;
}

export interface VariantNumbers {
  readonly variant: string;
  /** SHA-256 over every input of the variant. */
  readonly inputHash: string;
  readonly fit: VerdictCount | null;
  readonly hold: HoldNumbers | null;
  readonly hookon: HookonNumbers | null;
  readonly release: ReleaseNumbers | null;
  readonly balance: BalanceNumbers | null;
}

export interface VariantComparison {
  readonly schema: typeof COMPARISON_SCHEMA;
  readonly davit: string;
  readonly pair: string;
  readonly overrides: readonly string[];
  /** Damping ratio that oscillations of rigid-body type must have; `null` when the studies do not say. */
  readonly dampingCriterion_1: number | null;
  readonly variants: readonly VariantNumbers[];
}

export const COMPARISON_SCHEMA = "davit-comparison/1";
