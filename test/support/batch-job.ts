/** A batch of the test study over the demo pair without its variants. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { type BatchOutcome, runBatch } from "../../src/host/batch/index.ts";
import { type BatchJob, bundleOf, makePlan, openStudy, type Runner } from "../../src/host/batch-plan/index.ts";
import { inlineRunner } from "../../src/host/batch-runners/index.ts";
import { TEST_STUDIES } from "./batch-study.ts";
import { DEMO } from "./load-demo.ts";
import { loadSmall, readSmall } from "./small-pair.ts";

export interface JobWishes {
  readonly study?: string;
  readonly samples?: number;
  readonly taskSize?: number;
  readonly seed?: number;
  readonly set?: string[];
  readonly version?: string;
  readonly conditions?: readonly string[];
}

export function testJob(wishes: JobWishes = {}): BatchJob {
  const { study: key = "tosses", set = [], seed, version = "test", ...rest } = wishes;
  const loaded = loadSmall(set);
  const study = openStudy(TEST_STUDIES.find((entry) => entry.key === key)!, loaded, seed)!;
  return { plan: makePlan(study, loaded, { version, set, ...rest }), bundle: bundleOf(DEMO, loaded, readSmall) };
}

export const inline = (): Runner => inlineRunner(TEST_STUDIES, "test");

export interface RunWishes {
  readonly job?: BatchJob;
  readonly runner?: Runner;
  readonly resume?: boolean;
  readonly untilWidth?: number;
  readonly signal?: AbortSignal;
  readonly onProgress?: (rows: number) => void;
  readonly say?: (words: string) => void;
}

export function run(folder: string, wishes: RunWishes = {}): Promise<BatchOutcome> {
  return runBatch({
    folder,
    job: wishes.job ?? testJob(),
    runner: wishes.runner ?? inline(),
    resume: wishes.resume ?? false,
    ...(wishes.untilWidth === undefined ? {} : { untilWidth: wishes.untilWidth }),
    signal: wishes.signal ?? new AbortController().signal,
    now: () => new Date(),
    progress: ({ rows }) => wishes.onProgress?.(rows),
    say: wishes.say ?? (() => {}),
  });
}

/** What "the same bytes" is about. */
export const bytesOf = (folder: string): { parquet: string; csv: string } => ({
  parquet: readFileSync(join(folder, "rows.parquet")).toString("base64"),
  csv: readFileSync(join(folder, "rows.csv"), "utf8"),
});
