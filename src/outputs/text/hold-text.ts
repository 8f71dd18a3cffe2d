/** Terminal text of the study `hold`: verdicts first, then modes, findings, limits, cautions. */
import type { Finding, Limit } from "../../studies/finding/types.ts";
import type { HoldPoint, HoldResult, Mode } from "../../studies/hold/types.ts";
import { CAUTION_LINE, STANDARD_CAUTIONS } from "../cautions/index.ts";
import { formatFixed, formatNumber, formatPair, formatQuantity } from "../numbers/index.ts";
import { limitMeaning, limitRange, overallVerdict, summariseVerdicts, type VerdictRow } from "../summary/index.ts";
import { type Column, paragraph, printable, printedWidth, table } from "./columns.ts";
import { bracketed, signOf } from "./signs.ts";
import { type TextOptions, VERDICT_WORDS, verdictPaint, widthOf } from "./words.ts";

export interface HoldTextMeta {
  /** Name of the pair. */
  readonly pair: string;
  /** Version of Davit. */
  readonly davit: string;
  /** The pair's own notice. */
  readonly notice?: string;
  /** The pair's own cautions, printed after the standing ones. */
  readonly cautions?: readonly string[];
}

const PLAIN = { minus: "-" } as const;

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

function verdictTable(result: HoldResult, width: number, colour: boolean): string[] {
  const columns: Column[] = [
    { heading: "verdict", width: 12, paint: verdictPaint(colour) },
    { heading: "plane", width: 12 },
    { heading: "criterion (source), and whose value is the worst", width: width - 52 },
    { heading: "worst", width: 10, align: "right" },
    { heading: "met", width: 8, align: "right" },
  ];
  const rows = summariseVerdicts(result.findings).map((row) => [
    VERDICT_WORDS[row.verdict],
    row.subject,
    judged(row),
    valueText(row.governing),
    `${row.met} of ${row.count}`,
  ]);
  return table(columns, rows, "  ");
}

/** Longer than this [s] a motion neither grows nor decays for any practical purpose. */
const FOREVER = 1e5;

function timeText(mode: Mode): string {
  if ((mode.timeToDouble_s ?? mode.timeToHalf_s ?? FOREVER) >= FOREVER) return "neutral";
  if (mode.timeToDouble_s !== null) return `x2 in ${formatNumber(mode.timeToDouble_s, PLAIN)} s`;
  return mode.timeToHalf_s === null ? "neutral" : `1/2 in ${formatNumber(mode.timeToHalf_s, PLAIN)} s`;
}

function modeTable(modes: readonly Mode[], width: number, colour: boolean): string[] {
  const columns: Column[] = [
    { heading: "plane", width: 12 },
    { heading: "mode, share", width: width - 66 },
    { heading: "class", width: 7 },
    { heading: "f, Hz", width: 6, align: "right" },
    { heading: "ζ", width: 7, align: "right" },
    { heading: "time", width: 15, align: "right" },
    { heading: "", width: 5, paint: verdictPaint(colour) },
  ];
  const rows = modes.map((mode) => [
    mode.plane,
    `${mode.name}, ${Math.round(100 * mode.share)} %`,
    mode.class === "structural" ? "struct." : "rigid",
    mode.imag_rad_s > 0 ? formatNumber(mode.frequency_Hz, PLAIN) : "real",
    mode.imag_rad_s > 0 ? formatFixed(mode.dampingRatio, 4, "-") : "",
    timeText(mode),
    mode.real_1_s > 0 ? "GROWS" : "",
  ]);
  return table(columns, rows, "  ");
}

