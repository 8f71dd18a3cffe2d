import { hostname } from "node:os";
import { setTimeout } from "node:timers/promises";
import { type Job, Queue } from "bullmq";
import type { Redis } from "ioredis";
import { type BatchTask, encodeJob, errorFrom, type Runner, type Work } from "../batch-plan/index.ts";
import { CannotRun } from "../effects.ts";
import { readFrame } from "./queue-frames.ts";
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

/** Tasks in the queue at a time: enough for every thread, few enough that rows do not pile up in the store's memory. */
const LEAST_WINDOW = 32;
const PER_THREAD = 4;
/** How long an interrupted coordinator waits for tasks that workers have begun [ms]; later rows wait in the store for `--resume`. */
const PATIENCE = 10_000;

/** Hands tasks to `davit worker` processes on any machine, through a store that all of them reach. */
export function queueRunner(url: string, timing: QueueTiming = TIMING): Runner {
  return {
    title: `by workers at ${shownUrl(url)}`,
    async run(work) {
      const redis = await connect(url, work.say);
      const blocking = redis.duplicate();
      blocking.on("error", () => {});
      const queue = new Queue<QueuedTask>(queueName(work.job.plan.version), { connection: redis, prefix: PREFIX });
      queue.on("error", () => {});
      try {
        const coordination = new Coordination(work, { redis, blocking, queue, timing }).run();
        // what is abandoned here fails when its connections are closed below
        coordination.catch(() => {});
        await Promise.race([coordination, hopeless(work.signal, redis)]);
      } finally {
        // a server that is away does not answer a farewell
        await Promise.race([queue.close().catch(() => {}), setTimeout(redis.status === "ready" ? 2_000 : 0)]);
        blocking.disconnect();
        redis.disconnect();
      }
    },
  };
}

/** Settles when the user wants to stop while the server is gone: there is nothing to take back then. */
async function hopeless(signal: AbortSignal, redis: Redis): Promise<void> {
  const given = { done: false };
  while (!given.done) {
    await setTimeout(200, undefined, { ref: false });
    given.done = redis.status === "end" || (signal.aborted && redis.status !== "ready");
  }
}

interface Connections {
  readonly redis: Redis;
  /** Waits for rows. */
  readonly blocking: Redis;
  readonly queue: Queue<QueuedTask>;
  readonly timing: QueueTiming;
}

/** One batch at the queue, from the coordinator's side. */
class Coordination {
  readonly #work: Work;
  readonly #at: Connections;
  readonly #job: Uint8Array;
  /** Tasks that were handed out and whose rows have not come. */
  readonly #out = new Map<number, BatchTask>();
  /** Tasks that the store did not know at the last look. */
  #missing = new Set<number>();
  #window = LEAST_WINDOW;
  #told = "";

  constructor(work: Work, at: Connections) {
    this.#work = work;
    this.#at = at;
    this.#job = encodeJob(work.job);
  }

  async run(): Promise<void> {
    try {
      await this.#coordinate();
    } catch (error) {
      await this.#withdraw(0).catch(() => {});
      throw error;
    }
  }

  async #coordinate(): Promise<void> {
    const { signal, run } = this.#work;
    await this.#announce();
    // rows that came after an earlier coordinator of this batch had ended; what failed then is tried again
    while (await this.#take(await this.#at.redis.lpopBuffer(KEYS.rows(run)), "rows only")) {}
    let looked = Date.now();
    while (!signal.aborted) {
      await this.#handOut();
      if (this.#out.size === 0) break;
      await this.#take(await this.#pop());
      if (Date.now() - looked < this.#at.timing.sweep) continue;
      await this.#sweep();
      looked = Date.now();
    }
    if (signal.aborted) await this.#withdraw(PATIENCE);
    else await this.#at.redis.del(KEYS.job(run), KEYS.rows(run), KEYS.open(run));
  }

  /** Says to all workers what is asked; again and again, since the store may have been restarted empty. */
  async #announce(): Promise<void> {
    const { plan } = this.#work.job;
    const { run } = this.#work;
    const open: OpenBatch = { study: plan.study, version: plan.version, host: hostname() };
    const { redis } = this.#at;
    if ((await redis.expire(KEYS.job(run), KEEP)) === 0) {
      await redis.set(KEYS.job(run), Buffer.from(this.#job), "EX", KEEP);
    }
    await redis.set(KEYS.open(run), JSON.stringify(open), "EX", PRESENCE.forget);
  }

  /** Fills the window. */
  async #handOut(): Promise<void> {
    const fresh: BatchTask[] = [];
    while (this.#out.size < this.#window) {
      const task = this.#work.next();
      if (task === undefined) break;
      this.#out.set(task.id, task);
      fresh.push(task);
    }
    await this.#enqueue(fresh);
  }

  /** Puts tasks into the queue; one that is there already stays as it is. */
  async #enqueue(tasks: readonly BatchTask[]): Promise<void> {
    if (tasks.length === 0) return;
    const { run } = this.#work;
    await this.#at.queue.addBulk(
      tasks.map(({ id, condition, first, count }) => ({
        name: "task",
        data: { run, id, condition, first, count },
        opts: { jobId: jobId(run, id), removeOnComplete: true, removeOnFail: { age: KEEP } },
      })),
    );
  }

