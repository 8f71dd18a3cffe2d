import type { HookonOutcome } from "../../physics/hookon-motion/types.ts";
import type { Finding, Limit } from "../finding/types.ts";
import type { ClaimsResult } from "../hookon-claims/index.ts";

export { HOOKON_OUTCOMES, type HookonOutcome } from "../../physics/hookon-motion/types.ts";

/** A share of approaches with its two-sided intervals. */
export interface OutcomeShare {
  readonly count: number;
  readonly of: number;
  readonly share_1: number;
  /** Clopper and Pearson. */
  readonly exact_1: ShareBounds;
  /** Wilson. */
  readonly score_1: ShareBounds;
}
export interface ShareBounds {
  readonly lower: number;
  readonly upper: number;
}

/** A measured quantity of the approaches that had it. */
export interface SampledQuantity {
  /** Name of the column of the table. */
  readonly key: string;
  readonly title: string;
  readonly unit: string;
  readonly count: number;
  readonly mean: number;
  readonly p05: number;
  readonly p50: number;
  readonly p95: number;
  readonly p99: number;
  readonly largest: number;
  /** Mean plus three standard deviations. */
  readonly mean3Sigma: number;
}

/** Where the head passes the plane of the mouth, against its centre: right and down [m]. */
export interface MissDistribution {
  readonly count: number;
  readonly meanRight_m: number;
  readonly meanDown_m: number;
  readonly sigmaRight_m: number;
  readonly sigmaDown_m: number;
  readonly correlation_1: number;
  readonly radius_m: { readonly p50: number; readonly p90: number; readonly p95: number; readonly p99: number };
  /** Largest distance of the head's centre from the axis that still enters: mouth less head. */
  readonly captureRadius_m: number;
  /** Share inside that circle: counted, and of normal scatter with the same moments and of equal scatter about no offset. */
  readonly inside_1: number;
  readonly normal_1: number;
  readonly rayleigh_1: number;
}

/** One approach in the pictures. */
export interface ShownApproach {
  readonly index: number;
  readonly outcome: HookonOutcome;
  readonly missRight_m: number | null;
  readonly missDown_m: number | null;
  readonly closure_m_s: number | null;
  readonly peakAxial_N: number | null;
}

/** All approaches of one set of circumstances. */
export interface HookonCase {
  readonly key: string;
  readonly title: string;
  readonly sigma: string;
  readonly sigma_m_s: number;
  readonly controller: string;
  /** Class of light; `null`: the values of the pair as they stand. */
  readonly light: string | null;
  /** The operator steers the boom while the controller flies. */
  readonly bothAtOnce: boolean;
  readonly samples: number;
  readonly outcomes: readonly (OutcomeShare & { readonly outcome: HookonOutcome })[];
  readonly success: OutcomeShare;
  /** `null` where fewer than three approaches came to the mouth. */
  readonly miss: MissDistribution | null;
  readonly quantities: readonly SampledQuantity[];
  /** Approaches for at least one success: by the share found, and by the lower bound of its exact interval; `null`: beyond 1000. */
  readonly attempts: { readonly byShare: number | null; readonly byBound: number | null };
  readonly shown: readonly ShownApproach[];
}

/** One straight run at a closure. */
export interface WindowPoint {
  readonly closure_m_s: number;
  readonly outcome: HookonOutcome;
  readonly tripped: boolean;
  readonly locked: boolean;
  readonly peakAxial_N: number;
  readonly bufferTravel_m: number | null;
}

export interface ClosureWindow {
  /** From energies: README of `physics/hookon-motion`. `null`: no such end. */
  readonly closedForm: {
    readonly lower_m_s: number | null;
    readonly upper_m_s: number | null;
    readonly upperBecause: string;
  };
  /** From straight runs on the axis in still air. */
  readonly simulated: {
    readonly lower_m_s: number | null;
    readonly upper_m_s: number | null;
    readonly upperBecause: string;
  };
  /** Closed form over simulation, less 1. */
  readonly agreement_1: { readonly lower: number | null; readonly upper: number | null };
  readonly planned_m_s: number;
  readonly sweep: readonly WindowPoint[];
}

/** Straight runs in still air over offset and closure. */
export interface CaptureMap {
  /** Angle of the path to the axis of the socket. */
  readonly angle_deg: number;
  readonly offset_m: readonly number[];
  readonly closure_m_s: readonly number[];
  /** Row for each closure, column for each offset. */
  readonly outcome: readonly (readonly HookonOutcome[])[];
  /** Largest offset that latches at any closure; `null`: none. */
  readonly captureRadius_m: number | null;
}

/** Vertical distance that is left in a breakaway, by the time of reaction. */
export interface BreakawayCurve {
  readonly gap_m: number;
  readonly closing_m_s: number;
  readonly points: readonly {
    readonly reaction_s: number;
    /** Least vertical distance while the carrier flies on, and while it climbs; `null`: they never part, or it never climbs. */
    readonly alone_m: number | null;
    readonly both_m: number | null;
  }[];
  /** Least vertical distance at the reaction that the pair states, the carrier flying on; `null`: they never part. */
  readonly planned_m: number | null;
  /** Longest reaction that leaves the required distance, the carrier flying on; `null`: even at once is too late. */
  readonly longestReaction_s: number | null;
}

/** Course of one approach for a picture. */
export interface HookonReplay {
  readonly case: string;
  readonly index: number;
  readonly outcome: HookonOutcome;
  readonly time_s: readonly number[];
  /** Place of mouth and head in H, from the mouth at rest: aft, right, down [m]. */
  readonly mouth_m: readonly (readonly [number, number, number])[];
  readonly head_m: readonly (readonly [number, number, number])[];
  readonly closure_m_s: readonly number[];
  readonly axial_kN: readonly number[];
  readonly side_kN: readonly number[];
  readonly buffer_mm: readonly number[];
  readonly gimbal_deg: readonly number[];
  readonly events: readonly { readonly time_s: number; readonly what: string }[];
}

/** Everything but the judgement. */
export interface ComputedHookon {
  readonly study: "hookon";
  readonly variant: string;
  readonly point: {
    readonly condition: string;
    readonly mass: string;
    readonly airspeed_m_s_EAS: number;
    readonly altitude_m: number;
    readonly boomAngle_deg: number;
    readonly mass_kg: number;
  };
  readonly seed: number;
  readonly samples: number;
  readonly confidence_1: number;
  readonly attemptsFor_1: number;
  readonly design: string;
  readonly criteria: {
    readonly success_1: number;
    readonly closure_m_s: number;
    readonly windowMargin_m_s: number;
    readonly axialLoad_N: number;
    readonly sideLoad_N: number;
    readonly breakawayDistance_m: number;
  };
  readonly cases: readonly HookonCase[];
  readonly window: ClosureWindow;
  readonly maps: readonly CaptureMap[];
  readonly breakaway: BreakawayCurve | null;
  readonly replay: HookonReplay | null;
  readonly assumptions: readonly string[];
  readonly notAnalysed: readonly string[];
}

export interface HookonResult extends ComputedHookon {
  /** What the attempts flown may claim; `null` without `studies.hookon.claims`. */
  readonly claims: ClaimsResult | null;
  readonly findings: readonly Finding[];
  readonly limits: readonly Limit[];
}
