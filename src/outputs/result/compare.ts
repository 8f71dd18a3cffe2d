/** What moved between two results of one pair, and which inputs moved it. */
import type { Finding, Limit, Verdict } from "../../studies/finding/types.ts";
import type { FileRecord, InputRecord, ResultDocument } from "./types.ts";

export type ChangeKind = "changed" | "added" | "removed";

export interface InputChange {
  readonly path: string;
  readonly kind: ChangeKind;
  readonly oldText: string | null;
  readonly newText: string | null;
  /** Ids of the findings, old or new, that rest on the path. */
  readonly because: readonly string[];
}

export interface FileChange {
  readonly path: string;
  readonly kind: ChangeKind;
  readonly oldSha256: string | null;
  readonly newSha256: string | null;
  /**
   * `table`: a value of the pair is this file. `values`: the pair file itself or one it includes, whose values stand
   * one by one under `inputs`.
   */
  readonly holds: "table" | "values";
  /** Ids of the findings that rest on what changed in the file: on the table, or on a value that is no longer the same. */
  readonly because: readonly string[];
}

export interface FindingChange {
  readonly id: string;
  readonly title: string;
  readonly unit: string;
  readonly old: Finding;
  readonly new: Finding;
  /** New minus old, in `unit`; null when one side has no value or the unit differs. */
  readonly absolute: number | null;
  /** `absolute` over the size of the old value; null when that is zero. */
  readonly relative: number | null;
  readonly verdictFlipped: boolean;
  /** Changed input paths and files that it rests on; empty when only the version or the seed differs. */
  readonly because: readonly string[];
}

export interface LimitChange {
  readonly id: string;
  readonly old: Limit | null;
  readonly new: Limit | null;
}

export interface ResultSide {
  readonly davit: string;
  readonly pair: string;
  readonly variant: string;
  readonly overrides: readonly string[];
  readonly seed: number | null;
}

export interface ResultComparison {
  readonly old: ResultSide;
  readonly new: ResultSide;
  readonly inputs: readonly InputChange[];
  readonly files: readonly FileChange[];
  /** Findings whose value, criterion or verdict moved; those with a flipped verdict first. */
  readonly moved: readonly FindingChange[];
  readonly appeared: readonly Finding[];
  readonly disappeared: readonly Finding[];
  /** Ids of findings that rest on something changed and came out the same. */
  readonly unmoved: readonly string[];
  readonly limits: readonly LimitChange[];
}

/** Relative differences below it are noise of arithmetic, not news. */
const NOISE = 1e-9;

/** True when a finding that rests on `rested` is touched by a change at `changed`: same path, or one holds the other. */
export function restsOn(rested: string, changed: string): boolean {
  if (rested === changed) return true;
  const [short, long] = rested.length < changed.length ? [rested, changed] : [changed, rested];
  return long.startsWith(short) && (long[short.length] === "." || long[short.length] === "[");
}

function kindOf(before: unknown, after: unknown): ChangeKind {
  if (before === undefined) return "added";
  return after === undefined ? "removed" : "changed";
}

function sorted(values: Iterable<string>): string[] {
  return [...new Set(values)].sort();
}

function inputMoved(a: InputRecord | undefined, b: InputRecord | undefined): boolean {
  return a === undefined || b === undefined || a.text !== b.text || a.si !== b.si;
}

function inputChanges(before: ResultDocument, after: ResultDocument): InputChange[] {
  const findings = [...before.findings, ...after.findings];
  const changes: InputChange[] = [];
  for (const path of sorted([...Object.keys(before.inputs), ...Object.keys(after.inputs)])) {
    const a = before.inputs[path];
    const b = after.inputs[path];
    if (!inputMoved(a, b)) continue;
    const because = sorted(findings.filter((one) => one.rests.some((r) => restsOn(r, path))).map((one) => one.id));
    changes.push({ path, kind: kindOf(a, b), oldText: a?.text ?? null, newText: b?.text ?? null, because });
  }
  return changes;
}

/** Paths of the pair whose value a file holds: stated by the record, or the file is named in the value's text. */
function pathsOfFile(file: string, documents: readonly ResultDocument[]): string[] {
  const paths: string[] = [];
  for (const { inputs } of documents) {
    for (const [path, record] of Object.entries(inputs)) {
      const stated = record.file ?? null;
      if (stated === file || (stated === null && record.si === undefined && record.text.includes(file)))
        paths.push(path);
    }
  }
  return paths;
}

