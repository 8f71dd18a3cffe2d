/** Report section of the airloads from tables of `hold`. */
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { formatFixed, formatNumber } from "../numbers/index.ts";
import { html } from "./html.ts";
import type { PartPages } from "./part-section.ts";
import { dataTable } from "./tables.ts";

function pointsTable(result: HoldDepthResult) {
  const points = result.parts?.airloads?.points ?? [];
  if (points.length === 0) return [];
  const heads = [
    { text: "At trim" },
    ...points.map(({ condition, mass }) => ({ text: `${condition}, ${mass}`, numeric: true })),
  ];
  const rows = [
    ["Angle of attack (°)", ...points.map((point) => formatFixed(point.alpha_deg, 3))],
    ["Mach number (–)", ...points.map((point) => formatFixed(point.mach_1, 4))],
    ["c.g. aft of the hinge (m)", ...points.map((point) => formatFixed(point.aft_m, 3))],
    ["c.g. below the hinge (m)", ...points.map((point) => formatFixed(point.below_m, 3))],
    ["Within the tables", ...points.map((point) => (point.inside ? "yes" : "no"))],
    ...Object.keys(points[0].values).map((key) => [key, ...points.map(({ values }) => formatNumber(values[key]))]),
  ];
  return [dataTable(`Coefficients and derivatives at trim, ${result.variant}; slopes per radian`, heads, [{ rows }])];
}

/** Derivatives at trim of every variant that gives tables. */
export const airloadsPages: PartPages = (results, title) => {
  const tables = results.flatMap(pointsTable);
  if (tables.length === 0) return null;
  const name = title("Airloads from tables");
  return {
    id: "airloads-from-tables",
    title: name,
    markup: html`<section id="airloads-from-tables"><h2>${name}</h2>
${tables}</section>
`,
  };
};
