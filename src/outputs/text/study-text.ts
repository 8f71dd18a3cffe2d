/** What the terminal texts of all studies share: head, verdicts, findings, notes, limits, cautions. */
import type { Finding, Limit } from "../../studies/finding/types.ts";
import { CAUTION_LINE, STANDARD_CAUTIONS } from "../cautions/index.ts";
import { formatPair, formatQuantity } from "../numbers/index.ts";
import { limitMeaning, limitRange, overallVerdict, summariseVerdicts, type VerdictRow } from "../summary/index.ts";
import { type Column, paragraph, printable, printedWidth, table } from "./columns.ts";
import { signOf } from "./signs.ts";
import { VERDICT_WORDS, verdictPaint } from "./words.ts";

/** Said beside the result itself. */
export interface StudyTextMeta {
  /** Name of the pair. */
  readonly pair: string;
  /** Version of Davit. */
  readonly davit: string;
  /** The pair's own notice. */
  readonly notice?: string;
  /** The pair's own cautions, printed after the standing ones. */
  readonly cautions?: readonly string[];
}

/** What every study's result holds. */
export interface StudyFindings {
  readonly variant: string;
  readonly findings: readonly Finding[];
  readonly limits: readonly Limit[];
  readonly assumptions: readonly string[];
  readonly notAnalysed: readonly string[];
}

export interface Look {
  /** Columns. */
  readonly width: number;
  readonly colour: boolean;
}

/** Numbers in a terminal: a plain minus sign. */
export const PLAIN = { minus: "-" } as const;

function valueText(finding: Finding): string {
  const { value, unit, criterion } = finding;
  if (value === null) return "none";
  return criterion === undefined
    ? formatQuantity(value, unit, PLAIN)
    : formatPair(value, criterion.limit, unit, PLAIN).value;
}

function criterionText(finding: Finding): string {
  const { criterion, value, unit } = finding;
  if (criterion === undefined) return "";
  return `${criterion.sense} ${formatPair(value ?? criterion.limit, criterion.limit, unit, PLAIN).limit}`;
}

/** The criterion with its limit, its source, and which value is the worst of several. */
function judged({ what, governing, count }: VerdictRow): string {
  const { criterion, title, value } = governing;
  if (criterion === undefined) return what;
  if (count === 1) return `${what}: ${criterionText(governing)} (${criterion.source})`;
  return `${what} (${criterion.source})${value === null ? "" : `; worst: ${title}`}`;
}

function verdictTable(findings: readonly Finding[], subject: string, { width, colour }: Look): string[] {
  const columns: Column[] = [
    { heading: "verdict", width: 12, paint: verdictPaint(colour) },
    { heading: subject, width: 12 },
    { heading: "criterion (source), and whose value is the worst", width: width - 52 },
    { heading: "worst", width: 10, align: "right" },
    { heading: "met", width: 8, align: "right" },
  ];
  const rows = summariseVerdicts(findings).map((row) => [
    VERDICT_WORDS[row.verdict],
    row.subject,
    judged(row),
    valueText(row.governing),
    `${row.met} of ${row.count}`,
  ]);
  return table(columns, rows, "  ");
}

/**
 * Head of a study's text: title and version on one line where they fit, notice, the verdict, its table, an empty line.
 *
 * @param title   what the study asks, e.g. "Hooked stability"
 * @param subject heading of the column that says what a row is about
 */
export function headLines(
  title: string,
  subject: string,
  result: StudyFindings,
  meta: StudyTextMeta,
  look: Look,
): string[] {
  const { width, colour } = look;
  const word = VERDICT_WORDS[overallVerdict(result.findings)];
  const head = printable(`${title}: pair ${meta.pair}, ${result.variant}`);
  const version = `davit ${meta.davit}`;
  const gap = width - printedWidth(head) - printedWidth(version);
  return [
    ...(gap >= 2 ? [`${head}${" ".repeat(gap)}${version}`] : [...paragraph(head, width), version]),
    ...(meta.notice === undefined ? [] : paragraph(meta.notice, width)),
    "",
    verdictPaint(colour)(`VERDICT  ${word}`, word),
    ...verdictTable(result.findings, subject, look),
    "",
  ];
}

/** The criterion of a finding, and which way a signed value points. */
function criterionOrSign(finding: Finding): string {
  const words = [criterionText(finding), signOf(finding.id.split(".").at(-1)!, finding.value ?? 0)];
  return words.filter((word) => word !== "").join("; ");
}

function findingTable(findings: readonly Finding[], { width, colour }: Look): string[] {
  const columns: Column[] = [
    { heading: "finding", width: width - 54 },
    { heading: "value", width: 14, align: "right" },
    { heading: "criterion; sign", width: 18 },
    { heading: "verdict", width: 12, paint: verdictPaint(colour) },
  ];
  const rows = findings.map((finding) => [
    finding.id,
    valueText(finding),
    criterionOrSign(finding),
    VERDICT_WORDS[finding.verdict],
  ]);
  return table(columns, rows, "  ");
}

/** Notes, each once, with the findings that carry it. */
function noteLines(findings: readonly Finding[], width: number): string[] {
  const byNote = new Map<string, string[]>();
  for (const { id, note } of findings) if (note !== undefined) byNote.set(note, [...(byNote.get(note) ?? []), id]);
  return [...byNote].flatMap(([note, ids]) => {
    const others = ids.length > 1 ? ` (and ${ids.length - 1} more)` : "";
    return paragraph(`${ids[0]}${others}: ${note}`, width, "  - ", "    ");
  });
}

function limitLine(limit: Limit, width: number): string[] {
  const head = `${limit.status.toUpperCase()} ${limitRange(limit, PLAIN)} (${limit.quantity})`;
  const rest = [limit.title, limitMeaning(limit), limit.note ?? ""].filter((words) => words !== "").join("; ");
  return paragraph(`${head}: ${rest}`, width, "  - ", "    ");
}

/** Texts as a list, each wrapped behind its dash. */
export function bullets(texts: readonly string[], width: number): string[] {
  return texts.flatMap((text) => paragraph(text, width, "  - ", "    "));
}

/** A part with its heading and an empty line behind it; nothing when it has no lines. */
export function section(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : [title, ...lines, ""];
}

/** End of a study's text: findings, notes, limits, assumptions, what was not analysed, cautions. */
export function tailLines(result: StudyFindings, meta: StudyTextMeta, look: Look): string[] {
  const { width } = look;
  return [
    ...section("FINDINGS", findingTable(result.findings, look)),
    ...section("NOTES", noteLines(result.findings, width)),
    ...section(
      "LIMITS",
      result.limits.flatMap((limit) => limitLine(limit, width)),
    ),
    ...section("ASSUMED", bullets(result.assumptions, width)),
    ...section("NOT ANALYSED", bullets(result.notAnalysed, width)),
    ...section("CAUTIONS", bullets([...STANDARD_CAUTIONS, ...(meta.cautions ?? [])], width)),
    ...paragraph(CAUTION_LINE, width),
  ];
}
