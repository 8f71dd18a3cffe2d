import type { SampleHistory, SampleStudy } from "../../studies/samples/types.ts";
import { type BatchPlan, runSample } from "../batch-plan/index.ts";
import { PARQUET_PACKAGE, writeHistory } from "../batch-store/index.ts";
import { CannotRun } from "../effects.ts";

/** One sample once more. */
export interface Replayed {
  /** Its row, shape (columns). */
  readonly row: Float64Array;
  readonly history: SampleHistory;
}

/** Runs a sample as the batch did, and again with its course in time. */
export function replaySample(study: SampleStudy, plan: BatchPlan, condition: string, index: number): Replayed {
  const row = new Float64Array(plan.columns.length);
  runSample(study.sampler(condition), index, row, { plan, condition });
  return { row, history: study.sampler(condition).replay(index) };
}

/** A history as CSV: names with units, then rows; an empty cell for what is not there. */
export function historyCsv({ columns, values }: SampleHistory): string {
  const width = columns.length;
  const lines = [columns.map(({ name }) => cell(name)).join(",")];
  for (let at = 0; at + width <= values.length && width > 0; at += width) {
    lines.push(columns.map(({ words }, k) => spelt(values[at + k], words)).join(","));
  }
  return `${lines.join("\n")}\n`;
}

/** What happened when, as CSV. */
export function eventsCsv({ events }: SampleHistory): string {
  return ["time_s,what", ...events.map(({ time, what }) => `${time},${cell(what)}`)].join("\n").concat("\n");
}

function spelt(value: number, words: readonly string[] | undefined): string {
  if (Number.isNaN(value)) return "";
  return words === undefined ? String(value) : cell(words[value] ?? "");
}

const cell = (text: string): string => (/[",\n\r]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** Writes a history as Parquet; returns why not when the library for it is not there. */
export async function historyParquet(path: string, history: SampleHistory): Promise<string | undefined> {
  try {
    await writeHistory(path, history);
    return undefined;
  } catch (error) {
    if (error instanceof CannotRun) return `needs the package ${PARQUET_PACKAGE}`;
    throw error;
  }
}
