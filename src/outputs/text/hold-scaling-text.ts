/** Terminal text of the similar models of `hold`. */
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { formatFixed, formatNumber, formatQuantity } from "../numbers/index.ts";
import { type Column, paragraph, table } from "./columns.ts";
import { type Look, PLAIN } from "./study-text.ts";

/** Models with what they must have, what they must show, and what was measured on them. */
export function holdScalingText(result: HoldDepthResult, { width }: Look): string[] {
  const models = result.parts?.scaling?.models ?? [];
  if (models.length === 0) return [];
  const lines = ["SIMILAR MODELS"];
  for (const model of models) {
    const head =
      `${model.name}, condition ${model.condition}: scale ${formatNumber(model.scale_1, PLAIN)}, air ${formatNumber(model.density_kg_m3, PLAIN)} kg/m^3; ` +
      `Reynolds number ${formatNumber(100 * model.reynoldsRatio_1, PLAIN)} % and Mach number ${formatNumber(100 * model.machRatio_1, PLAIN)} % of the aircraft's`;
    lines.push(...paragraph(head, width, "  ", "    "));
    for (const { mass, quantities } of model.states) {
      const columns: Column[] = [
        { heading: `mass state ${mass}`, width: width - 46 },
        { heading: "aircraft", width: 14, align: "right" },
        { heading: "factor", width: 10, align: "right" },
        { heading: "model", width: 14, align: "right" },
      ];
      const rows = quantities.map((each) => [
        each.name,
        formatQuantity(each.full, each.unit, PLAIN),
        formatNumber(each.factor_1, PLAIN),
        formatQuantity(each.model, each.unit, PLAIN),
      ]);
      lines.push(...table(columns, rows, "  "), "");
    }
    for (const each of model.measured) {
      const beside =
        each.nearest === null
          ? "no computed oscillation of that plane"
          : `computed ${each.nearest.name}: ${formatNumber(each.nearest.frequency_Hz, PLAIN)} Hz, ζ ${formatFixed(each.nearest.dampingRatio, 4, "-")}`;
      const text =
        `measured, ${each.plane}, ${each.mass}: ${formatNumber(each.modelFrequency_Hz, PLAIN)} Hz on the model is ` +
        `${formatNumber(each.fullFrequency_Hz, PLAIN)} Hz on the aircraft, ζ ${formatFixed(each.dampingRatio, 4, "-")}; ${beside}`;
      lines.push(...paragraph(text, width, "  ", "    "));
    }
    if (model.measured.length > 0) lines.push("");
  }
  return lines;
}
