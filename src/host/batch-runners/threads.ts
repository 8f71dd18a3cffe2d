import { Piscina } from "piscina";
import { type BatchTask, encodeJob, errorFrom, type Runner, type Work } from "../batch-plan/index.ts";
import { CannotRun } from "../effects.ts";
import type { ThreadAnswer, ThreadTask } from "./serve.ts";

/** A task that ends its thread this often is not tried again. */
const ATTEMPTS = 3;

/** Threads that compute tasks of any job. */
export class SamplerPool {
  readonly #pool: Piscina<ThreadTask, ThreadAnswer>;

  /** @param entry code whose default export is `serveSamples(…)` */
  constructor(entry: URL, threads: number) {
    this.#pool = new Piscina({ filename: entry.href, minThreads: threads, maxThreads: threads, idleTimeout: 60_000 });
    // a thread that dies is told through its task
    this.#pool.on("error", () => {});
  }

  /** @throws what the sample threw; {CannotRun} when the thread ended again and again */
  async compute(job: Pick<ThreadTask, "key" | "job">, task: BatchTask): Promise<Float64Array> {
    for (let attempt = 1; ; attempt++) {
      let answer: ThreadAnswer;
      try {
        answer = await this.#pool.run({ ...job, task });
      } catch (error) {
        if (attempt < ATTEMPTS) continue;
        const why = error instanceof Error ? error.message : String(error);
        const rows = `${task.condition}, samples ${task.first} to ${task.first + task.count - 1}`;
        throw new CannotRun(`${rows}: the computing thread ended ${ATTEMPTS} times without an answer (${why})`);
      }
      if (answer.ok) return answer.values;
      throw errorFrom(answer.failure);
    }
  }

  async close(): Promise<void> {
    await this.#pool.destroy();
  }
}

/** Bytes in memory that all threads see. */
export function shared(bytes: Uint8Array): SharedArrayBuffer {
  const memory = new SharedArrayBuffer(bytes.length);
  new Uint8Array(memory).set(bytes);
  return memory;
}

/** Computes in threads of this process; this thread only hands out tasks and takes rows. */
export function threadsRunner(entry: URL, threads: number): Runner {
  return {
    title: threads === 1 ? "in 1 thread" : `in ${threads} threads`,
    async run(work) {
      const pool = new SamplerPool(entry, threads);
      try {
        const job = { key: work.run, job: shared(encodeJob(work.job)) };
        await lanes(work, threads + 1, (task) => pool.compute(job, task));
      } finally {
        await pool.close();
      }
    },
  };
}

/** So many tasks at a time, one more than threads, so that none waits while rows are stored; the first error ends all. */
async function lanes(work: Work, count: number, compute: (task: BatchTask) => Promise<Float64Array>): Promise<void> {
  const errors: unknown[] = [];
  const lane = async (): Promise<void> => {
    while (errors.length === 0 && !work.signal.aborted) {
      const task = work.next();
      if (task === undefined) return;
      try {
        await work.deliver({ task, values: await compute(task) });
      } catch (error) {
        errors.push(error);
      }
    }
  };
  await Promise.all(Array.from({ length: count }, lane));
  if (errors.length > 0) throw errors[0];
}
