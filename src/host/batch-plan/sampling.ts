import { BugError, DomainError, InputError, type Issue } from "../../math/errors.ts";
import type { SampleColumn, Sampler, SampleStudy } from "../../studies/samples/types.ts";
import { CannotRun } from "../effects.ts";
import type { BatchPlan, BatchTask } from "./types.ts";

/** Computes tasks of one opened study in one thread; a sampler is made once for each condition. */
export function taskRunner(
  plan: BatchPlan,
  study: SampleStudy,
): (task: BatchTask, step?: () => Promise<void>) => Promise<Float64Array> {
  const samplers = new Map<string, Sampler>();
  const width = plan.columns.length;
  return async (task, step) => {
    const sampler = samplers.get(task.condition) ?? study.sampler(task.condition);
    samplers.set(task.condition, sampler);
    const values = new Float64Array(task.count * width);
    const row = new Float64Array(width);
    for (let i = 0; i < task.count; i++) {
      runSample(sampler, task.first + i, row, { plan, condition: task.condition });
      values.set(row, i * width);
      if (step !== undefined) await step();
    }
    return values;
  };
}

/**
 * One sample, checked; `row` is written.
 *
 * @throws {DomainError | BugError} with condition and sample named
 */
export function runSample(
  sampler: Sampler,
  index: number,
  row: Float64Array,
  at: { readonly plan: BatchPlan; readonly condition: string },
): void {
  const place = `${at.plan.study}, ${at.condition}, sample ${index}`;
  row.fill(Number.NaN);
  try {
    sampler.run(index, row);
  } catch (error) {
    if (error instanceof DomainError) throw new DomainError(`${place}: ${error.quantity}`, error.value, error.allowed);
    throw new BugError(`${place}: ${error instanceof Error ? error.message : String(error)}`);
  }
  const wrong = at.plan.columns.findIndex((column, k) => !fits(row[k], column, at.plan.success));
  if (wrong >= 0) throw new BugError(`${place}: ${at.plan.columns[wrong].name} is ${row[wrong]}`);
}

function fits(value: number, { name, words }: SampleColumn, success: string): boolean {
  if (name === success) return value === 0 || value === 1;
  if (Number.isNaN(value)) return true;
  return words === undefined ? Number.isFinite(value) : Number.isInteger(value) && value >= 0 && value < words.length;
}

/** An error in a form that travels between threads and machines. */
export type Failure =
  | { readonly kind: "domain"; readonly quantity: string; readonly value: string; readonly allowed: string }
  | { readonly kind: "input"; readonly issues: readonly Issue[] }
  | { readonly kind: "run" | "bug"; readonly message: string };

export function failureFrom(error: unknown): Failure {
  if (error instanceof DomainError) {
    return { kind: "domain", quantity: error.quantity, value: String(error.value), allowed: error.allowed };
  }
  if (error instanceof InputError) return { kind: "input", issues: error.issues };
  if (error instanceof CannotRun) return { kind: "run", message: error.message };
  return { kind: "bug", message: error instanceof Error ? error.message : String(error) };
}

export function errorFrom(failure: Failure): Error {
  switch (failure.kind) {
    case "domain":
      return new DomainError(failure.quantity, failure.value, failure.allowed);
    case "input":
      return new InputError(failure.issues);
    case "run":
      return new CannotRun(failure.message);
    case "bug":
      return new BugError(failure.message);
  }
}
