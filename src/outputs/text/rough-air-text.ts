/** Terminal text of rough air: what the largest σ is, and the spread of every quantity. */
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import type { RoughAirPoint, RoughAirResult } from "../../studies/hold-rough/types.ts";
import { formatNumber, formatQuantity } from "../numbers/index.ts";
import { type Column, paragraph, table } from "./columns.ts";
import { type Look, PLAIN } from "./study-text.ts";

const COLUMNS: readonly Column[] = [
  { heading: "quantity", width: 30 },
  { heading: "mean", width: 9, align: "right" },
  { heading: "per m/s", width: 9, align: "right" },
  { heading: "N0, Hz", width: 7, align: "right" },
  { heading: "holds to σ", width: 11, align: "right" },
];

function rowsOf(point: RoughAirPoint): string[][] {
  return point.quantities.map(
    ({ title, unit, mean, deviationPerSigma, crossings_1_s, largestSigma_m_s: sigma, limit }) => [
      title,
      formatQuantity(mean, unit, PLAIN),
      formatQuantity(deviationPerSigma, unit, PLAIN),
      formatNumber(crossings_1_s, PLAIN),
      limit === null || sigma === null ? "no limit" : `${formatNumber(sigma, PLAIN)} m/s`,
    ],
  );
}

/** What a mass that does not settle says instead of numbers. */
export function unsettledText({ outcome, timeToDouble_s }: RoughAirPoint): string {
  if (outcome === "no trim") return "does not trim";
  const time = timeToDouble_s === null ? "neutral" : `doubles in ${formatNumber(timeToDouble_s, PLAIN)} s`;
  return `grows without rough air (${time}): no stationary response, no σ`;
}

function answerText(result: RoughAirResult, point: RoughAirPoint): string {
  const { answer, quantities, id } = point;
  if (answer === null) return `${id}: ${unsettledText(point)}`;
  const limiting = quantities.find(({ key }) => key === answer.limiting)!.title.toLowerCase();
  const name = answer.severity === null ? "" : `, severity ${answer.severity}`;
  return `${id}: every limit holds up to σ ${formatNumber(answer.sigma_m_s, PLAIN)} m/s${name}; ${limiting} gives way first; asked for ${result.design.name}, ${formatNumber(result.design.sigma_m_s, PLAIN)} m/s`;
}

function checkText({ check }: RoughAirPoint): string[] {
  if (check === null) return [];
  if (check.outcome !== "completed") return [`simulation: ${check.outcome}`];
  const worst = Math.max(
    ...check.rows.map(({ simulated, computed }) => (computed > 0 ? Math.abs(simulated / computed - 1) : 0)),
  );
  return [
    `simulation, ${check.seeds} histories, ${formatNumber(check.time_s, PLAIN)} s together: spread within ${formatNumber(100 * worst, PLAIN)} % of the computed`,
  ];
}

function gustText({ gusts, quantities }: RoughAirPoint): string[] {
  const shares = (gusts?.rows ?? []).filter(({ share_1 }) => share_1 !== null);
  if (gusts === null || shares.length === 0) return [];
  const worst = shares.reduce((a, b) => (b.share_1! > a.share_1! ? b : a));
  const title = quantities.find(({ key }) => key === worst.key)!.title.toLowerCase();
  return [
    `worst 1-cosine gust: ${title} takes ${formatNumber(100 * worst.share_1!, PLAIN)} % of its room, ${worst.direction}, gradient ${formatNumber(worst.gradient_m, PLAIN)} m`,
  ];
}

/** Lines of rough air. */
export function roughAirText({ parts }: HoldDepthResult, { width }: Look): string[] {
  const result = parts?.roughAir;
  if (result === undefined) return [];
  const head = `${result.spectrum} turbulence of ${result.document}; limits with ${formatNumber(100 * result.probability_1, PLAIN)} % in ${formatNumber(result.timeHooked_s / 60, PLAIN)} min hooked; limit load, not ultimate`;
  const lines = result.points.flatMap((point) => [
    ...paragraph(answerText(result, point), width, "  ", "    "),
    ...[...gustText(point), ...checkText(point)].flatMap((line) => paragraph(line, width, "    ")),
    ...(point.quantities.length === 0 ? [] : ["", ...table(COLUMNS, rowsOf(point), "    "), ""]),
  ]);
  return ["ROUGH AIR", ...paragraph(head, width, "  "), ...lines, ...(lines.at(-1) === "" ? [] : [""])];
}
