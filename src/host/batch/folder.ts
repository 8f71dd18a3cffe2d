import { randomUUID } from "node:crypto";
import { existsSync, readdirSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import { InputError } from "../../math/errors.ts";
import type { SampleTable } from "../../studies/samples/types.ts";
import { type BatchJob, type BatchPlan, decodeJob, encodeJob, planDifferences } from "../batch-plan/index.ts";
import { EXPORTS, isTemporary, makeFolder, readTable, SHARDS } from "../batch-store/index.ts";
import { readFile, writeFile } from "../files/index.ts";

const PLAN = "plan.json";
/** Plan and pair, so that any sample can be run again when the pair has moved on. */
const JOB = "job.json.gz";

/** A batch folder's plan, and the name of the batch among all at one queue. */
interface HeldPlan {
  readonly run: string;
  readonly plan: BatchPlan;
}

export const holdsBatch = (folder: string): boolean => existsSync(join(folder, PLAN));

/** @throws {CannotRead | InputError} when there is none or it is damaged */
export function readPlan(folder: string): HeldPlan {
  const path = join(folder, PLAN);
  const bytes = readFile(path);
  try {
    const held = JSON.parse(new TextDecoder().decode(bytes)) as HeldPlan;
    if (typeof held.run === "string" && Array.isArray(held.plan.columns)) return held;
  } catch {
    // said below
  }
  throw new InputError([{ path: "", file: path, message: "is no plan of a batch, or it is damaged" }]);
}

/** The plan with the pair that it was made for. */
export function readJob(folder: string): BatchJob {
  const path = join(folder, JOB);
  return decodeJob(readFile(path, 1024 ** 3), path);
}

/**
 * Makes the folder hold this job: begins it, or finds that it is the one that is held.
 *
 * @returns the name of the batch among all at one queue
 * @throws {InputError} when the folder holds a batch and `resume` is not asked for, or another plan: every part that differs
 */
export function settleFolder(folder: string, job: BatchJob, resume: boolean): string {
  makeFolder(join(folder, SHARDS));
  sweepTemporaries(folder);
  if (holdsBatch(folder)) {
    if (!resume) {
      const message = "the folder holds a batch; continue it with --resume, or name another folder";
      throw new InputError([{ path: "--out", message, value: folder }]);
    }
    const held = readPlan(folder);
    const issues = planDifferences(held.plan, job.plan);
    if (issues.length > 0) throw new InputError(issues);
    return held.run;
  }
  const run = randomUUID();
  writeFile(join(folder, JOB), encodeJob(job));
  writeFile(join(folder, PLAN), `${JSON.stringify({ run, plan: job.plan }, null, 2)}\n`);
  return run;
}

/** Removes exports, which no longer say what the folder will hold. */
export function dropExports(folder: string): void {
  for (const name of Object.values(EXPORTS)) rmSync(join(folder, name), { force: true });
}

/** Removes what an earlier coordinator was writing when it ended. */
function sweepTemporaries(folder: string): void {
  for (const place of [folder, join(folder, SHARDS)]) {
    for (const name of readdirSync(place)) {
      if (!isTemporary(name)) continue;
      const path = join(place, name);
      // the one of a lock may belong to a coordinator that is just asking for it
      const age = Date.now() - (statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0);
      if (!name.startsWith(".lock") || age > 60_000) rmSync(path, { force: true });
    }
  }
}

/** A batch folder as a reader wants it. */
export interface HeldBatch {
  readonly plan: BatchPlan;
  /** One for each condition of the plan; those of an unfinished batch have gaps. */
  readonly tables: readonly SampleTable[];
}

/**
 * Rows of a batch folder: those of its exports when it is finished, else those of its shards.
 *
 * @throws {CannotRead | CannotRun | InputError} no batch, a damaged file, or no library to read it with
 */
export async function readBatch(folder: string): Promise<HeldBatch> {
  const { plan } = readPlan(folder);
  const tables: SampleTable[] = [];
  for (const { key } of plan.conditions) tables.push(await readTable(folder, plan, key));
  return { plan, tables };
}
