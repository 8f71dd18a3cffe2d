/** Pages of the study `fit`: verdict, arrangement, clearances, order of moves, ground and loading, mechanism and tolerances. */
import type { FitResult, GearMap } from "../../studies/fit/types.ts";
import {
  arrangementFigure,
  clearanceStrokeFigure,
  type Figure,
  type FigureDom,
  gearMapFigure,
  groundFigure,
  heldMapsFigure,
  jackFigure,
  loadingFigure,
  toleranceFigure,
} from "../figures/index.ts";
import { leftOutWords, mapName, mayMove, millimetres, pathSummary, refusal } from "../fit-tables/index.ts";
import { pairName } from "../names/index.ts";
import { formatFixed } from "../numbers/index.ts";
import { canonicalJson } from "../result/index.ts";
import { overallVerdict, summariseVerdicts } from "../summary/index.ts";
import type { FigureCounter } from "./figure-counter.ts";
import { fitCard } from "./fit-headlines.ts";
import {
  groundTable,
  heldTable,
  loadingTable,
  matrixTable,
  partTable,
  rotationTable,
  strokeTable,
  toleranceTable,
  zoneTable,
} from "./fit-tables.ts";
import { type Html, html, NOTHING } from "./html.ts";
import { verdictMark } from "./marks.ts";
import type { StudyPages } from "./studies.ts";
import { limitText, valueText } from "./values.ts";

const STYLE = `.matrix .mark { white-space: normal; }
section.fit ol { margin: 6px 0; padding-left: 24px; max-width: 78ch; }
@media print { table.matrix { font-size: 7.6pt; } }
`;

/** A result without what tells variants apart although nothing was computed differently. */
function comparable(result: FitResult): string {
  const findings = result.findings.map(({ inputHash: _hash, rests: _rests, ...rest }) => rest);
  return canonicalJson({ ...result, variant: "", findings });
}

function verdictPart({ findings, variant }: FitResult): Html {
  const rows = summariseVerdicts(findings).filter(({ verdict }) => verdict !== "met");
  const open = rows.map(
    ({ verdict, what, governing }) =>
      html`<li>${verdictMark(verdict)} ${what}: ${valueText(governing)}, ${limitText(governing)}${governing.title === what ? "" : ` (${governing.title})`}</li>`,
  );
  const rest = open.length === 0 ? html`<p>Every criterion of the fit is met.</p>` : html`<ul>${open}</ul>`;
  return html`<h3>Verdict</h3>
<p>${variant} ${verdictMark(overallVerdict(findings))}</p>
${rest}
`;
}

function orderOf(map: GearMap): Html {
  const none = refusal(map);
  if (none !== null) return html`<p><strong>${mapName(map)}.</strong> ${none}</p>`;
  const steps = (texts: readonly string[]) => html`<ol>${texts.map((text) => html`<li>${text}</li>`)}</ol>`;
  const there = map.path?.steps ?? [];
  const back = map.wayBack?.steps ?? [];
  return html`<p><strong>${mapName(map)}: order of moves, out.</strong> ${pathSummary(map) ?? ""}</p>
${steps(there)}${back.length === 0 ? NOTHING : html`<p><strong>Back.</strong></p>${steps(back)}`}
<p>${mayMove(map)}</p>
`;
}

function loadingWords({ loading }: FitResult): Html {
  if (loading === null) return NOTHING;
  const height =
    loading.requiredJacking_m === null
      ? "No height up to the limit lets the carried aircraft pass."
      : loading.requiredJacking_m === 0
        ? "The carried aircraft passes below the carrier on its wheels."
        : `The carrier has to be raised by ${formatFixed(loading.requiredJacking_m, 3)} m.`;
  const set = loading.governing === null ? "" : ` The height is set by ${pairName(loading.governing)}.`;
  const margin = ` Margin ${formatFixed(1000 * loading.margin_m, 0)} mm; not raised, the least clearance of the way in is ${millimetres(loading.unraisedClearance_m)} mm.`;
  return html`<p>${height}${set}${margin}</p>
`;
}

