/** Terminal text of the airloads from tables of `hold`. */
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { formatFixed, formatNumber } from "../numbers/index.ts";
import { type Column, table } from "./columns.ts";
import { type Look, PLAIN } from "./study-text.ts";

/** Coefficients and derivatives at each trim, a column a point. */
export function holdAirloadsText(result: HoldDepthResult, { width }: Look): string[] {
  const points = result.parts?.airloads?.points ?? [];
  if (points.length === 0) return [];
  const room = Math.max(12, Math.floor((width - 24) / points.length) - 2);
  const columns: Column[] = [
    { heading: "at trim", width: 20 },
    ...points.map(({ condition, mass }) => ({
      heading: `${condition}, ${mass}`,
      width: room,
      align: "right" as const,
    })),
  ];
  const rows = [
    ["angle of attack, deg", ...points.map((point) => formatFixed(point.alpha_deg, 3, "-"))],
    ["Mach number", ...points.map((point) => formatFixed(point.mach_1, 4, "-"))],
    ["within the tables", ...points.map((point) => (point.inside ? "yes" : "NO"))],
    ...Object.keys(points[0].values).map((key) => [
      key,
      ...points.map(({ values }) => formatNumber(values[key], PLAIN)),
    ]),
  ];
  return ["AIRLOADS FROM TABLES, slopes per radian", ...table(columns, rows, "  "), ""];
}