  async #pop(): Promise<Buffer | null> {
    const found = await this.#at.blocking.blpopBuffer(KEYS.rows(this.#work.run), 1);
    return found === null ? null : found[1];
  }

  /** Delivers one frame. False when there was none. */
  async #take(bytes: Buffer | null, what?: "rows only"): Promise<boolean> {
    if (bytes === null) return false;
    const frame = readFrame(bytes, this.#work.job.plan.columns.length);
    if (frame?.kind === "failed" && what === undefined) throw errorFrom(frame.failure);
    if (frame?.kind === "rows") {
      await this.#work.deliver(frame.rows);
      this.#out.delete(frame.rows.task.id);
      this.#missing.delete(frame.rows.task.id);
    }
    return true;
  }

  /** Looks after what was handed out: drops what nobody needs, offers again what the store has forgotten. */
  async #sweep(): Promise<void> {
    await this.#announce();
    await this.#lookForWorkers();
    const missing = new Set<number>();
    for (const task of [...this.#out.values()]) {
      const job = await this.#at.queue.getJob(jobId(this.#work.run, task.id));
      if (!this.#work.wanted(task)) {
        this.#out.delete(task.id);
        if (job !== undefined) await removeWaiting(job);
      } else if (job === undefined) {
        missing.add(task.id);
      } else if (job.failedReason && (await job.isFailed())) {
        await job.remove();
        throw new CannotRun(
          `${task.condition}, samples ${task.first} to ${task.first + task.count - 1}: no worker brought it to an end (${job.failedReason})`,
        );
      }
    }
    // a task that has just been done is not known either while its rows are on their way: twice missing is lost
    const lost = [...missing].filter((id) => this.#missing.has(id)).map((id) => this.#out.get(id)!);
    await this.#enqueue(lost);
    this.#missing = missing;
  }

  /** Makes the window fit the workers, and says when none can do the job. */
  async #lookForWorkers(): Promise<void> {
    const { version } = this.#work.job.plan;
    const workers = await valuesBelow<Presence>(this.#at.redis, KEYS.worker(""));
    const able = workers.filter((worker) => worker.version === version);
    const threads = able.reduce((sum, worker) => sum + worker.threads, 0);
    this.#window = Math.max(LEAST_WINDOW, PER_THREAD * threads);
    const unable = workers.filter((worker) => worker.version !== version);
    const others = unable.map((worker) => `${worker.host} has davit ${worker.version}`).join(", ");
    const words = [
      able.length === 0 ? `no worker of davit ${version} is at the queue; start one: davit worker --queue URL` : "",
      unable.length > 0 ? `workers of another version take no task of this batch: ${others}` : "",
    ].filter((part) => part !== "");
    const told = words.join("; ");
    if (told !== this.#told && told !== "") this.#work.say(told);
    this.#told = told;
  }

  /** Takes back what no worker has begun and waits a while for the rest. */
  async #withdraw(patience: number): Promise<void> {
    const { run } = this.#work;
    for (const task of [...this.#out.values()]) {
      const job = await this.#at.queue.getJob(jobId(run, task.id));
      if (job === undefined || (await removeWaiting(job))) this.#out.delete(task.id);
    }
    const end = Date.now() + patience;
    while (this.#out.size > 0 && Date.now() < end) await this.#take(await this.#pop());
    while (await this.#take(await this.#at.redis.lpopBuffer(KEYS.rows(run)), "rows only")) {}
    await this.#at.redis.del(KEYS.open(run));
  }
}

const jobId = (run: string, id: number): string => `${run}-${id}`;

/** Removes a job that no worker holds. */
async function removeWaiting(job: Job): Promise<boolean> {
  try {
    await job.remove();
    return true;
  } catch {
    return false;
  }
}
