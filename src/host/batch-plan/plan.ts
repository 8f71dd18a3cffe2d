import { createHash } from "node:crypto";
import type { LoadedPair } from "../../inputs/index.ts";
import { BugError, InputError, type Issue } from "../../math/errors.ts";
import type { SampleCondition, SampleStudy } from "../../studies/samples/types.ts";
import { type BatchPlan, type BatchTask, PLAN_FORM } from "./types.ts";

/** What the user asked for; what is left out is the study's own. */
export interface PlanWishes {
  readonly version: string;
  readonly set: readonly string[];
  /** Keys of conditions. */
  readonly conditions?: readonly string[];
  /** Option that named them, for messages; `--conditions` when left out. */
  readonly conditionPath?: string;
  readonly samples?: number;
  readonly taskSize?: number;
}

/**
 * Tasks that a condition is cut into when nobody asks for a size, and the bounds of that size: a shard takes some milliseconds
 * to write, which 25 samples should outweigh, and an interruption waits for the tasks at hand.
 */
const TASKS = 50;
const SIZES = { least: 25, most: 200 };

/**
 * The plan of a batch.
 *
 * @throws {InputError} for a condition that the study does not have
 */
export function makePlan(study: SampleStudy, loaded: LoadedPair, wishes: PlanWishes): BatchPlan {
  const samples = wishes.samples ?? study.samples;
  return {
    form: PLAN_FORM,
    version: wishes.version,
    study: study.key,
    pair: { name: loaded.pair.pair, files: loaded.files.map(({ path, sha256 }) => ({ path, sha256 })) },
    variant: loaded.variant,
    set: [...wishes.set],
    conditions: chosen(study, wishes.conditions, wishes.conditionPath),
    samples,
    seed: study.seed,
    taskSize: Math.min(
      samples,
      wishes.taskSize ?? Math.min(SIZES.most, Math.max(SIZES.least, Math.ceil(samples / TASKS))),
    ),
    columns: study.columns.map((column) => ({ ...column })),
    success: study.success,
  };
}

function chosen(study: SampleStudy, wanted: readonly string[] | undefined, path = "--conditions"): SampleCondition[] {
  const known = study.conditions.map(({ key }) => key);
  for (const key of known) {
    // they become names of files
    if (!/^[A-Za-z0-9][A-Za-z0-9-]*$/.test(key)) throw new BugError(`condition key "${key}" of ${study.key}`);
  }
  const unknown = (wanted ?? []).filter((key) => !known.includes(key));
  if (unknown.length > 0) {
    const allowed = known.join(", ");
    throw new InputError(
      unknown.map((value) => ({ path, message: `${study.key} has no such condition`, value, allowed })),
    );
  }
  return study.conditions
    .filter(({ key }) => wanted === undefined || wanted.includes(key))
    .map(({ key, title }) => ({ key, title }));
}

/** SHA-256 of a plan, 64 hexadecimal digits. */
export function planHash(plan: BatchPlan): string {
  return createHash("sha256").update(JSON.stringify(plan)).digest("hex");
}

/** What a part of a plan is called and how it is spelt for the user. */
const PARTS: readonly { readonly path: string; readonly of: (plan: BatchPlan) => string }[] = [
  { path: "Davit", of: (plan) => plan.version },
  { path: "--study", of: (plan) => plan.study },
  { path: "PAIR", of: (plan) => plan.pair.name },
  { path: "--variant", of: (plan) => plan.variant },
  { path: "--set", of: (plan) => plan.set.join(", ") || "none" },
  { path: "--conditions", of: (plan) => plan.conditions.map(({ key }) => key).join(",") },
  { path: "--samples", of: (plan) => String(plan.samples) },
  { path: "--seed", of: (plan) => String(plan.seed) },
  { path: "--task-size", of: (plan) => String(plan.taskSize) },
  { path: "columns", of: (plan) => JSON.stringify([plan.columns, plan.success]) },
];

/** Every part in which a plan differs from the one that a folder holds; empty when they are the same. */
export function planDifferences(held: BatchPlan, asked: BatchPlan): Issue[] {
  const issues: Issue[] = [];
  for (const { path, of } of PARTS) {
    const [value, allowed] = [of(asked), of(held)];
    if (value === allowed) continue;
    if (path === "columns") issues.push({ path, message: "of the study are not those of the batch in the folder" });
    else issues.push({ path, message: "is not that of the batch in the folder", value, allowed });
  }
  const hashes = new Map(held.pair.files.map(({ path, sha256 }) => [path, sha256]));
  const now = new Map(asked.pair.files.map(({ path, sha256 }) => [path, sha256]));
  for (const path of new Set([...hashes.keys(), ...now.keys()])) {
    if (hashes.get(path) === now.get(path)) continue;
    const message = !now.has(path)
      ? "belonged to the batch in the folder and is no longer a file of the pair"
      : hashes.has(path)
        ? "has changed since the batch in the folder was begun"
        : "is a file of the pair now and was none when the batch in the folder was begun";
    issues.push({ path: "PAIR", file: path, message });
  }
  return issues;
}

/** Every task of a plan; the conditions take turns, so that all of them get on. */
export function tasksOf(plan: BatchPlan): BatchTask[] {
  const tasks: BatchTask[] = [];
  for (let first = 0; first < plan.samples; first += plan.taskSize) {
    const count = Math.min(plan.taskSize, plan.samples - first);
    for (const { key } of plan.conditions) tasks.push({ id: tasks.length, condition: key, first, count });
  }
  return tasks;
}