function pointHead(point: HoldPoint): string {
  return [
    `${formatFixed(point.airspeed_m_s_EAS, 1)} m/s EAS (${formatFixed(point.airspeed_m_s_TAS, 1)} m/s TAS)`,
    `${formatFixed(point.altitude_m, 0, "-")} m`,
    `boom ${formatFixed(point.boomAngle_deg, 1, "-")}°`,
    `weight share ${formatFixed(100 * point.weightShare_1, 0, "-")} %`,
    `snubber ${formatQuantity(point.snubberRate_N_s_m, "N*s/m", PLAIN)}`,
    `boom bending ${formatQuantity(point.bendingStiffness_N_m, "N/m", PLAIN)}`,
    `accumulator ${formatQuantity(point.accumulatorStiffness_N_m, "N/m", PLAIN)}`,
  ].join(", ");
}

function trimText(point: HoldPoint): string {
  const { trim } = point;
  if (trim === null) return `no modes: ${point.outcome}`;
  const text = [
    `angle of attack ${formatFixed(trim.alpha_deg, 2, "-")}°`,
    `elevator ${formatFixed(trim.elevator_deg, 2, "-")}° ${bracketed("elevator", trim.elevator_deg)}`,
    `tow load ${formatQuantity(trim.towLoad_N, "N", PLAIN)} ${bracketed("tow-load", trim.towLoad_N)}`,
    `jack load ${formatQuantity(trim.jackLoad_N, "N", PLAIN)} ${bracketed("jack-load", trim.jackLoad_N)}`,
    `lift coefficient ${formatFixed(trim.liftCoefficient, 3, "-")}`,
  ].join(", ");
  return point.outcome === "trimmed" ? `trim: ${text}` : `${point.outcome}: ${text}`;
}

function pointText(point: HoldPoint, width: number, colour: boolean): string[] {
  return [
    ...paragraph(`${point.condition} × ${point.mass}: ${pointHead(point)}`, width, "  ", "    "),
    ...paragraph(trimText(point), width, "    "),
    ...(point.modes.length === 0 ? [] : ["", ...modeTable(point.modes, width, colour)]),
    "",
  ];
}

/** The criterion of a finding, and which way a signed value points. */
function criterionOrSign(finding: Finding): string {
  const words = [criterionText(finding), signOf(finding.id.split(".").at(-1)!, finding.value ?? 0)];
  return words.filter((word) => word !== "").join("; ");
}

function findingTable(findings: readonly Finding[], width: number, colour: boolean): string[] {
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

function section(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : [title, ...lines, ""];
}

/**
 * Text of one `HoldResult` for a terminal: at most 100 columns, understood without colour, a newline at the end.
 */
export function holdText(result: HoldResult, meta: HoldTextMeta, options: TextOptions = {}): string {
  const width = widthOf(options);
  const colour = options.colour === true;
  const word = VERDICT_WORDS[overallVerdict(result.findings)];
  const bullets = (texts: readonly string[]) => texts.flatMap((text) => paragraph(text, width, "  - ", "    "));
  const title = printable(`Hooked stability: pair ${meta.pair}, ${result.variant}`);
  const version = `davit ${meta.davit}`;
  const gap = width - printedWidth(title) - printedWidth(version);
  const lines = [
    ...(gap >= 2 ? [`${title}${" ".repeat(gap)}${version}`] : [...paragraph(title, width), version]),
    ...(meta.notice === undefined ? [] : paragraph(meta.notice, width)),
    "",
    verdictPaint(colour)(`VERDICT  ${word}`, word),
    ...verdictTable(result, width, colour),
    "",
    ...result.points.flatMap((point, i) => [...(i === 0 ? ["MODES"] : []), ...pointText(point, width, colour)]),
    ...section("FINDINGS", findingTable(result.findings, width, colour)),
    ...section("NOTES", noteLines(result.findings, width)),
    ...section(
      "LIMITS",
      result.limits.flatMap((limit) => limitLine(limit, width)),
    ),
    ...section("ASSUMED", bullets(result.assumptions)),
    ...section("NOT ANALYSED", bullets(result.notAnalysed)),
    ...section("CAUTIONS", bullets([...STANDARD_CAUTIONS, ...(meta.cautions ?? [])])),
    ...paragraph(CAUTION_LINE, width),
  ];
  return `${lines.join("\n")}\n`;
}
