/** Report section of the exact boundaries of `hold`. */
import type { BoundaryMap } from "../../studies/hold-boundary/types.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { boundaryFigure } from "../figures/index.ts";
import { formatShort } from "../numbers/index.ts";
import { html } from "./html.ts";
import type { PartPages } from "./part-section.ts";
import { dataTable, type Head } from "./tables.ts";

const HEADS: readonly Head[] = [
  { text: "Along", width: 40 },
  { text: "ζ (–)", numeric: true, width: 12 },
  { text: "The pair", numeric: true, width: 16 },
  { text: "Below it", numeric: true, width: 16 },
  { text: "Above it", numeric: true, width: 16 },
];

function value(of: number | null): string {
  return of === null ? "none" : formatShort(Number(of.toPrecision(5)));
}

function crossingTable(result: HoldDepthResult, maps: readonly BoundaryMap[]) {
  const groups = maps.map((map) => ({
    title: `${map.title} (condition ${map.condition}, mass ${map.mass})`,
    rows: map.crossings.map(({ level, along, below, above }) => {
      const axis = map[along];
      return [`${axis.label} (${axis.unit})`, formatShort(level), value(map.at[along]), value(below), value(above)];
    }),
  }));
  return dataTable(
    `Where the pair would meet each boundary, one parameter changed alone, ${result.variant}`,
    HEADS,
    groups,
  );
}

/** Exact boundaries of every variant: maps, then where the pair would meet them. */
export const boundaryPages: PartPages = (results, title, counter, dom) => {
  if (!results.some((result) => (result.parts?.boundary?.maps ?? []).length > 0)) return null;
  const name = title("Exact boundaries");
  const parts = results.map((result, i) => {
    const part = result.parts?.boundary;
    if (part === undefined || part.maps.length === 0) return "";
    const figures = part.maps.map((map, k) =>
      counter.print(boundaryFigure(`fig-v${i + 1}-boundary${k + 1}`, map, part.criterion_1, result.variant, dom)),
    );
    return html`<h3>${result.variant}</h3>
${figures}${crossingTable(result, part.maps)}`;
  });
  return {
    id: "exact-boundaries",
    title: name,
    markup: html`<section id="exact-boundaries"><h2>${name}</h2>
<p>Where a longitudinal root of the hooked pair lies exactly on the limit of stability or at a stated damping ratio. Over stiffness and snubber rate the curve is
closed form for each frequency; over airspeed and boom angle, which change the trim, it is followed step by step. A grid checks it and shades the maps.</p>
${parts}</section>
`,
  };
};
