import { BugError } from "../../math/errors.ts";
import type { Criterion, Finding, Verdict } from "./types.ts";

/** What every finding of a run shares. */
export interface FindingContext {
  readonly study: string;
  readonly version: string;
  readonly seed: number | null;
  /** SHA-256 over the values and files behind a set of pair paths. */
  readonly hash: (paths: readonly string[]) => string;
}

/** A finding before it gets its hash and version; the verdict follows from the criterion unless it is stated. */
export interface FindingDraft {
  readonly id: string;
  readonly title: string;
  readonly value: number | null;
  readonly unit: string;
  readonly criterion?: Criterion;
  readonly verdict?: Verdict;
  readonly note?: string;
  /** Pair paths it rests on; any order, repeats allowed. */
  readonly rests: readonly string[];
}

/** Verdict of a value against a criterion. */
export function verdictOf(value: number, criterion: Criterion): Verdict {
  const met = criterion.sense === "at least" ? value >= criterion.limit : value <= criterion.limit;
  return met ? "met" : "not met";
}

/**
 * Makes findings for one run of a study.
 *
 * @returns a function from draft to finding
 * @throws {BugError} for a value that is not finite, or a draft without value that states no verdict
 */
export function findingMaker(context: FindingContext): (draft: FindingDraft) => Finding {
  return (draft) => {
    const { value, criterion } = draft;
    if (value !== null && !Number.isFinite(value)) throw new BugError(`finding ${draft.id} has the value ${value}`);
    const fallback = value !== null && criterion !== undefined ? verdictOf(value, criterion) : "information";
    if (value === null && draft.verdict === undefined) throw new BugError(`finding ${draft.id} has no verdict`);
    const rests = [...new Set(draft.rests)].sort();
    return {
      id: draft.id,
      study: context.study,
      title: draft.title,
      value,
      unit: draft.unit,
      ...(criterion === undefined ? {} : { criterion }),
      verdict: draft.verdict ?? fallback,
      ...(draft.note === undefined ? {} : { note: draft.note }),
      rests,
      inputHash: context.hash(rests),
      version: context.version,
      seed: context.seed,
    };
  };
}
