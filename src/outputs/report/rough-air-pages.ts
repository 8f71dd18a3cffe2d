/** Pages of rough air: the answer, tables by quantity and by turbulence, pictures, what the simulation says. */
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import type { RoughAirPoint, RoughAirQuantity, RoughAirResult } from "../../studies/hold-rough/types.ts";
import {
  exceedanceFigure,
  type Figure,
  type FigureDom,
  governingAir,
  gustLengthFigure,
  motionSpectraFigure,
  roughAirFigure,
} from "../figures/index.ts";
import { formatFixed, formatNumber, formatQuantity, formatShort, scaleUnit } from "../numbers/index.ts";
import { type Html, html, NOTHING } from "./html.ts";
import type { PartPages } from "./part-section.ts";
import { dataTable, type Head, type RowGroup } from "./tables.ts";

const QUANTITY_HEADS: readonly Head[] = [
  { text: "Quantity", width: 24 },
  { text: "Mean", numeric: true, width: 11 },
  { text: "Spread per m/s of σ", numeric: true, width: 13 },
  { text: "N₀ (Hz)", numeric: true, width: 8 },
  { text: "Limit", numeric: true, width: 20 },
  { text: "Holds alone to σ (m/s)", numeric: true, width: 12 },
  { text: "Source of the limit", width: 12 },
];

/** Two ends in one unit. */
function bandText(lower: number | null, upper: number | null, unit: string): string {
  const size = Math.max(Math.abs(lower ?? 0), Math.abs(upper ?? 0));
  const scale = scaleUnit(unit, size);
  const number = (end: number | null): string =>
    end === null ? "open" : formatShort(Number((end * scale.factor).toPrecision(4)));
  return `${number(lower)} to ${number(upper)}${scale.unit === "°" ? "" : " "}${scale.unit}`.trim();
}

function quantityRow({
  title,
  unit,
  mean,
  deviationPerSigma,
  crossings_1_s,
  limit,
  largestSigma_m_s,
}: RoughAirQuantity): (string | Html)[] {
  return [
    title,
    formatQuantity(mean, unit),
    formatQuantity(deviationPerSigma, unit),
    formatNumber(crossings_1_s),
    limit === null ? "–" : bandText(limit.lower, limit.upper, unit),
    largestSigma_m_s === null ? "–" : largestSigma_m_s > 1e3 ? "any" : formatNumber(largestSigma_m_s),
    limit === null ? "–" : limit.source,
  ];
}

function unsettled({ outcome, timeToDouble_s }: RoughAirPoint): Html {
  if (outcome === "no trim") return html`does not trim`;
  const time = timeToDouble_s === null ? "neutral" : `doubles in ${formatNumber(timeToDouble_s)} s`;
  return html`grows without rough air (${time}): there is no stationary response, and no σ`;
}

function quantityTable(variant: string, { points }: RoughAirResult): Html {
  const groups = points.map(
    (point): RowGroup => ({
      title: `${point.condition} × ${point.mass}`,
      rows: point.quantities.length === 0 ? [[unsettled(point)]] : point.quantities.map(quantityRow),
    }),
  );
  return dataTable(`Loads and motions in turbulence, ${variant}; limit load, not ultimate`, QUANTITY_HEADS, groups);
}

const LEVEL_HEADS: readonly Head[] = [
  { text: "Quantity", width: 26 },
  { text: "Spread", numeric: true, width: 14 },
  { text: "From", numeric: true, width: 14 },
  { text: "To", numeric: true, width: 14 },
  { text: "Exits from its limit per hour", numeric: true, width: 16 },
];

/** Every named turbulence at the mass that gives way first. */
function levelTable(variant: string, result: RoughAirResult): Html {
  const point = governingAir(result);
  if (point === null) return NOTHING;
  const groups = point.levels.map(
    ({ name, origin, sigma_m_s, probability_1, rows }): RowGroup => ({
      title: `${name} (${origin}), σ ${formatFixed(sigma_m_s, 2)} m/s: any limit passed with ${formatNumber(100 * probability_1)} % in ${formatShort(result.timeHooked_s / 60)} min`,
      rows: rows.map(({ key, deviation, lower, upper, exits_1_h }) => {
        const { title, unit } = point.quantities.find((one) => one.key === key)!;
        const exits = exits_1_h === null ? "–" : exits_1_h < 1e-9 ? "0" : formatNumber(exits_1_h);
        return [
          title,
          formatQuantity(deviation, unit),
          formatQuantity(lower, unit),
          formatQuantity(upper, unit),
          exits,
        ];
      }),
    }),
  );
  const chance = `${formatShort(100 * result.probability_1)} %`;
  const caption = `Reach of every quantity by turbulence, ${variant}, ${point.condition} × ${point.mass}: passed on either side with ${chance} in the time hooked`;
  return dataTable(caption, LEVEL_HEADS, groups);
}

