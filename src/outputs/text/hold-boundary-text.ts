/** Terminal text of the exact boundaries of `hold`. */
import type { BoundaryMap } from "../../studies/hold-boundary/types.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { formatFixed, formatShort } from "../numbers/index.ts";
import { type Column, paragraph, table } from "./columns.ts";
import type { Look } from "./study-text.ts";

/** A value with five digits, as it is read off an exact curve. */
function short(value: number | null): string {
  return value === null ? "-" : formatShort(Number(value.toPrecision(5)), "-");
}

function rowsOf(map: BoundaryMap): string[][] {
  return map.crossings.map(({ level, along, below, above }) => {
    const axis = map[along];
    return [`${axis.label} (${axis.unit})`, formatShort(level), short(map.at[along]), short(below), short(above)];
  });
}

/** Where the lines through the pair's own values cross each exact boundary, map by map. */
export function holdBoundaryText(result: HoldDepthResult, { width }: Look): string[] {
  const part = result.parts?.boundary;
  if (part === undefined || part.maps.length === 0) return [];
  const columns: Column[] = [
    { heading: "along", width: width - 54 },
    { heading: "ζ", width: 6, align: "right" },
    { heading: "the pair", width: 10, align: "right" },
    { heading: "below it", width: 10, align: "right" },
    { heading: "above it", width: 10, align: "right" },
  ];
  const lines = ["EXACT BOUNDARIES, LONGITUDINAL"];
  for (const map of part.maps) {
    const side = map.at.worst < 0 ? "unstable" : "stable";
    const off =
      map.check === null
        ? ""
        : `; curve within ${formatFixed(100 * map.check.largestMiss_1, 3, "-")} % of the exact zero`;
    lines.push(
      ...paragraph(
        `${map.title} (condition ${map.condition}, mass ${map.mass}), by ${map.method}: the pair is on the ${side} side${off}`,
        width,
        "  ",
        "    ",
      ),
      ...table(columns, rowsOf(map), "    "),
      "",
    );
  }
  return lines;
}
