import { randomUUID } from "node:crypto";
import { hostname } from "node:os";
import { setTimeout } from "node:timers/promises";
import { Worker } from "bullmq";
import type { Redis } from "ioredis";
import { type BatchPlan, decodeJob, failureFrom } from "../batch-plan/index.ts";
import { failedFrame, rowsFrame } from "./queue-frames.ts";
import {
  connect,
  KEEP,
  KEYS,
  type OpenBatch,
  PREFIX,
  PRESENCE,
  type Presence,
  type QueuedTask,
  type QueueTiming,
  queueName,
  shownUrl,
  TIMING,
  valuesBelow,
} from "./queue-names.ts";
import { SamplerPool, shared } from "./threads.ts";

/** A task whose workers vanish this often is given up: it may be what ends them. */
const LOST_WORKERS = 20;
/** Jobs kept at hand. */
const KEPT_JOBS = 8;

export interface WorkerSettings {
  readonly url: string;
  readonly threads: number;
  /** Code whose default export is `serveSamples(…)`. */
  readonly entry: URL;
  readonly version: string;
  readonly signal: AbortSignal;
  readonly say: (words: string) => void;
  readonly progress: (line: string) => void;
  readonly timing?: QueueTiming;
}

interface KeptJob {
  readonly key: string;
  readonly plan: BatchPlan;
  readonly job: SharedArrayBuffer;
}

/**
 * Takes tasks of every batch of its version until the signal; what is being computed then is finished first.
 *
 * @throws {CannotRun} when the queue cannot be reached at the start
 */
export async function runQueueWorker(settings: WorkerSettings): Promise<void> {
  const { url, threads, version, signal, say } = settings;
  const timing = settings.timing ?? TIMING;
  const redis = await connect(url, say);
  const pool = new SamplerPool(settings.entry, threads);
  const jobs = new Map<string, KeptJob>();
  let [tasks, rows] = [0, 0];
  const worker = new Worker<QueuedTask>(
    queueName(version),
    async ({ data }) => {
      rows += await serve(data, { redis, pool, jobs });
      tasks += 1;
      settings.progress(`${tasks} tasks, ${rows} rows`);
    },
    {
      connection: redis,
      prefix: PREFIX,
      concurrency: threads,
      lockDuration: timing.lock,
      stalledInterval: timing.stalled,
      maxStalledCount: LOST_WORKERS,
      drainDelay: 1,
    },
  );
  worker.on("error", () => {});
  const presence = new PresenceAtQueue(redis, settings);
  try {
    presence.begin();
    say(`taking tasks at ${shownUrl(url)} ${threads === 1 ? "in 1 thread" : `in ${threads} threads`}`);
    if (!signal.aborted) await new Promise((resolve) => signal.addEventListener("abort", resolve, { once: true }));
  } finally {
    presence.end();
    // with the server gone there is nothing to hand in; the lock of its tasks runs out by itself
    const gone = redis.status !== "ready";
    const closed = worker.close(gone).catch(() => {});
    await (gone ? Promise.race([closed, setTimeout(500)]) : closed);
    await pool.close();
    redis.disconnect();
  }
}

/** Computes one task and sends its rows; returns how many. */
async function serve(
  { run, ...task }: QueuedTask,
  at: { readonly redis: Redis; readonly pool: SamplerPool; readonly jobs: Map<string, KeptJob> },
): Promise<number> {
  const frame = await (async () => {
    try {
      const job = at.jobs.get(run) ?? (await fetchJob(run, at));
      if (job === undefined) return undefined;
      return rowsFrame({ task, values: await at.pool.compute(job, task) }, job.plan.columns.length);
    } catch (error) {
      return failedFrame(failureFrom(error));
    }
  })();
  // nobody waits for it any more; a coordinator that does announces the job again and offers the task again
  if (frame === undefined) return 0;
  await at.redis.multi().rpush(KEYS.rows(run), frame).expire(KEYS.rows(run), KEEP).exec();
  return task.count;
}

async function fetchJob(
  run: string,
  at: { readonly redis: Redis; readonly jobs: Map<string, KeptJob> },
): Promise<KeptJob | undefined> {
  const bytes = await at.redis.getBuffer(KEYS.job(run));
  if (bytes === null) return undefined;
  const job: KeptJob = { key: run, plan: decodeJob(bytes, "job").plan, job: shared(bytes) };
  const [oldest] = at.jobs.keys();
  if (at.jobs.size >= KEPT_JOBS && oldest !== undefined) at.jobs.delete(oldest);
  at.jobs.set(run, job);
  return job;
}

/** Tells coordinators that this worker is there, and its user which batches it cannot serve. */
class PresenceAtQueue {
  readonly #redis: Redis;
  readonly #settings: WorkerSettings;
  readonly #key = KEYS.worker(randomUUID());
  readonly #told = new Set<string>();
  #timer: NodeJS.Timeout | undefined;

  constructor(redis: Redis, settings: WorkerSettings) {
    this.#redis = redis;
    this.#settings = settings;
  }

  begin(): void {
    const beat = (): void => void this.#beat().catch(() => {});
    this.#timer = setInterval(beat, PRESENCE.beat);
    beat();
  }

  end(): void {
    clearInterval(this.#timer);
    if (this.#redis.status === "ready") void this.#redis.del(this.#key).catch(() => {});
  }

  async #beat(): Promise<void> {
    const { threads, version, say } = this.#settings;
    const own: Presence = { host: hostname(), pid: process.pid, version, threads };
    await this.#redis.set(this.#key, JSON.stringify(own), "EX", PRESENCE.forget);
    for (const batch of await valuesBelow<OpenBatch>(this.#redis, KEYS.open(""))) {
      const words =
        `refused: a batch of ${batch.study} from ${batch.host} is planned by davit ${batch.version} and this is davit ${version}; ` +
        "rows of two versions are not mixed: install the same version on every machine";
      if (batch.version === version || this.#told.has(words)) continue;
      this.#told.add(words);
      say(words);
    }
  }
}
