/**
 * What a study says: findings, limits, and the result document that carries them.
 */

export type Verdict = "met" | "not met" | "not analysed" | "information";

export interface Criterion {
  /** Words for a report, e.g. "damping ratio of every rigid-body-type oscillation at least 0.03". */
  readonly text: string;
  readonly sense: "at least" | "at most";
  /** Limit in the finding's unit. */
  readonly limit: number;
  /** "project criterion", or the document with its paragraph. */
  readonly source: string;
}

export interface Finding {
  /** Stable, readable and unique inside a result: `hold.longitudinal.damping.hook.full`. */
  readonly id: string;
  readonly study: string;
  /** One sentence a reader understands without the id. */
  readonly title: string;
  /** `null` when nothing could be computed or nature gives no value; then `verdict` and `note` say why. */
  readonly value: number | null;
  /** Unit of `value` as printed ("1", "m/s", "N/m", "s"). */
  readonly unit: string;
  readonly criterion?: Criterion;
  readonly verdict: Verdict;
  readonly note?: string;
  /** Pair paths it rests on, sorted. */
  readonly rests: readonly string[];
  /** SHA-256 (hex) of the values and file contents behind `rests`. */
  readonly inputHash: string;
  /** Version of Davit that computed it. */
  readonly version: string;
  readonly seed: number | null;
}

export type LimitStatus = "demonstrated" | "analysed" | "prohibited" | "not cleared";

/** A limit of operation that rests on findings; derived, never typed. */
export interface Limit {
  readonly id: string;
  readonly title: string;
  readonly quantity: string;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly unit: string;
  readonly status: LimitStatus;
  readonly because: readonly string[];
  readonly note?: string;
}
