import type { SampleColumn, SampleCondition } from "../../studies/samples/types.ts";

/** Form of `plan.json`; another number when a reader of today would misread it. */
export const PLAN_FORM = "davit batch plan 1";

/** Everything that the rows of a batch depend on. Two equal plans give the same rows, wherever they are computed. */
export interface BatchPlan {
  readonly form: typeof PLAN_FORM;
  /** Of Davit. */
  readonly version: string;
  /** Key of the study. */
  readonly study: string;
  readonly pair: {
    readonly name: string;
    /** The pair file first; paths relative to its folder. */
    readonly files: readonly { readonly path: string; readonly sha256: string }[];
  };
  readonly variant: string;
  /** `PATH=VALUE` texts, in order. */
  readonly set: readonly string[];
  /** In the study's order. */
  readonly conditions: readonly SampleCondition[];
  /** Rows of each condition. */
  readonly samples: number;
  readonly seed: number;
  /** Rows of a task; the last one of a condition may have fewer. */
  readonly taskSize: number;
  readonly columns: readonly SampleColumn[];
  /** Name of the 0/1 column. */
  readonly success: string;
}

/** The files of a pair, so that another machine can open it without its disk. */
export interface PairBundle {
  /** The pair file first; paths relative to its folder. */
  readonly files: readonly { readonly path: string; readonly bytes: Uint8Array }[];
}

/** What a worker needs to compute any row. */
export interface BatchJob {
  readonly plan: BatchPlan;
  readonly bundle: PairBundle;
}

/** Consecutive samples of one condition: the unit that is handed out, computed, stored and, if need be, computed again. */
export interface BatchTask {
  /** Place in the plan, from 0. */
  readonly id: number;
  readonly condition: string;
  /** Index of the first sample. */
  readonly first: number;
  readonly count: number;
}

/** Rows of one task. */
export interface TaskRows {
  readonly task: BatchTask;
  /** Shape (count, columns), row-major; NaN for a cell that is empty. */
  readonly values: Float64Array;
}

/** What a runner is given: where tasks come from and where rows go. */
export interface Work {
  readonly job: BatchJob;
  /** Names this batch among all at one queue; the same when it is resumed. */
  readonly run: string;
  /** The next task to hand out; `undefined` when there is none left. Each comes once. */
  next(): BatchTask | undefined;
  /** Takes the rows of a task; the same task may come more than once and counts once. */
  deliver(rows: TaskRows): Promise<void>;
  /** False for a task that was handed out and is no longer needed. */
  wanted(task: BatchTask): boolean;
  /** Hand out nothing more; what is being computed is finished and delivered. */
  readonly signal: AbortSignal;
  /** Something that the user should know while it goes on, one sentence. */
  say(words: string): void;
}

/**
 * Computes tasks somewhere: in this thread, in threads, on other machines. All keep `test/conformance/runners.test.ts`.
 *
 * `run` returns when `next` has no more tasks, or after the signal, once the rows of every task that is being computed have been
 * delivered. A sample that cannot be computed, and a delivery that fails, end it: it throws that error.
 */
export interface Runner {
  /** For a progress line: `2 threads`. */
  readonly title: string;
  run(work: Work): Promise<void>;
}
