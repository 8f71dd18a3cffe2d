import type { Effects } from "../../host/index.ts";
import { hashInputs, type LoadedPair, recordReads } from "../../inputs/index.ts";
import { InputError } from "../../math/errors.ts";
import { type BalanceContext, type BalanceResult, runBalance } from "../../studies/balance/index.ts";
import type { Finding, Limit } from "../../studies/finding/index.ts";
import { type FitContext, type FitResult, runFit } from "../../studies/fit/index.ts";
import type { HoldContext } from "../../studies/hold/index.ts";
import { type HoldDepthResult, runHoldInDepth } from "../../studies/hold-depth/index.ts";
import { type HookonContext, type HookonResult, runHookon } from "../../studies/hookon/index.ts";
import { type ReleaseResult, runRelease } from "../../studies/release/index.ts";
import { VERSION } from "../version.ts";
import { during } from "./during.ts";

/** Studies in the order of the job; a pair has those for which it has a section. */
export const STUDIES = ["fit", "hold", "hookon", "release", "balance"] as const;
export type Study = (typeof STUDIES)[number];

/** Results of one variant, by study. */
export interface StudyRun {
  readonly variant: string;
  readonly fit?: FitResult;
  readonly hold?: HoldDepthResult;
  readonly hookon?: HookonResult;
  readonly release?: ReleaseResult;
  readonly balance?: BalanceResult;
  readonly reusable?: Reusable;
}

/** A study's result with what it read, so that a variant that changes none of it need not compute it again. */
export interface Reusable {
  readonly loaded: LoadedPair;
  readonly fit: FitResult;
  readonly paths: readonly string[];
}

/** Studies that a pair has a section for. */
export function studiesOf(loaded: LoadedPair): Study[] {
  return STUDIES.filter((study) => loaded.pair.studies?.[study] !== undefined);
}

/** Findings of a run, study by study. */
export function findingsOf(run: StudyRun): Finding[] {
  return STUDIES.flatMap((study) => run[study]?.findings ?? []);
}

export function limitsOf(run: StudyRun): Limit[] {
  return STUDIES.flatMap((study) => run[study]?.limits ?? []);
}

/** Runs `fit` and keeps what it read; takes the result of another variant when that read the same values. */
function fitLike(loaded: LoadedPair, effects: Effects, like: Reusable | undefined): Reusable {
  if (like !== undefined && hashInputs(loaded, like.paths) === hashInputs(like.loaded, like.paths)) {
    return { ...like, fit: { ...like.fit, variant: loaded.variant } };
  }
  const views: { paths(): string[] }[] = [];
  const fit = runStudy("fit", loaded, effects, (context) =>
    runFit({
      ...context,
      reads: () => {
        const view = recordReads(loaded);
        views.push(view);
        return view;
      },
    }),
  );
  return { loaded, fit, paths: [...new Set(views.flatMap((view) => view.paths()))] };
}

/** Runs one study; a failure says during which step it came. */
function runStudy<R>(
  study: Study,
  loaded: LoadedPair,
  effects: Effects,
  run: (context: HoldContext & FitContext & HookonContext & BalanceContext) => R,
): R {
  let at = `${study}, ${loaded.variant}`;
  return during(
    () => at,
    () =>
      run({
        variant: loaded.variant,
        reads: () => recordReads(loaded),
        hash: (paths) => hashInputs(loaded, paths),
        version: VERSION,
        progress: (part, done, of) => {
          at = `${study}, ${loaded.variant}, ${part}`;
          effects.progress(`${study}, ${loaded.variant}: ${part} (${done + 1} of ${of})`);
        },
      }),
  );
}

/**
 * Runs the study `hold` on a loaded pair, with a line of progress where there is a terminal.
 *
 * @param only keys of the parts to run beside the modes; absent: all that the pair gives something for
 */
export function holdOf(loaded: LoadedPair, effects: Effects, only?: readonly string[]): HoldDepthResult {
  return runStudy("hold", loaded, effects, (context) =>
    runHoldInDepth(only === undefined ? context : { ...context, only }),
  );
}

/** Runs the study `fit` on a loaded pair, with a line of progress where there is a terminal. */
export function fitOf(loaded: LoadedPair, effects: Effects): FitResult {
  return runStudy("fit", loaded, effects, runFit);
}

/** Runs the study `hookon` on a loaded pair, with a line of progress where there is a terminal. */
export function hookonOf(loaded: LoadedPair, effects: Effects): HookonResult {
  return runStudy("hookon", loaded, effects, (context) => runHookon(context));
}

/** Runs the study `balance` on a loaded pair, with a line of progress where there is a terminal. */
export function balanceOf(loaded: LoadedPair, effects: Effects): BalanceResult {
  return runStudy("balance", loaded, effects, runBalance);
}

/**
 * Runs the study `release` on a loaded pair, with a line of progress where there is a terminal.
 *
 * @throws {InputError} when the pair has no section for it
 */
export function releaseOf(loaded: LoadedPair, effects: Effects): ReleaseResult {
  const result = runStudy("release", loaded, effects, runRelease);
  if (result === null)
    throw new InputError([{ path: "studies.release", message: "is missing: there is nothing to run" }]);
  return result;
}

/**
 * Runs several studies on a loaded pair.
 *
 * @param like run of another variant, whose `fit` is taken over when this variant changes nothing that it read
 * @param parts keys of the parts of `hold` to run; absent: all that the pair gives something for
 * @throws {InputError} when the pair has a section for none of them
 */
export function runStudies(
  loaded: LoadedPair,
  wanted: readonly Study[],
  effects: Effects,
  like?: StudyRun,
  parts?: readonly string[],
): StudyRun {
  if (wanted.length === 0) {
    const allowed = STUDIES.map((study) => `studies.${study}`).join(", ");
    throw new InputError([{ path: "studies", message: "is missing: there is no study to run", allowed }]);
  }
  const fit = wanted.includes("fit") ? fitLike(loaded, effects, like?.reusable) : undefined;
  return {
    variant: loaded.variant,
    ...(fit === undefined ? {} : { fit: fit.fit, reusable: fit }),
    ...(wanted.includes("hold") ? { hold: holdOf(loaded, effects, parts) } : {}),
    ...(wanted.includes("hookon") ? { hookon: hookonOf(loaded, effects) } : {}),
    ...(wanted.includes("release") ? { release: releaseOf(loaded, effects) } : {}),
    ...(wanted.includes("balance") ? { balance: balanceOf(loaded, effects) } : {}),
  };
}
