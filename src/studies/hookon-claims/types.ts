/** What trials of hook-on may claim. Keys end in their unit; plain JSON data. */

/** A share of captures with everything that may be said about it. */
export interface ShareEstimate {
  readonly hits: number;
  readonly of: number;
  /** `null` without attempts. */
  readonly share_1: number | null;
  /** Exact one-sided bounds, each at the stated confidence; 0 and 1 without attempts. */
  readonly lower_1: number;
  readonly upper_1: number;
  /** Exact two-sided interval (Clopper–Pearson), and by scores (Wilson). */
  readonly exact: { readonly lower_1: number; readonly upper_1: number };
  readonly score: { readonly lower_1: number; readonly upper_1: number };
  /** Beta posterior: mean and central interval of the stated confidence. */
  readonly posterior: { readonly mean_1: number; readonly lower_1: number; readonly upper_1: number };
}

/** What the attempts of a class say about its target. */
export type ClaimVerdict = "demonstrated" | "not demonstrated" | "shown to fall short" | "no attempts";

/** Attempts to carry fuel for; `null` where no number is enough. */
export interface AttemptsToCarry {
  readonly atShare: number | null;
  readonly atLower: number | null;
  readonly atUpper: number | null;
}

/** The log beside a simulated share. */
export interface PredictionCheck {
  readonly title: string;
  readonly hits: number;
  readonly of: number;
  readonly share_1: number;
  /** Exact two-sided probability of such a difference between two groups of one share (Fisher). */
  readonly p_1: number;
  readonly differs: boolean;
  /** Captures in the log that would have shown a difference: at most, at least; −1 and attempts + 1 where none would. */
  readonly showsBelow: number;
  readonly showsAbove: number;
}

/** Misses of the attempts that reached the contact plane, as a normal distribution. */
export interface MissScatter {
  readonly count: number;
  readonly meanRight_m: number;
  readonly meanDown_m: number;
  readonly sigmaRight_m: number;
  readonly sigmaDown_m: number;
  readonly correlation_1: number;
  /** Share inside the capture radius if misses were normal, and the share of the log; `null` without a radius. */
  readonly inCircle_1: number | null;
  readonly counted_1: number | null;
}

export interface ClaimClass {
  readonly name: string;
  readonly sigmaUpTo_m_s: number | null;
  readonly target_1: number;
  readonly targetSource: string;
  readonly estimate: ShareEstimate;
  readonly verdict: ClaimVerdict;
  /** Further successes without a failure until the target is demonstrated; `null` beyond ten million. */
  readonly further: number | null;
  readonly attempts: AttemptsToCarry;
  /** Outcomes with their counts, most frequent first. */
  readonly outcomes: readonly { readonly outcome: string; readonly count: number }[];
  readonly misses: MissScatter | null;
  readonly prediction: PredictionCheck | null;
  /** Failures among the first 1, 2, … attempts. */
  readonly failuresAfter: readonly number[];
}

/** Attempts that share a word of a column, such as a controller. */
export interface ClaimGroup {
  readonly name: string;
  readonly hits: number;
  readonly of: number;
  readonly lower_1: number;
  readonly upper_1: number;
  /** Exact two-sided probability of such a difference from all others. */
  readonly p_1: number;
}

export interface ClaimGrouping {
  readonly by: "turbulence" | "light" | "controller";
  readonly groups: readonly ClaimGroup[];
  /** Least of the probabilities times their number, at most 1 (Bonferroni). */
  readonly least_1: number;
}

/** First against second half of the attempts. */
export interface LearningCheck {
  readonly first: { readonly hits: number; readonly of: number };
  readonly second: { readonly hits: number; readonly of: number };
  readonly p_1: number;
}

/** A plan of trials that may end early. */
export interface SequentialResult {
  readonly acceptable_1: number;
  readonly unacceptable_1: number;
  readonly most: number;
  /** Risks asked for, and those that the plan has. */
  readonly refusingGoodAsked_1: number;
  readonly acceptingBadAsked_1: number;
  readonly refusingGood_1: number;
  readonly acceptingBad_1: number;
  /** By number of attempts from 0: most failures to accept (−1: not yet), fewest to refuse (attempts + 1: not yet). */
  readonly acceptAt: readonly number[];
  readonly refuseAt: readonly number[];
  /** Over the true share, same length. */
  readonly share_1: readonly number[];
  readonly accept_1: readonly number[];
  readonly expectedAttempts: readonly number[];
  readonly expectedAtAcceptable: number;
  readonly expectedAtUnacceptable: number;
  /** Attempts in order, class by class. */
  readonly classes: readonly {
    readonly name: string;
    readonly outcome: "accepted" | "refused" | "go on";
    readonly attempts: number;
    readonly failures: number;
  }[];
}

export interface ClaimsResult {
  readonly confidence_1: number;
  readonly recovery_1: number;
  readonly attemptsCarried: number | null;
  readonly goAround: "failed attempt" | "no attempt";
  readonly prior: { readonly hits: number; readonly misses: number };
  readonly captureRadius_m: number | null;
  /** File of the log and days of its first and last attempt; `null` without a log. */
  readonly log: { readonly file: string; readonly rows: number; readonly from: string; readonly to: string } | null;
  readonly classes: readonly ClaimClass[];
  /** All attempts together, whatever their class. */
  readonly pooled: ShareEstimate;
  readonly groupings: readonly ClaimGrouping[];
  readonly learning: LearningCheck | null;
  readonly sequential: SequentialResult | null;
  /** Attempts that demonstrate a share without, with one and with two failures; `null` beyond ten million. */
  readonly demonstrations: readonly {
    readonly share_1: number;
    readonly confidence_1: number;
    readonly trials: readonly (number | null)[];
  }[];
}

/** A simulated share, for comparison with the log of its class. */
export interface SimulatedShare {
  /** Class of turbulence as the pair names it. */
  readonly turbulence: string;
  /** What was simulated, in a few words. */
  readonly title: string;
  readonly hits: number;
  readonly of: number;
  /** Pair paths that the simulation rests on. */
  readonly rests: readonly string[];
}
