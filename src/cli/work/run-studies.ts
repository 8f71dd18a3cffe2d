import type { Effects } from "../../host/index.ts";
import { hashInputs, type LoadedPair, recordReads } from "../../inputs/index.ts";
import { InputError } from "../../math/errors.ts";
import type { Finding, Limit } from "../../studies/finding/index.ts";
import { type FitContext, type FitResult, runFit } from "../../studies/fit/index.ts";
import { type HoldContext, type HoldResult, runHold } from "../../studies/hold/index.ts";
import { VERSION } from "../version.ts";
import { during } from "./during.ts";

/** Studies in the order of the job; a pair has those for which it has a section. */
export const STUDIES = ["fit", "hold"] as const;
export type Study = (typeof STUDIES)[number];

/** Results of one variant, by study. */
export interface StudyRun {
  readonly variant: string;
  readonly fit?: FitResult;
  readonly hold?: HoldResult;
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

/** Runs one study; a failure says during which step it came. */
function runStudy<R>(
  study: Study,
  loaded: LoadedPair,
  effects: Effects,
  run: (context: HoldContext & FitContext) => R,
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

/** Runs the study `hold` on a loaded pair, with a line of progress where there is a terminal. */
export function holdOf(loaded: LoadedPair, effects: Effects): HoldResult {
  return runStudy("hold", loaded, effects, runHold);
}

/** Runs the study `fit` on a loaded pair, with a line of progress where there is a terminal. */
export function fitOf(loaded: LoadedPair, effects: Effects): FitResult {
  return runStudy("fit", loaded, effects, runFit);
}

/**
 * Runs several studies on a loaded pair.
 *
 * @throws {InputError} when the pair has a section for none of them
 */
export function runStudies(loaded: LoadedPair, wanted: readonly Study[], effects: Effects): StudyRun {
  if (wanted.length === 0) {
    const allowed = STUDIES.map((study) => `studies.${study}`).join(", ");
    throw new InputError([{ path: "studies", message: "is missing: there is no study to run", allowed }]);
  }
  return {
    variant: loaded.variant,
    ...(wanted.includes("fit") ? { fit: fitOf(loaded, effects) } : {}),
    ...(wanted.includes("hold") ? { hold: holdOf(loaded, effects) } : {}),
  };
}
