/** Terminal text of what trials of hook-on may claim. */
import type { ClaimClass, ClaimsResult } from "../../studies/hookon-claims/types.ts";
import { formatFixed, formatNumber } from "../numbers/index.ts";
import { type Column, paragraph, table } from "./columns.ts";
import { type Look, PLAIN } from "./study-text.ts";

const percent = (share: number): string => `${formatFixed(100 * share, 1, "-")} %`;
const whole = (n: number | null): string => (n === null ? "none is enough" : String(n));

const COLUMNS: readonly Column[] = [
  { heading: "turbulence", width: 14 },
  { heading: "locked", width: 9, align: "right" },
  { heading: "at least", width: 8, align: "right" },
  { heading: "target", width: 8, align: "right" },
  { heading: "further", width: 8, align: "right" },
  { heading: "fuel for", width: 8, align: "right" },
  { heading: "verdict", width: 19 },
];

function row({ name, estimate, target_1, further, attempts, verdict }: ClaimClass): string[] {
  return [
    name,
    `${estimate.hits}/${estimate.of}`,
    estimate.of === 0 ? "-" : percent(estimate.lower_1),
    percent(target_1),
    further === null ? "-" : String(further),
    estimate.of === 0 || attempts.atLower === null ? "-" : String(attempts.atLower),
    verdict,
  ];
}

function planLines({ sequential }: ClaimsResult, width: number): string[] {
  if (sequential === null) return [];
  const { acceptable_1, unacceptable_1, most, expectedAtAcceptable: good, expectedAtUnacceptable: bad } = sequential;
  const head =
    `plan that may end early, at most ${most} attempts: ${percent(acceptable_1)} refused with ${percent(sequential.refusingGood_1)}, ` +
    `${percent(unacceptable_1)} accepted with ${percent(sequential.acceptingBad_1)} (exact); expected attempts ${formatFixed(good, 1, "-")} and ${formatFixed(bad, 1, "-")}`;
  const states = sequential.classes.map(
    ({ name, outcome, attempts, failures }) => `${name}: ${outcome} after ${attempts} attempts, ${failures} failures`,
  );
  return [head, ...states].flatMap((line, i) => paragraph(line, width, i === 0 ? "  " : "    ", "      "));
}

function checkLines(result: ClaimsResult, width: number): string[] {
  const lines: string[] = [];
  for (const { name, prediction: p, estimate } of result.classes) {
    if (p === null) continue;
    const what = p.differs
      ? "the log contradicts the simulation"
      : "no difference shown, which is no proof of agreement";
    lines.push(
      `${name}: ${estimate.hits}/${estimate.of} in the log, ${percent(p.share_1)} in ${p.title}: ${what} (p ${formatNumber(p.p_1, PLAIN)})`,
    );
  }
  const { learning } = result;
  if (learning !== null) {
    const { first, second, p_1 } = learning;
    lines.push(
      `first half ${first.hits}/${first.of}, second half ${second.hits}/${second.of} (p ${formatNumber(p_1, PLAIN)}): learning and circumstances cannot be told apart`,
    );
  }
  for (const { by, groups, least_1 } of result.groupings) {
    const counts = groups.map(({ name, hits, of }) => `${name} ${hits}/${of}`).join(", ");
    lines.push(`by ${by}: ${counts} (least p, corrected, ${formatNumber(least_1, PLAIN)})`);
  }
  return lines.flatMap((line) => paragraph(line, width, "  ", "    "));
}

/** Lines of the claims; `result` as `runClaims` gives it. */
export function hookonClaimsText(result: ClaimsResult, { width }: Look): string[] {
  const { log, confidence_1, recovery_1, attemptsCarried, demonstrations } = result;
  const from = log === null ? "no log of attempts" : `${log.rows} attempts of ${log.file}, ${log.from} to ${log.to}`;
  const carried = attemptsCarried === null ? "" : `; carried for ${whole(attemptsCarried)}`;
  const head =
    `${from}. At least: exact lower bound with ${percent(confidence_1)}. Further: captures without a failure until the target is demonstrated. ` +
    `Fuel for: attempts for one capture with ${percent(recovery_1)} at the lower bound${carried}.`;
  const needs = demonstrations
    .map(
      ({ share_1, confidence_1: sure, trials }) =>
        `${formatFixed(100 * share_1, 0)}/${formatFixed(100 * sure, 0)}: ${trials.map((n) => n ?? "-").join(", ")}`,
    )
    .join("; ");
  return [
    "CLAIMS FROM ATTEMPTS",
    ...paragraph(head, width, "  "),
    "",
    ...table(COLUMNS, result.classes.map(row), "  "),
    "",
    ...planLines(result, width),
    ...checkLines(result, width),
    ...paragraph(`attempts that demonstrate share/confidence with 0, 1, 2 failures: ${needs}`, width, "  ", "    "),
    "",
  ];
}
