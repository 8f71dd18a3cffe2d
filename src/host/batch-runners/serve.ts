import type { SampleStudyEntry } from "../../studies/samples/types.ts";
import { type BatchTask, decodeJob, type Failure, failureFrom, openJob, taskRunner } from "../batch-plan/index.ts";

/** What a thread is asked for. */
export interface ThreadTask {
  /** Names the job, so that a thread opens it once. */
  readonly key: string;
  /** The encoded job; shared memory, so that it is not copied for each task. */
  readonly job: SharedArrayBuffer;
  readonly task: BatchTask;
}

export type ThreadAnswer =
  | { readonly ok: true; readonly values: Float64Array }
  | { readonly ok: false; readonly failure: Failure };

/** Jobs that a thread keeps open. */
const OPEN_JOBS = 4;

/** What the code of a thread exports as its default: computes tasks of any job of these studies. */
export function serveSamples(
  studies: readonly SampleStudyEntry[],
  version: string,
): (asked: ThreadTask) => Promise<ThreadAnswer> {
  const open = new Map<string, ReturnType<typeof taskRunner>>();
  return async ({ key, job, task }) => {
    try {
      let compute = open.get(key);
      if (compute === undefined) {
        const decoded = decodeJob(Uint8Array.from(new Uint8Array(job)), "job");
        compute = taskRunner(decoded.plan, await openJob(decoded, studies, version));
        const [oldest] = open.keys();
        if (open.size >= OPEN_JOBS && oldest !== undefined) open.delete(oldest);
        open.set(key, compute);
      }
      return { ok: true, values: await compute(task) };
    } catch (error) {
      return { ok: false, failure: failureFrom(error) };
    }
  };
}
