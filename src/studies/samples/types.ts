import type { OpenReads } from "../hold/index.ts";

/**
 * A study whose answer is a table of independent samples: each row depends on the pair, the condition, the seed and the
 * index of the sample alone, so that any number of workers in any order gives the same rows.
 */

/** One column of the table. */
export interface SampleColumn {
  /** Ends in its unit where it has one: `closure_m_per_s`. */
  readonly name: string;
  /** What it is, for a heading. */
  readonly title: string;
  /** SI unit, or "" for a number or a word. */
  readonly unit: string;
  /** Words that the numbers 0, 1, 2 … stand for; absent for a quantity. */
  readonly words?: readonly string[];
}

/** One set of circumstances in which samples are drawn, such as a turbulence with a controller. */
export interface SampleCondition {
  /** Unique in the study, letters, digits and dashes. */
  readonly key: string;
  readonly title: string;
}

/** Course of one sample in time: column names with units, and rows. */
export interface SampleHistory {
  readonly columns: readonly SampleColumn[];
  /** Shape (rows, columns), row-major. */
  readonly values: Float64Array;
  /** What happened when, in words. */
  readonly events: readonly { readonly time: number; readonly what: string }[];
}

/** Runs samples of one condition; keeps its own working memory, so one object serves one thread. */
export interface Sampler {
  /**
   * Writes one row.
   *
   * @param index of the sample, 0 or more
   * @param row   shape (columns), written; NaN stands for "did not happen" and is stored as null
   */
  run(index: number, row: Float64Array): void;
  /** The same sample once more, with its course in time. */
  replay(index: number): SampleHistory;
}

/** An opened study: the pair is read, nothing has run. */
export interface SampleStudy {
  /** Name of the command and of the result: "hookon". */
  readonly key: string;
  readonly columns: readonly SampleColumn[];
  readonly conditions: readonly SampleCondition[];
  /** Rows that a plan draws for each condition when nobody asks for another number. */
  readonly samples: number;
  readonly seed: number;
  /** Name of the 0/1 column whose share tells when enough has been drawn. */
  readonly success: string;
  sampler(condition: string): Sampler;
}

/** How a study is opened from a pair that has been read. */
export interface SampleStudyContext {
  readonly variant: string;
  readonly reads: OpenReads;
  /** Takes the place of the pair's own seed. */
  readonly seed?: number;
}

export interface SampleStudyEntry {
  readonly key: string;
  readonly title: string;
  /** `null` where the pair has no section for it. */
  readonly open: (context: SampleStudyContext) => SampleStudy | null;
}

/** Rows of one condition, in order of the sample index. */
export interface SampleTable {
  readonly condition: string;
  readonly columns: readonly SampleColumn[];
  /** Index of each row, rising. */
  readonly index: Float64Array;
  /** Shape (rows, columns), row-major. */
  readonly values: Float64Array;
}
