/** Pages of the study `hookon`: verdict, approaches, window, map, misses, loads, breakaway, one approach in time. */
import type { HookonCase, HookonResult } from "../../studies/hookon/types.ts";
import {
  breakawayFigure,
  captureMapFigure,
  closureWindowFigure,
  designCase,
  type Figure,
  type FigureDom,
  missFigure,
  outcomeFigure,
  replayFigure,
  successFigure,
} from "../figures/index.ts";
import { caseWords } from "../names/index.ts";
import { formatFixed, formatQuantity, formatShort } from "../numbers/index.ts";
import type { FigureCounter } from "./figure-counter.ts";
import { hookonClaimsPages } from "./hookon-claims-pages.ts";
import { type Html, html, NOTHING } from "./html.ts";
import type { StudyPages } from "./studies.ts";
import { dataTable, type Head } from "./tables.ts";

const percent = (share: number): string => `${formatFixed(100 * share, 1)} %`;
const speed = (value: number | null): string => (value === null ? "none" : `${formatFixed(value, 2)} m/s`);

const SHARE_HEADS: readonly Head[] = [
  { text: "Case", width: 24 },
  { text: "σ (m/s)", numeric: true, width: 8 },
  { text: "Locked, stable", numeric: true, width: 12 },
  { text: "Exact interval", numeric: true, width: 18 },
  { text: "Wilson interval", numeric: true, width: 18 },
  { text: "Approaches, by share", numeric: true, width: 10 },
  { text: "by lower bound", numeric: true, width: 10 },
];

function shareTable({ cases, variant, attemptsFor_1, confidence_1 }: HookonResult): Html {
  const rows = cases.map((each) => [
    caseWords(each),
    formatFixed(each.sigma_m_s, 1),
    `${each.success.count} of ${each.success.of}, ${percent(each.success.share_1)}`,
    `${percent(each.success.exact_1.lower)} to ${percent(each.success.exact_1.upper)}`,
    `${percent(each.success.score_1.lower)} to ${percent(each.success.score_1.upper)}`,
    String(each.attempts.byShare ?? "–"),
    String(each.attempts.byBound ?? "–"),
  ]);
  const caption = `Success by case, ${variant}: ${percent(confidence_1)} intervals, and approaches for one success with ${percent(attemptsFor_1)}`;
  return dataTable(caption, SHARE_HEADS, [{ rows }]);
}

const QUANTITY_HEADS: readonly Head[] = [
  { text: "Quantity", width: 32 },
  { text: "Count", numeric: true, width: 8 },
  { text: "Median", numeric: true },
  { text: "95 %", numeric: true },
  { text: "99 %", numeric: true },
  { text: "Largest", numeric: true },
  { text: "Mean + 3σ", numeric: true },
];

/** Contact and loads in the design turbulence, a group for each controller. */
function quantityTable(result: HookonResult): Html {
  const drawn = result.cases.filter(
    ({ sigma, light, bothAtOnce, quantities }) =>
      sigma === result.design && light === null && !bothAtOnce && quantities.length > 0,
  );
  if (drawn.length === 0) return NOTHING;
  const groups = drawn.map((each: HookonCase) => ({
    title: caseWords(each),
    rows: each.quantities.map(({ title, unit, count, p50, p95, p99, largest, mean3Sigma }) => [
      title,
      String(count),
      ...[p50, p95, p99, largest, mean3Sigma].map((value) => formatQuantity(value, unit)),
    ]),
  }));
  return dataTable(`Contact and loads of the approaches that touched, ${result.variant}`, QUANTITY_HEADS, groups);
}

const MISS_HEADS: readonly Head[] = [
  { text: "Case", width: 24 },
  { text: "Mean right, down (mm)", numeric: true },
  { text: "σ right, down (mm)", numeric: true },
  { text: "Radius 50, 95, 99 % (mm)", numeric: true, width: 18 },
  { text: "In the circle", numeric: true },
  { text: "Normal scatter", numeric: true },
  { text: "Equal, no offset", numeric: true },
];

function missTable({ cases, variant }: HookonResult): Html {
  const mm = (value: number): string => formatFixed(1000 * value, 0);
  const rows = cases.flatMap((each) => {
    const { miss } = each;
    if (miss === null) return [];
    return [
      [
        caseWords(each),
        `${mm(miss.meanRight_m)}, ${mm(miss.meanDown_m)}`,
        `${mm(miss.sigmaRight_m)}, ${mm(miss.sigmaDown_m)}`,
        `${mm(miss.radius_m.p50)}, ${mm(miss.radius_m.p95)}, ${mm(miss.radius_m.p99)}`,
        percent(miss.inside_1),
        percent(miss.normal_1),
        percent(miss.rayleigh_1),
      ],
    ];
  });
  const caption = `Miss in the plane of the mouth, ${variant}: share inside the circle that captures, counted and in closed form`;
  return rows.length === 0 ? NOTHING : dataTable(caption, MISS_HEADS, [{ rows }]);
}