function fileChanges(before: ResultDocument, after: ResultDocument, inputs: readonly InputChange[]): FileChange[] {
  const index = (files: readonly FileRecord[]) => new Map(files.map((file) => [file.path, file.sha256]));
  const a = index(before.files);
  const b = index(after.files);
  const findings = [...before.findings, ...after.findings];
  const changes: FileChange[] = [];
  for (const path of sorted([...a.keys(), ...b.keys()])) {
    if (a.get(path) === b.get(path)) continue;
    const held = pathsOfFile(path, [before, after]);
    const holds = held.length > 0 ? "table" : "values";
    const because =
      holds === "values"
        ? sorted(inputs.flatMap((input) => input.because))
        : sorted(findings.filter((one) => one.rests.some((r) => held.some((h) => restsOn(r, h)))).map((one) => one.id));
    const shas = { oldSha256: a.get(path) ?? null, newSha256: b.get(path) ?? null };
    changes.push({ path, kind: kindOf(a.get(path), b.get(path)), ...shas, holds, because });
  }
  return changes;
}

function differs(a: number | null, b: number | null, noise: number): boolean {
  if (a === null || b === null) return a !== b;
  return Math.abs(a - b) > noise * Math.max(Math.abs(a), Math.abs(b));
}

function findingMoved(a: Finding, b: Finding, noise: number): boolean {
  return (
    a.verdict !== b.verdict ||
    a.unit !== b.unit ||
    differs(a.value, b.value, noise) ||
    differs(a.criterion?.limit ?? null, b.criterion?.limit ?? null, noise) ||
    a.criterion?.sense !== b.criterion?.sense
  );
}

function describeMove(a: Finding, b: Finding, because: readonly string[]): FindingChange {
  const absolute = a.value === null || b.value === null || a.unit !== b.unit ? null : b.value - a.value;
  const relative = absolute === null || a.value === null || a.value === 0 ? null : absolute / Math.abs(a.value);
  const verdictFlipped = a.verdict !== b.verdict;
  return { id: b.id, title: b.title, unit: b.unit, old: a, new: b, absolute, relative, verdictFlipped, because };
}

function limitChanges(before: readonly Limit[], after: readonly Limit[], noise: number): LimitChange[] {
  const a = new Map(before.map((limit) => [limit.id, limit]));
  const b = new Map(after.map((limit) => [limit.id, limit]));
  const changes: LimitChange[] = [];
  for (const id of sorted([...a.keys(), ...b.keys()])) {
    const was = a.get(id) ?? null;
    const is = b.get(id) ?? null;
    const same =
      was !== null &&
      is !== null &&
      was.status === is.status &&
      was.unit === is.unit &&
      !differs(was.lower, is.lower, noise) &&
      !differs(was.upper, is.upper, noise);
    if (!same) changes.push({ id, old: was, new: is });
  }
  return changes;
}

function sideOf({ davit, pair, variant, overrides, seed }: ResultDocument): ResultSide {
  return { davit, pair, variant, overrides, seed };
}

/** Order of news: flips to "not met" first, then other flips, then moves; inside each by id. */
function urgency(change: FindingChange): number {
  if (!change.verdictFlipped) return 2;
  return change.new.verdict === ("not met" satisfies Verdict) ? 0 : 1;
}

/**
 * Differences between two result documents: inputs and files that changed, findings that moved with the changed paths
 * they rest on, verdicts that flipped, findings and limits that came or went.
 *
 * @param before the older result
 * @param after  the newer result
 * @param noise  relative difference of values that is ignored
 */
export function compareResults(before: ResultDocument, after: ResultDocument, noise = NOISE): ResultComparison {
  const inputs = inputChanges(before, after);
  const files = fileChanges(before, after, inputs);
  const reasons = new Map<string, string[]>();
  // the values of the pair file are reasons one by one
  for (const change of [...inputs, ...files.filter((file) => file.holds === "table")]) {
    for (const id of change.because) reasons.set(id, [...(reasons.get(id) ?? []), change.path]);
  }
  const old = new Map(before.findings.map((finding) => [finding.id, finding]));
  const now = new Map(after.findings.map((finding) => [finding.id, finding]));
  const moved: FindingChange[] = [];
  const unmoved: string[] = [];
  for (const [id, b] of now) {
    const a = old.get(id);
    if (a === undefined) continue;
    if (findingMoved(a, b, noise)) moved.push(describeMove(a, b, reasons.get(id) ?? []));
    else if (reasons.has(id) || a.inputHash !== b.inputHash) unmoved.push(id);
  }
  moved.sort((a, b) => urgency(a) - urgency(b) || (a.id < b.id ? -1 : 1));
  return {
    old: sideOf(before),
    new: sideOf(after),
    inputs,
    files,
    moved,
    appeared: after.findings.filter((finding) => !old.has(finding.id)),
    disappeared: before.findings.filter((finding) => !now.has(finding.id)),
    unmoved: unmoved.sort(),
    limits: limitChanges(before.limits, after.limits, noise),
  };
}
