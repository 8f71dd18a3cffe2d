import { type BatchOutcome, CONFIDENCE, holdsBatch, readPlan, runBatch } from "../../host/batch/index.ts";
import {
  type BatchJob,
  type BatchPlan,
  bundleOf,
  makePlan,
  openStudy,
  type Runner,
} from "../../host/batch-plan/index.ts";
import { inlineRunner, type QueueTiming, queueRunner, threadsRunner } from "../../host/batch-runners/index.ts";
import { EXPORTS } from "../../host/batch-store/index.ts";
import { CannotWrite, type Effects } from "../../host/index.ts";
import { BugError, InputError } from "../../math/errors.ts";
import { sharesText } from "../../outputs/text/index.ts";
import type { SampleStudyEntry } from "../../studies/samples/types.ts";
import { EXIT, type ExitCode } from "../exit.ts";
import { openPair, readOnce } from "../open/index.ts";
import type { Request } from "../types.ts";
import { Options } from "./options.ts";
import { progressLine, timeWords } from "./progress.ts";

/** What a batch needs besides its request: the studies there are, and the version that its plan names. */
export interface BatchSurroundings {
  readonly studies: readonly SampleStudyEntry[];
  readonly version: string;
  /** Of the queue; its own if not given. */
  readonly timing?: QueueTiming;
}

/** `davit batch`: runs samples of a study into a folder. */
export async function batchCommand(
  request: Request,
  effects: Effects,
  surroundings: BatchSurroundings,
): Promise<ExitCode> {
  const { studies, version } = surroundings;
  const folder = request.out!;
  const resume = request.resume === true;
  // what is left out when a batch is continued is what it was begun with
  const held = resume && holdsBatch(folder) ? readPlan(folder).plan : undefined;
  const options = new Options(request);
  const untilWidth = options.width();
  const entry = options.study(studies, held?.study);
  const wishes = wishesOf(options, held);
  const runner = runnerOf(options, request, effects, surroundings);
  options.settle();
  const asked = askedOf(request, held);
  const job = await planned(entry!, asked, effects, { ...wishes, version });
  const { plan } = job;
  const title = plan.columns.find(({ name }) => name === plan.success)?.title ?? plan.success;
  const runs = await runner();
  try {
    const outcome = await runBatch({
      folder,
      job,
      runner: runs,
      resume,
      ...(untilWidth === undefined ? {} : { untilWidth }),
      signal: effects.interrupt,
      now: effects.now,
      progress: progressLine(plan.study, title, effects.progress),
      say: (words) => effects.stderr.write(`davit: ${words}\n`),
    });
    effects.progress(undefined);
    effects.stdout.write(outcomeText(outcome, plan, { folder, by: runs.title, title, look: effects.look }));
    return outcome.kind === "finished" ? EXIT.met : EXIT.stopped;
  } catch (error) {
    if (error instanceof CannotWrite && holdsBatch(folder)) {
      effects.stderr.write("davit: every row that was stored is kept; mend this and continue with --resume.\n");
    }
    throw error;
  }
}

interface Wishes {
  readonly conditions?: readonly string[];
  readonly samples?: number;
  readonly taskSize?: number;
  readonly seed?: number;
}

function wishesOf(options: Options, held: BatchPlan | undefined): Wishes {
  const conditions = options.conditions() ?? held?.conditions.map(({ key }) => key);
  const samples = options.whole("samples", 1, 1e12) ?? held?.samples;
  const taskSize = options.whole("taskSize", 1, 1e6) ?? held?.taskSize;
  const seed = options.whole("seed", 0, Number.MAX_SAFE_INTEGER) ?? held?.seed;
  return {
    ...(conditions === undefined ? {} : { conditions }),
    ...(samples === undefined ? {} : { samples }),
    ...(taskSize === undefined ? {} : { taskSize }),
    ...(seed === undefined ? {} : { seed }),
  };
}

/** The request with variant and overrides of a batch that is continued, where none are given. */
function askedOf(request: Request, held: BatchPlan | undefined): Request {
  if (held === undefined) return request;
  return { ...request, variant: request.variant ?? held.variant, set: request.set.length > 0 ? request.set : held.set };
}

/** Made when everything else is in order, since it may start threads or ask a server. */
function runnerOf(
  options: Options,
  request: Request,
  effects: Effects,
  { studies, version, timing }: BatchSurroundings,
): () => Promise<Runner> {
  const queue = options.queue();
  if (request.queue !== undefined && queue === undefined)
    return () => Promise.reject(new BugError("a queue without address"));
  if (queue !== undefined) {
    if (request.workers !== undefined) {
      const message = "is for threads of this command; with --queue each `davit worker` has its own";
      options.issues.push({ path: "--workers", message, value: request.workers });
    }
    return () => queueRunner(queue, timing);
  }
  const threads = options.threads(0);
  const { samplerEntry } = effects;
  if (threads === 0 || samplerEntry === undefined) return async () => inlineRunner(studies, version);
  return () => threadsRunner(samplerEntry, threads);
}

async function planned(
  entry: SampleStudyEntry,
  request: Request,
  effects: Effects,
  wishes: Wishes & { readonly version: string },
): Promise<BatchJob> {
  const read = readOnce(effects);
  const loaded = await openPair(request, read, effects);
  const study = openStudy(entry, loaded, wishes.seed);
  if (study === null) {
    throw new InputError([
      { path: `studies.${entry.key}`, message: `is missing: the pair has no section for ${entry.key}` },
    ]);
  }
  const plan = makePlan(study, loaded, { ...wishes, set: request.set });
  return { plan, bundle: bundleOf(request.pair, loaded, read) };
}

const rowWords = (count: number): string => `${count} ${count === 1 ? "row" : "rows"}`;

/** What the user reads at the end. */
function outcomeText(
  outcome: BatchOutcome,
  plan: BatchPlan,
  at: { readonly folder: string; readonly by: string; readonly title: string; readonly look: Effects["look"] },
): string {
  const { counts, computed, kept, seconds } = outcome;
  const rows = counts.reduce((sum, count) => sum + count.rows, 0);
  const rate =
    computed > 0 && seconds > 0 ? `, ${(computed / seconds).toFixed(computed / seconds < 10 ? 1 : 0)} rows/s` : "";
  const lines = [
    `${plan.study}, ${plan.pair.name}, ${plan.variant}, seed ${plan.seed} (davit ${plan.version})`,
    `${rowWords(computed)} computed ${at.by} in ${timeWords(seconds)}${rate}${kept > 0 ? `; ${rowWords(kept)} ${kept === 1 ? "was" : "were"} there` : ""}`,
    "",
  ];
  const text = sharesText({ success: at.title, confidence: CONFIDENCE, counts }, at.look);
  const places =
    outcome.kind === "finished"
      ? [`Rows: ${at.folder}/${EXPORTS.parquet}`, `Rows: ${at.folder}/${EXPORTS.csv}`]
      : [
          `Interrupted: ${rows} of ${plan.samples * plan.conditions.length} rows are kept in ${at.folder}; continue with --resume.`,
        ];
  return `${lines.join("\n")}\n${text}\n${places.join("\n")}\n`;
}
