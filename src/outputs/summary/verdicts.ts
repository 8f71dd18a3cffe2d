/** Findings folded into one line per plane and criterion, the worst one speaking for all. */
import type { Finding, Verdict } from "../../studies/finding/types.ts";
import { wordsOf } from "../names/index.ts";

/**
 * What a finding is about; read from its id: a plane of motion where it names one (`hold.hook.longitudinal`), for the
 * studies `fit`, `hookon`, `release` and `balance` the word after the study (`fit.ground.rotation` → "ground"), else the whole pair.
 */
export type Subject = string;

export interface VerdictRow {
  readonly study: string;
  readonly subject: Subject;
  /** The worst of its findings: not met, then not analysed, then met. */
  readonly verdict: Verdict;
  /** In words: the criterion, or the finding's title where only one finding is judged by it. */
  readonly what: string;
  /** The finding that governs: among those with the row's verdict the one with the least margin. */
  readonly governing: Finding;
  /** How many findings share the criterion, and how many of them meet it. */
  readonly count: number;
  readonly met: number;
}

const BADNESS: Readonly<Record<Verdict, number>> = { "not met": 3, "not analysed": 2, met: 1, information: 0 };
const PLANES: readonly Subject[] = ["longitudinal", "lateral", "whole pair"];

/** Studies whose findings are told apart by the word after the study. */
const BY_WORD: readonly string[] = ["fit", "hookon", "release", "balance"];

export function subjectOf(finding: Finding): Subject {
  const words = finding.id.split(".");
  if (BY_WORD.includes(finding.study)) return words[1] === undefined ? "whole pair" : wordsOf(words[1]);
  if (words.includes("longitudinal")) return "longitudinal";
  return words.includes("lateral") ? "lateral" : "whole pair";
}

/**
 * Margin to the criterion in parts of the limit (of 1 when the limit is 0); positive inside.
 *
 * A finding without value has no margin: it governs when it is not met and never when it is met.
 */
export function relativeMargin(finding: Finding): number {
  const { criterion, value } = finding;
  if (criterion === undefined) return Number.POSITIVE_INFINITY;
  if (value === null) return finding.verdict === "met" ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
  const excess = criterion.sense === "at least" ? value - criterion.limit : criterion.limit - value;
  return excess / (criterion.limit === 0 ? 1 : Math.abs(criterion.limit));
}

function foldGroup(findings: readonly Finding[]): VerdictRow {
  let governing = findings[0]!;
  for (const finding of findings) {
    const worse = BADNESS[finding.verdict] - BADNESS[governing.verdict];
    if (worse > 0 || (worse === 0 && relativeMargin(finding) < relativeMargin(governing))) governing = finding;
  }
  return {
    study: governing.study,
    subject: subjectOf(governing),
    verdict: governing.verdict,
    what: findings.length > 1 && governing.criterion !== undefined ? governing.criterion.text : governing.title,
    governing,
    count: findings.length,
    met: findings.filter((finding) => finding.verdict === "met").length,
  };
}

/**
 * One row per study, subject and criterion: planes in the order longitudinal, lateral, whole pair, other subjects as they first
 * come; inside each the unmet first.
 *
 * Findings that only inform are left out.
 */
export function summariseVerdicts(findings: readonly Finding[]): VerdictRow[] {
  const groups = new Map<string, Finding[]>();
  for (const finding of findings) {
    if (finding.verdict === "information") continue;
    const { criterion } = finding;
    const what = criterion === undefined ? finding.id : `${criterion.text}|${criterion.limit}|${criterion.source}`;
    const key = `${finding.study}|${subjectOf(finding)}|${what}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [finding]);
    else group.push(finding);
  }
  const rows = [...groups.values()].map(foldGroup);
  const subjects = [...new Set([...PLANES, ...rows.map((row) => row.subject)])];
  return rows.sort((a, b) => {
    const byStudy = a.study < b.study ? -1 : a.study > b.study ? 1 : 0;
    if (byStudy !== 0) return byStudy;
    const bySubject = subjects.indexOf(a.subject) - subjects.indexOf(b.subject);
    return bySubject === 0 ? BADNESS[b.verdict] - BADNESS[a.verdict] : bySubject;
  });
}

/** The one word for a set of findings; "information" when none has a criterion. */
export function overallVerdict(findings: readonly Finding[]): Verdict {
  let worst: Verdict = "information";
  for (const { verdict } of findings) if (BADNESS[verdict] > BADNESS[worst]) worst = verdict;
  return worst;
}
