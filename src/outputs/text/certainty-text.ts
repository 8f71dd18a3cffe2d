/** Terminal text of the part `certainty` of `hold`. */
import type {
  CertaintyResult,
  ConditionCertainty,
  Driver,
  PlaneCertainty,
} from "../../studies/hold-certainty/types.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { shortPath } from "../names/index.ts";
import { formatFixed } from "../numbers/index.ts";
import { type Column, paragraph, table } from "./columns.ts";
import type { Look } from "./study-text.ts";

/** Rows of a table; the rest is in the result file. */
const MOST = 6;
/** A driver or test below this share is not printed. */
const LEAST = 0.005;

const zeta = (value: number): string => formatFixed(value, 4, "-");
const percent = (share: number, digits = 0): string => `${formatFixed(100 * share, digits, "-")} %`;

function summary(plane: PlaneCertainty, condition: ConditionCertainty): string {
  const { failing, distance, worstCase } = plane;
  const confidence = percent(condition.confidence_1);
  const parts = [
    `worst ζ ${zeta(plane.mean_1)} ± ${zeta(plane.standardDeviation_1)} (1σ), nominal ${plane.nominal_1 === null ? "none" : zeta(plane.nominal_1)}, criterion ${plane.criterion_1}`,
    `criterion missed in ${percent(failing.probability_1, 1)} (${confidence} interval ${percent(failing.lower_1, 1)} to ${percent(failing.upper_1, 1)}, ${failing.count} of ${failing.of} samples)`,
    `95 % of all pairs exceed ${zeta(plane.lowerBound_1)}`,
    ...(worstCase === null ? [] : [`worst within ± ${condition.bound_1} σ ${zeta(worstCase.dampingRatio_1)}`]),
    distanceText(distance),
  ];
  return `${condition.condition}, ${plane.plane}: ${parts.join("; ")}`;
}

function distanceText({ outcome, sigma_1 }: PlaneCertainty["distance"]): string {
  if (outcome === "flat") return "no uncertain value changes this motion";
  if (outcome === "no value") return "no modes at the nominal values";
  const far = `${formatFixed(Math.abs(sigma_1), 2)} σ`;
  if (outcome === "not reached") return `limit farther than ${far}`;
  return sigma_1 < 0 ? `nominal values ${far} beyond the limit` : `limit ${far} from the nominal values`;
}

/** Names of a group of values; many of them as a count. */
export function driverName(driver: Driver): string {
  return driver.paths.length > 3
    ? `${driver.paths.slice(0, 2).map(shortPath).join(", ")} and ${driver.paths.length - 2} more`
    : driver.paths.map(shortPath).join(", ");
}

function driverTable({ drivers }: PlaneCertainty, width: number): string[] {
  const columns: Column[] = [
    { heading: "what makes it uncertain", width: width - 54 },
    { heading: "alone", width: 12, align: "right" },
    { heading: "in all", width: 12, align: "right" },
    { heading: "linear", width: 6, align: "right" },
    { heading: "dζ/σ", width: 8, align: "right" },
  ];
  const rows = drivers
    .filter(({ total_1 }) => total_1 >= LEAST)
    .slice(0, MOST)
    .map((driver) => [
      driverName(driver),
      `${percent(driver.firstOrder_1)} ± ${percent(driver.firstOrderError_1)}`,
      `${percent(driver.total_1)} ± ${percent(driver.totalError_1)}`,
      percent(driver.linear_1),
      driver.slopes_1.length === 1 ? zeta(driver.slopes_1[0]!) : "group",
    ]);
  return rows.length === 0 ? [] : [...table(columns, rows, "    "), ""];
}

function testTable({ tests }: PlaneCertainty, width: number): string[] {
  const columns: Column[] = [
    { heading: "ground test that would buy certainty", width: width - 54 },
    { heading: "variance", width: 8, align: "right" },
    { heading: "1σ after", width: 8, align: "right" },
    { heading: "missed if confirmed", width: 12, align: "right" },
    { heading: "decides", width: 8, align: "right" },
  ];
  const rows = tests
    .filter(({ varianceBought_1 }) => varianceBought_1 >= LEAST)
    .slice(0, MOST)
    .map((test) => [
      test.test,
      percent(test.varianceBought_1),
      zeta(test.standardDeviation_1),
      percent(test.failing_1, 1),
      percent(test.decides_1),
    ]);
  return rows.length === 0 ? [] : [...table(columns, rows, "    "), ""];
}

export function certaintyText({ conditions }: CertaintyResult, { width }: Look): string[] {
  return conditions.flatMap((condition, i) => [
    ...(i === 0 ? ["CERTAINTY"] : []),
    ...paragraph(
      `${condition.values.length} uncertain values, ${condition.samples} samples (${condition.method}, seed ${condition.seed}), masses ${condition.masses.join(", ")}`,
      width,
      "  ",
    ),
    ...condition.planes.flatMap((plane) => [
      ...paragraph(summary(plane, condition), width, "  ", "    "),
      "",
      ...driverTable(plane, width),
      ...testTable(plane, width),
    ]),
  ]);
}

/** Text of the part of one result; nothing when it did not run. */
export function holdCertaintyText({ parts }: HoldDepthResult, look: Look): string[] {
  return parts?.certainty === undefined ? [] : certaintyText(parts.certainty, look);
}
