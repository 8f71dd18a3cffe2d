/** Terminal text of a comparison of two results. */
import type { Finding, Limit } from "../../studies/finding/types.ts";
import { CAUTION_LINE } from "../cautions/index.ts";
import { formatNumber, formatQuantity, scaleUnit } from "../numbers/index.ts";
import type {
  FileChange,
  FindingChange,
  InputChange,
  LimitChange,
  ResultComparison,
  ResultSide,
} from "../result/index.ts";
import { limitRange } from "../summary/index.ts";
import { paragraph } from "./columns.ts";
import { type TextOptions, VERDICT_WORDS, verdictPaint, widthOf } from "./words.ts";

const PLAIN = { minus: "-" } as const;
/** Ids printed of a long list; the count says how many more there are. */
const MOST = 6;
/** A value that changes by more than ten times itself started near zero; its relative change says nothing. */
const MOST_RELATIVE = 10;

function some(ids: readonly string[]): string {
  return ids.length <= MOST ? ids.join(", ") : `${ids.slice(0, MOST).join(", ")} and ${ids.length - MOST} more`;
}

function sideText(side: ResultSide): string {
  const overrides = side.overrides.length === 0 ? "" : `, set ${side.overrides.join(" ")}`;
  return `pair ${side.pair}, ${side.variant}${overrides} (davit ${side.davit}${side.seed === null ? "" : `, seed ${side.seed}`})`;
}

function quantity(finding: Finding): string {
  return finding.value === null ? "no value" : formatQuantity(finding.value, finding.unit, { ...PLAIN, digits: 4 });
}

function difference(change: FindingChange): string {
  if (change.absolute === null) return "";
  const scale = scaleUnit(change.unit, change.absolute);
  const sign = change.absolute > 0 ? "+" : "";
  const telling = change.relative !== null && Math.abs(change.relative) <= MOST_RELATIVE;
  const relative =
    !telling || change.relative === null ? "" : `, ${sign}${formatNumber(100 * change.relative, PLAIN)} %`;
  return ` (${sign}${formatNumber(change.absolute * scale.factor, PLAIN)}${scale.unit === "" ? "" : ` ${scale.unit}`}${relative})`;
}

function criterionMove(change: FindingChange): string {
  const was = change.old.criterion?.limit;
  const is = change.new.criterion?.limit;
  if (was === is) return "";
  const text = (limit: number | undefined) =>
    limit === undefined ? "none" : formatQuantity(limit, change.unit, PLAIN);
  return `; criterion ${text(was)} -> ${text(is)}`;
}

function changeLines(change: FindingChange, width: number, paint: (text: string, word: string) => string): string[] {
  const was = VERDICT_WORDS[change.old.verdict];
  const is = VERDICT_WORDS[change.new.verdict];
  const verdict = change.verdictFlipped ? `${was} -> ${is}` : is;
  const none = "none of the inputs it rests on changed (version, seed or method did)";
  const because = change.because.length === 0 ? none : `because of ${some(change.because)}`;
  return [
    paint(`  ${verdict}`, change.verdictFlipped ? is : ""),
    ...paragraph(`${change.id}: ${change.title}`, width, "    "),
    ...paragraph(
      `${quantity(change.old)} -> ${quantity(change.new)}${difference(change)}${criterionMove(change)}`,
      width,
      "      ",
    ),
    ...paragraph(because, width, "      "),
  ];
}

function count(n: number, one: string, many: string): string {
  return `${n} ${n === 1 ? one : many}`;
}

function restText(n: number): string {
  return n === 1 ? "1 finding rests on it" : `${n} findings rest on it`;
}

function inputLines(change: InputChange, width: number): string[] {
  const text = `${change.path}: ${change.oldText ?? "(absent)"} -> ${change.newText ?? "(absent)"}`;
  const rest = change.because.length === 0 ? "no finding rests on it" : restText(change.because.length);
  return [...paragraph(text, width, "  "), ...paragraph(rest, width, "      ")];
}

function fileLines(change: FileChange, values: number, width: number): string[] {
  const short = (sha: string | null) => (sha === null ? "(absent)" : sha.slice(0, 12));
  const text = `file ${change.path}: ${short(change.oldSha256)} -> ${short(change.newSha256)}`;
  return [...paragraph(text, width, "  "), ...paragraph(fileRest(change, values), width, "      ")];
}

