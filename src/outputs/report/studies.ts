/** What each study adds to the report, and the results of all studies by variant. */
import type { Finding, Limit } from "../../studies/finding/types.ts";
import type { ResultDocument } from "../result/index.ts";
import type { Html } from "./html.ts";

/** Findings and texts of all studies of one variant. */
export interface VariantResults {
  readonly variant: string;
  readonly findings: readonly Finding[];
  readonly limits: readonly Limit[];
  readonly assumptions: readonly string[];
  readonly notAnalysed: readonly string[];
}

/** Pages of one study. */
export interface StudyPages {
  /** What the study is about, for the line below the title. */
  readonly about: string;
  /** Ids and titles of its sections, in order. */
  readonly contents: readonly (readonly [string, string])[];
  /** Headline numbers, a card for each variant. */
  readonly cards: readonly Html[];
  readonly sections: Html;
  /** Style rules of its own. */
  readonly style: string;
}

function merged(a: VariantResults, b: VariantResults): VariantResults {
  return {
    variant: a.variant,
    findings: [...a.findings, ...b.findings],
    limits: [...a.limits, ...b.limits],
    assumptions: [...a.assumptions, ...b.assumptions],
    notAnalysed: [...a.notAnalysed, ...b.notAnalysed],
  };
}

/** Results by variant, the selected one first; the first of a name in one study goes with the first in the other. */
export function variantsOf({ studies }: ResultDocument): VariantResults[] {
  const found = new Map<string, VariantResults>();
  const { fit = [], hold = [], hookon = [], release = [], balance = [] } = studies;
  for (const results of [fit, hold, hookon, release, balance] as const) {
    const seen = new Map<string, number>();
    for (const { variant, findings, limits, assumptions, notAnalysed } of results) {
      const own = { variant, findings, limits, assumptions, notAnalysed };
      const count = seen.get(variant) ?? 0;
      seen.set(variant, count + 1);
      const key = `${count} ${variant}`;
      const before = found.get(key);
      found.set(key, before === undefined ? own : merged(before, own));
    }
  }
  return [...found.values()];
}
