/** Terminal text of balances, static divergence and hook loads of `hold`. */
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import type { BranchFamily, LoadCurve } from "../../studies/hold-equilibrium/types.ts";
import { formatFixed, formatQuantity } from "../numbers/index.ts";
import { type Column, paragraph, table } from "./columns.ts";
import { type Look, PLAIN } from "./study-text.ts";

/** How many rows of a load curve are printed. */
const ROWS = 8;

function familyText({
  condition,
  mass,
  elevator,
  atCondition,
  counts,
  folds_m_s_EAS: folds,
  branches,
}: BranchFamily): string {
  const held = elevator === "fixed" ? "elevator as at trim" : "elevator holding the weight share";
  const numbers = counts.map(({ balances }) => balances);
  const [least, most] = [Math.min(...numbers), Math.max(...numbers)];
  const range = `${formatFixed(counts[0]!.airspeed_m_s_EAS, 0)} to ${formatFixed(counts.at(-1)!.airspeed_m_s_EAS, 0)} m/s EAS`;
  const meet =
    folds.length === 0 ? "" : `; two meet at ${folds.map((speed) => formatFixed(speed, 2)).join(", ")} m/s EAS`;
  const points = branches.flatMap((branch) => branch.points);
  const diverging = points.some((point) => point.diverging === true) ? "; some diverge" : "";
  return `${condition} × ${mass}, ${held}: ${atCondition} at the condition, ${least === most ? least : `${least} to ${most}`} from ${range}${meet}${diverging}`;
}

function loadTable(curve: LoadCurve, width: number): string[] {
  const columns: Column[] = [
    { heading: `${curve.axis.label} (${curve.axis.unit})`, width: width - 76 },
    ...["tow", "up", "resultant", "along boom", "jack"].map(
      (heading): Column => ({ heading, width: 12, align: "right" }),
    ),
  ];
  const force = (value: number | null | undefined): string =>
    value === null || value === undefined ? "no trim" : formatQuantity(value, "N", PLAIN);
  const rows = Array.from({ length: ROWS }, (_, k) => {
    const i = Math.round((k * (curve.values.length - 1)) / (ROWS - 1));
    const loads = [curve.towLoad_N, curve.supportLoad_N, curve.hookLoad_N, curve.axialLoad_N, curve.jackLoad_N];
    return [formatFixed(curve.values[i]!, 1, "-"), ...loads.map((load) => force(load[i]))];
  });
  return table(columns, rows, "    ");
}

/** Numbers of balances, where a real root passes zero, and the loads on the hook along airspeed. */
export function holdEquilibriumText(result: HoldDepthResult, { width }: Look): string[] {
  const part = result.parts?.equilibrium;
  if (part === undefined || part.families.length === 0) return [];
  const lines = ["BALANCES WITH THE JACK AT ITS LENGTH"];
  for (const family of part.families) lines.push(...paragraph(familyText(family), width, "  ", "    "));
  lines.push("", "STATIC DIVERGENCE");
  for (const { condition, mass, along, unit, from, to, at, withoutTrim, places } of part.divergence) {
    const found =
      at.length === 0
        ? withoutTrim === places
          ? "no trim"
          : withoutTrim > 0
            ? "none where it trims"
            : "none"
        : at.map(({ value, plane }) => `${formatFixed(value, 2, "-")} ${unit} (${plane})`).join(", ");
    const name = { airspeed: "airspeed", boomAngle: "boom angle", weightShare: "weight share" }[along];
    lines.push(
      ...paragraph(
        `${condition} × ${mass}, along ${name}: ${found} from ${formatFixed(from, 0, "-")} to ${formatFixed(to, 0, "-")} ${unit}`,
        width,
        "  ",
        "    ",
      ),
    );
  }
  lines.push("", "LOADS ON THE HOOK IN TRIM");
  for (const curve of part.loads.filter(({ along }) => along === "airspeed")) {
    lines.push(
      ...paragraph(
        `${curve.condition} × ${curve.mass}; on the aircraft by the tip: tow forward, support up; jack: positive towards a larger boom angle`,
        width,
        "  ",
        "    ",
      ),
    );
    lines.push(...loadTable(curve, width), "");
  }
  return lines;
}
