/** The commands that draw samples; the studies that they know are given to them. */
export { type BatchSurroundings, batchCommand } from "./run-batch.ts";
export { replayCommand } from "./run-replay.ts";
export { workerCommand } from "./run-worker.ts";
