import { setImmediate } from "node:timers/promises";
import type { SampleStudyEntry } from "../../studies/samples/types.ts";
import { openJob, type Runner, taskRunner } from "../batch-plan/index.ts";

/** The event loop gets its turn this often [ms], so that an interruption is heard. */
const BREATH = 50;

/** Computes in the caller's own thread, one sample after the other. */
export function inlineRunner(studies: readonly SampleStudyEntry[], version: string): Runner {
  return {
    title: "in this thread",
    async run(work) {
      const compute = taskRunner(work.job.plan, await openJob(work.job, studies, version));
      let heard = performance.now();
      const step = async (): Promise<void> => {
        if (performance.now() - heard < BREATH) return;
        await setImmediate();
        heard = performance.now();
      };
      while (!work.signal.aborted) {
        const task = work.next();
        if (task === undefined) return;
        await work.deliver({ task, values: await compute(task, step) });
      }
    },
  };
}
