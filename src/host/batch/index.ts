/** A batch of samples in a folder: run, resume, read, replay. */
export { type BatchOutcome, type BatchProgress, type BatchSettings, canContinue, runBatch } from "./coordinate.ts";
export { type HeldBatch, holdsBatch, readBatch, readJob, readPlan } from "./folder.ts";
export { eventsCsv, historyCsv, historyParquet, type Replayed, replaySample } from "./replay.ts";
export { CONFIDENCE, type ConditionCount, shareInterval, Tally } from "./tally.ts";
