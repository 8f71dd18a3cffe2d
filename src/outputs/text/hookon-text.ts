/** Terminal text of the study `hookon`: verdicts first, then shares, window, map, misses, quantities, breakaway. */
import type { CaptureMap, HookonCase, HookonResult } from "../../studies/hookon/types.ts";
import { caseWords } from "../names/index.ts";
import { formatFixed, formatNumber, formatQuantity } from "../numbers/index.ts";
import { type Column, paragraph, table } from "./columns.ts";
import { hookonClaimsText } from "./hookon-claims-text.ts";
import { bullets, headLines, type Look, PLAIN, type StudyTextMeta, section, tailLines } from "./study-text.ts";
import { type TextOptions, widthOf } from "./words.ts";

/** Columns from which both intervals are printed. */
const WIDE = 96;

const right = (heading: string, width: number): Column => ({ heading, width, align: "right" });
const percent = (share: number): string => `${formatFixed(100 * share, 1)} %`;
const speed = (value: number | null): string => (value === null ? "none" : `${formatFixed(value, 2)} m/s`);

function shareTable({ cases, confidence_1, attemptsFor_1 }: HookonResult, { width }: Look): string[] {
  const wide = width >= WIDE;
  const columns: Column[] = [
    { heading: "case", width: width - (wide ? 73 : 53) },
    right("σ m/s", 6),
    right("success", 9),
    right("exact interval", 18),
    ...(wide ? [right("Wilson", 18)] : []),
    right("tries", 10),
  ];
  const rows = cases.map((each) => [
    caseWords(each),
    formatFixed(each.sigma_m_s, 1),
    percent(each.success.share_1),
    `${percent(each.success.exact_1.lower)} to ${percent(each.success.exact_1.upper)}`,
    ...(wide ? [`${percent(each.success.score_1.lower)} to ${percent(each.success.score_1.upper)}`] : []),
    `${each.attempts.byShare ?? "-"} (${each.attempts.byBound ?? "-"})`,
  ]);
  const others = cases.map((each) => `${caseWords(each)}: ${otherOutcomes(each)}`);
  const count = cases[0]?.samples ?? 0;
  const said = [
    `success: locked and stable; ${percent(confidence_1)} intervals, ${count} ${count === 1 ? "approach" : "approaches"} a case`,
    `tries: approaches for one success with ${percent(attemptsFor_1)}, by the share and (by the lower bound)`,
    ...others,
  ];
  return [...table(columns, rows, "  "), ...bullets(said, width)];
}

function otherOutcomes({ outcomes }: HookonCase): string {
  const rest = outcomes.filter(({ outcome, count }) => outcome !== "locked, stable" && count > 0);
  return rest.length === 0
    ? "nothing else"
    : rest.map(({ outcome, share_1 }) => `${outcome} ${percent(share_1)}`).join(", ");
}

function windowLines({ window, criteria }: HookonResult, { width }: Look): string[] {
  const { closedForm, simulated, agreement_1, planned_m_s } = window;
  const agreed = (value: number | null): string =>
    value === null ? "-" : `${formatFixed(100 * value, 1, PLAIN.minus)} %`;
  return bullets(
    [
      `closed form ${speed(closedForm.lower_m_s)} to ${speed(closedForm.upper_m_s)}: ${closedForm.upperBecause}`,
      `simulated ${speed(simulated.lower_m_s)} to ${speed(simulated.upper_m_s)}: ${simulated.upperBecause}`,
      `closed form over simulation, less 1: lower end ${agreed(agreement_1.lower)}, upper end ${agreed(agreement_1.upper)}`,
      `planned closure ${speed(planned_m_s)}; practice at most ${speed(criteria.closure_m_s)}`,
    ],
    width,
  );
}

const LETTERS: Readonly<Record<string, string>> = { "locked, stable": "#", overloaded: "X", bounced: "o", missed: "." };

function mapLines(map: CaptureMap, width: number): string[] {
  const row = (i: number): string => {
    const cells = map.outcome[i]!.map((outcome) => LETTERS[outcome] ?? outcome[0]!.toUpperCase()).join(" ");
    return `    ${formatFixed(map.closure_m_s[i]!, 2).padStart(5)} m/s  ${cells}`;
  };
  const rows = map.closure_m_s.map((_, i) => row(map.closure_m_s.length - 1 - i));
  const reach =
    map.captureRadius_m === null ? "nothing latches" : `latches out to ${formatQuantity(map.captureRadius_m, "m")}`;
  const to = formatFixed(1000 * map.offset_m.at(-1)!, 0);
  return [
    ...paragraph(
      `path at ${formatFixed(map.angle_deg, 1)}° to the axis: ${reach}; offset 0 to ${to} mm across`,
      width,
      "  ",
    ),
    ...rows,
  ];
}

