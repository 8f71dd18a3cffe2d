/** What a batch is made of, and how a task of it is computed; no file, no thread, no queue. */
export { bundleOf, loadBundle, openJob, openStudy } from "./bundle.ts";
export { makePlan, type PlanWishes, planDifferences, planHash, tasksOf } from "./plan.ts";
export { errorFrom, type Failure, failureFrom, runSample, taskRunner } from "./sampling.ts";
export type { BatchJob, BatchPlan, BatchTask, PairBundle, Runner, TaskRows, Work } from "./types.ts";
export { decodeJob, decodeRows, encodeJob, encodeRows, rowsHash } from "./wire.ts";