/** What rests on a file; `values` is the count of values of the pair that changed. */
function fileRest({ holds, because }: FileChange, values: number): string {
  if (holds === "table") return because.length === 0 ? "no finding rests on this table" : restText(because.length);
  if (values === 0) return "holds values of the pair; none of them changed";
  const rest =
    because.length === 0
      ? "no finding rests"
      : because.length === 1
        ? "1 finding rests"
        : `${because.length} findings rest`;
  return `holds values of the pair; ${rest} on those that changed`;
}

function limitText(limit: Limit | null): string {
  return limit === null ? "(no such range)" : `${limit.status} ${limitRange(limit, { minus: "-", digits: 6 })}`;
}

function limitLines(change: LimitChange, width: number): string[] {
  const title = (change.new ?? change.old)?.title ?? change.id;
  return [
    ...paragraph(`${change.id}: ${title}`, width, "  "),
    ...paragraph(`${limitText(change.old)} -> ${limitText(change.new)}`, width, "      "),
  ];
}

function section(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : [title, ...lines, ""];
}

function headline(c: ResultComparison): string {
  const flips = c.moved.filter((change) => change.verdictFlipped).length;
  const parts = [
    `${count(c.inputs.length, "input", "inputs")} and ${count(c.files.length, "file", "files")} changed`,
    `${count(c.moved.length, "finding", "findings")} moved`,
    `${count(flips, "verdict", "verdicts")} flipped`,
    `${count(c.limits.length, "limit", "limits")} changed`,
  ];
  if (c.appeared.length > 0) parts.push(count(c.appeared.length, "finding is new", "findings are new"));
  if (c.disappeared.length > 0) parts.push(count(c.disappeared.length, "finding is gone", "findings are gone"));
  return `${parts.join("; ")}.`;
}

/** The warning that two different pairs are compared, as one line; nothing when they have one name. */
export function otherPair({ old, new: now }: ResultComparison): string[] {
  if (old.pair === now.pair) return [];
  return [
    `WARNING: these are two different pairs: the earlier result is of “${old.pair}”, this one of “${now.pair}”. What follows is no change of one pair.`,
  ];
}

/** Text of a comparison for a terminal: flipped verdicts first, then moved values, then the inputs that did it. */
export function changedText(comparison: ResultComparison, options: TextOptions = {}): string {
  const width = widthOf(options);
  const paint = verdictPaint(options.colour === true);
  const flipped = comparison.moved.filter((change) => change.verdictFlipped);
  const moved = comparison.moved.filter((change) => !change.verdictFlipped);
  const ids = (findings: readonly Finding[]) =>
    findings.flatMap((one) =>
      paragraph(`${one.id}: ${quantity(one)}, ${VERDICT_WORDS[one.verdict]}`, width, "  ", "      "),
    );
  const lines = [
    ...paragraph(`old: ${sideText(comparison.old)}`, width, "", "     "),
    ...paragraph(`new: ${sideText(comparison.new)}`, width, "", "     "),
    ...otherPair(comparison).flatMap((words) => paragraph(words, width)),
    ...paragraph(headline(comparison), width),
    "",
    ...section(
      "VERDICTS THAT FLIPPED",
      flipped.flatMap((change) => changeLines(change, width, paint)),
    ),
    ...section(
      "VALUES THAT MOVED",
      moved.flatMap((change) => changeLines(change, width, paint)),
    ),
    ...section("NEW FINDINGS", ids(comparison.appeared)),
    ...section("FINDINGS THAT ARE GONE", ids(comparison.disappeared)),
    ...section(
      "LIMITS THAT CHANGED",
      comparison.limits.flatMap((change) => limitLines(change, width)),
    ),
    ...section("INPUTS THAT CHANGED", [
      ...comparison.inputs.flatMap((change) => inputLines(change, width)),
      ...comparison.files.flatMap((change) => fileLines(change, comparison.inputs.length, width)),
    ]),
    ...(comparison.unmoved.length === 0
      ? []
      : [
          ...paragraph(`Rest on something that changed and came out the same: ${some(comparison.unmoved)}.`, width),
          "",
        ]),
    ...paragraph(CAUTION_LINE, width),
  ];
  return `${lines.join("\n")}\n`;
}
