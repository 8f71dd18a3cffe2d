/** Where samples are computed: here, in threads, by workers at a queue. One contract (`batch-plan/types.ts`). */
import type { Runner } from "../batch-plan/index.ts";
import type { QueueTiming } from "./queue-names.ts";
import type { WorkerSettings } from "./queue-worker.ts";

export { inlineRunner } from "./inline.ts";
export type { QueueTiming } from "./queue-names.ts";
export type { WorkerSettings } from "./queue-worker.ts";
export { serveSamples, type ThreadAnswer, type ThreadTask } from "./serve.ts";

/** The libraries of threads and queue are loaded by whoever uses them. */
export async function threadsRunner(entry: URL, threads: number): Promise<Runner> {
  return (await import("./threads.ts")).threadsRunner(entry, threads);
}

export async function queueRunner(url: string, timing?: QueueTiming): Promise<Runner> {
  return (await import("./queue-runner.ts")).queueRunner(url, timing);
}

/** @throws {CannotRun} when the queue cannot be reached */
export async function runQueueWorker(settings: WorkerSettings): Promise<void> {
  await (await import("./queue-worker.ts")).runQueueWorker(settings);
}