function windowWords({ window }: HookonResult): Html {
  const { closedForm, simulated, agreement_1 } = window;
  const share = (value: number | null): string =>
    value === null ? "not comparable" : `${formatFixed(100 * value, 1)} %`;
  return html`<p>Closure window: closed form ${speed(closedForm.lower_m_s)} to ${speed(closedForm.upper_m_s)} (${closedForm.upperBecause}); simulated ${speed(simulated.lower_m_s)} to ${speed(simulated.upper_m_s)} (${simulated.upperBecause}). Closed form over simulation, less 1: lower end ${share(agreement_1.lower)}, upper end ${share(agreement_1.upper)}.</p>
`;
}

function variantSection(
  result: HookonResult,
  index: number,
  title: string,
  counter: FigureCounter,
  dom: FigureDom,
): Html {
  const id = (what: string) => `fig-hookon${index + 1}-${what}`;
  const show = (figure: Figure | null) => (figure === null ? NOTHING : counter.print(figure));
  const { variant, point, maps, window, breakaway, replay, criteria } = result;
  const where = `${point.condition}, mass ${point.mass} (${formatFixed(point.mass_kg, 0)} kg), ${formatFixed(point.airspeed_m_s_EAS, 1)} m/s EAS, ${formatFixed(point.altitude_m, 0)} m, boom ${formatFixed(point.boomAngle_deg, 1)}°`;
  return html`<section id="hookon${index === 0 ? "" : `-v${index + 1}`}" class="hookon"><h2>${title}</h2>
<p>${where}; ${String(result.samples)} approaches for each case, seed ${String(result.seed)}.</p>
<h3>What became of the approaches</h3>
${show(outcomeFigure(id("outcomes"), result, dom))}${show(successFigure(id("success"), result, dom))}${shareTable(result)}
<h3>Closure window and loads</h3>
${windowWords(result)}${show(closureWindowFigure(id("window"), result, dom))}${quantityTable(result)}
<h3>Capture</h3>
${show(captureMapFigure(id("map"), variant, maps, window.simulated, dom))}${show(missFigure(id("miss"), result, dom))}${missTable(result)}
<h3>Breakaway and one approach</h3>
${show(breakawayFigure(id("breakaway"), variant, breakaway, criteria.breakawayDistance_m, dom))}${show(replayFigure(id("replay"), variant, replay, dom))}</section>
`;
}

function card(result: HookonResult, title: string): Html {
  const design = designCase(result);
  const { simulated, planned_m_s } = result.window;
  const success =
    design === null
      ? NOTHING
      : html`<li>${caseWords(design)}: <strong>${percent(design.success.share_1)}</strong> locked and stable (${percent(design.success.exact_1.lower)} to ${percent(design.success.exact_1.upper)})</li>
<li>approaches for one success with ${formatShort(100 * result.attemptsFor_1)} %: <strong>${String(design.attempts.byShare ?? "–")}</strong>, by the lower bound ${String(design.attempts.byBound ?? "–")}</li>`;
  const load = design?.quantities.find(({ key }) => key === "axialLoad_N");
  return html`<article class="card"><h3>${title}</h3>
<h4>Success</h4><ul>${success}</ul>
<h4>Closure</h4><ul><li>window: <strong>${speed(simulated.lower_m_s)} to ${speed(simulated.upper_m_s)}</strong>, planned ${speed(planned_m_s)}</li>${
    load === undefined
      ? NOTHING
      : html`<li>peak load along the probe, 99 %: <strong>${formatQuantity(load.p99, "N")}</strong>, limit load ${formatQuantity(result.criteria.axialLoad_N, "N")}</li>`
  }</ul>
</article>
`;
}

/**
 * Pages of hook-on, a section for each variant.
 *
 * @param alone whether the report holds no other study
 */
export function hookonPages(
  results: readonly HookonResult[],
  alone: boolean,
  counter: FigureCounter,
  dom: FigureDom,
): StudyPages {
  const claimed = results.flatMap(({ variant, claims }) => (claims === null ? [] : [{ variant, claims }]));
  const name = ({ variant }: HookonResult) => (results.length === 1 ? "Hook-on" : `Hook-on: ${variant}`);
  const sections = results.map((result, i) => variantSection(result, i, name(result), counter, dom));
  const claims = hookonClaimsPages(claimed, (word) => `Hook-on: ${word.toLowerCase()}`, counter, dom);
  return {
    about: "Hook-on: approach, contact and capture",
    contents: [
      ...results.map((result, i) => [`hookon${i === 0 ? "" : `-v${i + 1}`}`, name(result)] as const),
      ...(claims === null ? [] : [[claims.id, claims.title] as const]),
    ],
    cards: results.map((result) => card(result, alone ? result.variant : `Hook-on: ${result.variant}`)),
    sections: html`${sections}${claims === null ? NOTHING : claims.markup}`,
    style: "",
  };
}