function leftOutPart({ leftOut }: FitResult): Html {
  if (leftOut.length === 0) return NOTHING;
  const items = leftOutWords(leftOut).map((text) => html`<li>${text}</li>`);
  return html`<p>Pairs that were not looked at:</p>
<ul>${items}</ul>
`;
}

function stackWords({ stack }: FitResult): Html {
  if (stack.terms.length === 0) return html`<p>No stack of tolerances was taken off the clearances.</p>`;
  const terms = stack.terms.map(({ name, value_m }) => `${name} ${formatFixed(1000 * value_m, 1)} mm`).join(", ");
  const sums = `worst case ${formatFixed(1000 * stack.worst_m, 1)} mm, root sum square ${formatFixed(1000 * stack.rss_m, 1)} mm`;
  return html`<p>Stack taken off clearances: ${terms}; ${sums}.</p>
`;
}

/** One variant, in the order: verdict, arrangement, clearances, moves, ground, mechanism and tolerances, shapes. */
function variantSection(result: FitResult, index: number, title: string, counter: FigureCounter, dom: FigureDom): Html {
  const id = (what: string) => `fig-fit${index + 1}-${what}`;
  const show = (figure: Figure | null) => (figure === null ? NOTHING : counter.print(figure));
  const part = (name: string, body: readonly Html[]) =>
    body.every(({ markup }) => markup === "")
      ? NOTHING
      : html`<h3>${name}</h3>
${body}`;
  const { variant, maps, pictures, tolerance } = result;
  const nominal = maps.filter(({ held }) => held === null);
  return html`<section id="fit${index === 0 ? "" : `-v${index + 1}`}" class="fit"><h2>${title}</h2>
${verdictPart(result)}${part(
  "Arrangement",
  pictures.map((picture) => show(arrangementFigure(id(picture.pose), result, picture, dom))),
)}${part("Clearance matrix", [matrixTable(result), leftOutPart(result)])}${part("Clearance along the stroke", [
  show(clearanceStrokeFigure(id("clearance"), result, dom)),
])}${part("When gear and doors may move", [
  ...nominal.flatMap((map, i) => [show(gearMapFigure(id(`map${i + 1}`), variant, map, dom)), orderOf(map)]),
  show(heldMapsFigure(id("held"), variant, maps, dom)),
  heldTable(result),
])}${part("Zones", [zoneTable(result)])}${part("Ground and loading", [
  show(groundFigure(id("ground"), result, dom)),
  groundTable(result),
  rotationTable(result),
  loadingWords(result),
  show(loadingFigure(id("loading"), result, dom)),
  loadingTable(result),
])}${part("Mechanism", [show(jackFigure(id("jack"), result, dom)), strokeTable(result)])}${part("Tolerances", [
  stackWords(result),
  show(toleranceFigure(id("tolerance"), variant, tolerance, dom)),
  toleranceTable(result),
])}${part("Shapes", [partTable(result)])}</section>
`;
}

/**
 * Pages of the fit; a variant that came out like one before it is not drawn again.
 *
 * @param alone whether the report holds no other study
 */
export function fitPages(
  results: readonly FitResult[],
  alone: boolean,
  counter: FigureCounter,
  dom: FigureDom,
): StudyPages {
  const name = (result: FitResult) => (results.length === 1 ? "Fit" : `Fit: ${result.variant}`);
  const forms = results.map(comparable);
  const contents: (readonly [string, string])[] = [];
  const sections = results.map((result, i) => {
    const id = `fit${i === 0 ? "" : `-v${i + 1}`}`;
    contents.push([id, name(result)]);
    const like = forms.indexOf(forms[i]!);
    if (like < i)
      return html`<section id="${id}"><h2>${name(result)}</h2>
<p>The same as ${results[like]!.variant} in every number.</p></section>
`;
    return variantSection(result, i, name(result), counter, dom);
  });
  return {
    about: "Fit of the pair in every pose, on the ground and in the air",
    contents,
    cards: results.map((result) => fitCard(result, alone ? result.variant : `Fit: ${result.variant}`)),
    sections: html`${sections}`,
    style: STYLE,
  };
}