function missLines({ cases }: HookonResult, { width }: Look): string[] {
  const columns: Column[] = [
    { heading: "case", width: width - 64 },
    right("mean right, down mm", 20),
    right("σ right, down mm", 16),
    right("r 95 % mm", 9),
    right("in circle", 9),
  ];
  const rows = cases.map((each) => {
    const { miss } = each;
    if (miss === null) return [caseWords(each), "-", "-", "-", "-"];
    const mm = (value: number): string => formatFixed(1000 * value, 0, PLAIN.minus);
    return [
      caseWords(each),
      `${mm(miss.meanRight_m)}, ${mm(miss.meanDown_m)}`,
      `${mm(miss.sigmaRight_m)}, ${mm(miss.sigmaDown_m)}`,
      mm(miss.radius_m.p95),
      percent(miss.inside_1),
    ];
  });
  const said = cases.flatMap(({ miss, ...each }) =>
    miss === null
      ? []
      : [
          `${caseWords(each)}: circle of ${formatFixed(1000 * miss.captureRadius_m, 0)} mm holds ${percent(miss.inside_1)}, normal scatter ${percent(miss.normal_1)}, equal scatter without offset ${percent(miss.rayleigh_1)}`,
        ],
  );
  return [...table(columns, rows, "  "), ...bullets(said.slice(0, 3), width)];
}

function quantityLines(result: HookonResult, { width }: Look): string[] {
  const design = result.cases.find(
    ({ sigma, light, bothAtOnce }) => sigma === result.design && light === null && !bothAtOnce,
  );
  if (design === undefined || design.quantities.length === 0) return [];
  const columns: Column[] = [
    { heading: "quantity", width: width - 62 },
    ...["median", "95 %", "99 %", "largest", "mean+3σ"].map((name) => right(name, 10)),
  ];
  const rows = design.quantities.map(({ title, unit, p50, p95, p99, largest, mean3Sigma }) => [
    title,
    ...[p50, p95, p99, largest, mean3Sigma].map((value) => formatQuantity(value, unit, PLAIN)),
  ]);
  return [...paragraph(`${caseWords(design)}:`, width, "  "), ...table(columns, rows, "  ")];
}

function breakawayLines({ breakaway }: HookonResult, { width }: Look): string[] {
  if (breakaway === null) return [];
  const metres = (value: number | null): string => (value === null ? "-" : formatNumber(value, PLAIN));
  const points = breakaway.points.map(
    ({ reaction_s, alone_m, both_m }) => `${formatFixed(reaction_s, 1)} s ${metres(alone_m)} m (${metres(both_m)} m)`,
  );
  const longest = breakaway.longestReaction_s === null ? "none" : `${formatFixed(breakaway.longestReaction_s, 2)} s`;
  return bullets(
    [
      `called at a vertical distance of ${formatFixed(breakaway.gap_m, 1)} m that shrinks with ${speed(breakaway.closing_m_s)}; least distance by time of reaction, in brackets with the carrier climbing: ${points.join(", ")}`,
      `longest reaction that leaves the required distance: ${longest}`,
    ],
    width,
  );
}

/** Text of one `HookonResult` for a terminal: at most 100 columns, understood without colour, a newline at the end. */
export function hookonText(result: HookonResult, meta: StudyTextMeta, options: TextOptions = {}): string {
  const look = { width: widthOf(options), colour: options.colour === true };
  const lines = [
    ...headLines("Hook-on", "subject", result, meta, look),
    ...section("APPROACHES", shareTable(result, look)),
    ...section("CLOSURE WINDOW", windowLines(result, look)),
    ...section("CAPTURE MAP", [
      ...result.maps.flatMap((map) => mapLines(map, look.width)),
      ...(result.maps.length === 0
        ? []
        : ["  # latches  X overloaded  o bounces  . misses; others by their first letter"]),
    ]),
    ...section("MISSES", missLines(result, look)),
    ...section("CONTACT", quantityLines(result, look)),
    ...section("BREAKAWAY", breakawayLines(result, look)),
    ...(result.claims === null ? [] : hookonClaimsText(result.claims, look)),
    ...tailLines(result, meta, look),
  ];
  return `${lines.join("\n")}\n`;
}