const CHECK_HEADS: readonly Head[] = [
  { text: "Quantity", width: 30 },
  { text: "Computed", numeric: true },
  { text: "Simulated", numeric: true },
  { text: "Linear, same gusts", numeric: true },
  { text: "Sampling error (%)", numeric: true },
];

function checkTable(variant: string, { points }: RoughAirResult): Html {
  const point = points.find(({ check }) => check !== null && check.rows.length > 0);
  if (point === undefined) return NOTHING;
  const { rows, seeds, time_s, sigma_m_s, integralDifference_1 } = point.check!;
  const caption = `Spread by Lyapunov's equation and by ${seeds} seeded simulations of the nonlinear pair, ${variant}, ${point.condition} × ${point.mass}, Dryden σ ${formatShort(sigma_m_s)} m/s, ${formatFixed(time_s, 0)} s together; the integral of the spectra agrees within ${formatNumber(integralDifference_1, { digits: 1 })}`;
  const group = {
    rows: rows.map(({ key, computed, simulated, linear, samplingError_1 }) => {
      const { title, unit } = point.quantities.find((one) => one.key === key)!;
      const value = (x: number): string => formatQuantity(x, unit);
      return [title, value(computed), value(simulated), value(linear), formatFixed(100 * samplingError_1, 1)];
    }),
  };
  return dataTable(caption, CHECK_HEADS, [group]);
}

function airText({ conditions, points }: RoughAirResult): Html {
  const lines = conditions.map(({ condition, height_m, Lu_m, Lv_m, Lw_m, severities }) => {
    const scales = `scale lengths ${formatFixed(Lu_m, 0)}, ${formatFixed(Lv_m, 0)} and ${formatFixed(Lw_m, 0)} m at ${formatFixed(height_m, 0)} m`;
    const names =
      severities === null
        ? "no severity names here"
        : `light ${formatFixed(severities.light_m_s, 2)}, moderate ${formatFixed(severities.moderate_m_s, 2)}, severe ${formatFixed(severities.severe_m_s, 2)} m/s (${severities.source})`;
    return html`<li>${condition}: ${scales}; ${names}</li>`;
  });
  const answers = points.map((point) => {
    if (point.answer === null)
      return html`<li>${point.condition} × ${point.mass}: <strong>${unsettled(point)}</strong></li>`;
    const { sigma_m_s, limiting, severity } = point.answer;
    const title = point.quantities.find(({ key }) => key === limiting)!.title.toLowerCase();
    const name = severity === null ? "" : `, severity ${severity}`;
    return html`<li>${point.condition} × ${point.mass}: <strong>σ ${formatNumber(sigma_m_s)} m/s${name}</strong>; ${title} gives way first</li>`;
  });
  return html`<ul>${lines}${answers}</ul>`;
}

function figuresOf(result: RoughAirResult, variant: string, index: number, dom: FigureDom): Figure[] {
  const id = (what: string): string => `fig-v${index + 1}-rough-${what}`;
  return [
    roughAirFigure(id("sigma"), variant, result, dom),
    exceedanceFigure(id("exits"), variant, result, dom),
    motionSpectraFigure(id("spectra"), variant, result, dom),
    gustLengthFigure(id("gust"), variant, result, dom),
  ].filter((figure) => figure !== null);
}

/** Section of rough air over all variants. */
export const roughAirPages: PartPages = (results, title, counter, dom) => {
  const own = results.flatMap((result: HoldDepthResult, i) => {
    const air = result.parts?.roughAir;
    return air === undefined ? [] : [{ variant: result.variant, air, index: i }];
  });
  if (own.length === 0) return null;
  const name = title("Rough air");
  const parts = own.map(({ variant, air, index }) => {
    const chance = `${formatShort(100 * air.probability_1)} % in ${formatShort(air.timeHooked_s / 60)} min hooked`;
    const figures = figuresOf(air, variant, index, dom).map((figure) => counter.print(figure));
    return html`<h3>${variant}</h3>
<p>${air.spectrum} turbulence of ${air.document}. Largest intensity in which every limit holds with ${chance}; asked for: ${air.design.name}, σ ${formatShort(air.design.sigma_m_s)} m/s.</p>
${airText(air)}${figures}${quantityTable(variant, air)}${levelTable(variant, air)}${checkTable(variant, air)}`;
  });
  return {
    id: "rough-air",
    title: name,
    markup: html`<section id="rough-air"><h2>${name}</h2>
${parts}</section>
`,
  };
};
