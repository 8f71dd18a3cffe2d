import { statSync } from "node:fs";
import {
  eventsCsv,
  historyCsv,
  historyParquet,
  holdsBatch,
  readBatch,
  readJob,
  readPlan,
  replaySample,
} from "../../host/batch/index.ts";
import { type BatchPlan, loadBundle, makePlan, openStudy } from "../../host/batch-plan/index.ts";
import { CannotRun, type Effects } from "../../host/index.ts";
import type { LoadedPair } from "../../inputs/index.ts";
import { InputError } from "../../math/errors.ts";
import type { SampleColumn } from "../../studies/samples/types.ts";
import { EXIT, type ExitCode } from "../exit.ts";
import { openPair, readOnce } from "../open/index.ts";
import type { Request } from "../types.ts";
import { Options } from "./options.ts";
import type { BatchSurroundings } from "./run-batch.ts";

/** `davit replay`: one sample again, with its course in time. */
export async function replayCommand(
  request: Request,
  effects: Effects,
  { studies, version }: BatchSurroundings,
): Promise<ExitCode> {
  const held = isFolder(request.pair) ? heldPlan(request) : undefined;
  const options = new Options(request);
  const entry = options.study(studies, held?.study);
  const index = options.whole("sample", 0, Number.MAX_SAFE_INTEGER);
  const asked = options.whole("seed", 0, Number.MAX_SAFE_INTEGER);
  if (held !== undefined) refuseOwn(request, held, options);
  options.settle();
  const seed = asked ?? held?.seed;
  const loaded = held === undefined ? await openPair(request, readOnce(effects), effects) : await heldPair(request);
  const study = openStudy(entry!, loaded, seed);
  if (study === null) {
    throw new InputError([
      { path: `studies.${entry!.key}`, message: `is missing: the pair has no section for ${entry!.key}` },
    ]);
  }
  const condition = request.condition!;
  const plan = makePlan(study, loaded, {
    version,
    set: request.set,
    conditions: [condition],
    conditionPath: "--condition",
  });
  const { row, history } = replaySample(study, plan, condition, index!);
  const base = `${request.out!.replace(/\/+$/, "")}/${study.key}-${condition}-${index}`;
  await effects.files.write(`${base}.csv`, historyCsv(history));
  await effects.files.write(`${base}-events.csv`, eventsCsv(history));
  const without = await historyParquet(`${base}.parquet`, history);
  effects.stdout.write(
    [
      `${study.key}, ${loaded.pair.pair}, ${loaded.variant}, ${condition}, sample ${index}, seed ${study.seed} (davit ${version})`,
      ...plan.columns.map((column, k) => `  ${column.title}: ${spelt(row[k], column)}`),
      ...history.events.map(({ time, what }) => `  ${time.toFixed(3).padStart(9)} s  ${what}`),
      ...(held === undefined ? [] : [await comparison(request.pair, { condition, index: index!, row, version })]),
      `History: ${base}.csv`,
      `Events: ${base}-events.csv`,
      without === undefined ? `History: ${base}.parquet` : `${base}.parquet is not written: it ${without}`,
      "",
    ].join("\n"),
  );
  return EXIT.met;
}

const isFolder = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;

function heldPlan(request: Request): BatchPlan {
  if (holdsBatch(request.pair)) return readPlan(request.pair).plan;
  const message = "the folder holds no batch";
  throw new InputError([
    { path: "PAIR|DIR", message, value: request.pair, allowed: "a pair file, or the folder of a batch" },
  ]);
}

/** A batch has its own pair, variant, overrides, seed and study: another one asked for beside it is a mistake. */
function refuseOwn(request: Request, held: BatchPlan, options: Options): void {
  const asked = [
    { path: "--variant", value: request.variant, own: held.variant },
    { path: "--study", value: request.study?.[0], own: held.study },
    { path: "--seed", value: request.seed, own: String(held.seed) },
    { path: "--set", value: request.set.length > 0 ? request.set.join(", ") : undefined, own: held.set.join(", ") },
  ];
  for (const { path, value, own } of asked) {
    if (value === undefined || value === own) continue;
    options.issues.push({
      path,
      message: "is not that of the batch; it can be left out",
      value,
      allowed: own || "none",
    });
  }
}

async function heldPair(request: Request): Promise<LoadedPair> {
  const { plan, bundle } = readJob(request.pair);
  return loadBundle(bundle, { variant: plan.variant, set: plan.set });
}

/** Whether the batch holds the same row. */
async function comparison(
  folder: string,
  sample: { readonly condition: string; readonly index: number; readonly row: Float64Array; readonly version: string },
): Promise<string> {
  try {
    const { plan, tables } = await readBatch(folder);
    const table = tables.find(({ condition }) => condition === sample.condition);
    const at = table === undefined ? -1 : table.index.indexOf(sample.index);
    if (table === undefined || at < 0) return "The batch does not hold this sample.";
    const width = table.columns.length;
    const differing = table.columns.filter((_, k) => !Object.is(table.values[at * width + k], sample.row[k]));
    if (differing.length === 0) return "The row is the one in the batch.";
    const names = differing.map(({ name }) => name).join(", ");
    return `The row is NOT the one in the batch (${names}): that was computed by davit ${plan.version}, this is davit ${sample.version}.`;
  } catch (error) {
    if (error instanceof CannotRun) return `The row was not compared with the batch: ${error.message}.`;
    throw error;
  }
}

function spelt(value: number, { unit, words }: SampleColumn): string {
  if (Number.isNaN(value)) return "–";
  if (words !== undefined) return words[value] ?? "";
  return `${Number(value.toPrecision(6))}${unit === "" ? "" : ` ${unit}`}`;
}
