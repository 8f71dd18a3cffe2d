/** Section of the part `snubber` of `hold`: pictures and tables of the snubber as hardware. */
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import type { Nodding, SnubberPoint, SnubberResult } from "../../studies/hold-snubber/types.ts";
import { noddingFigure, snubberForceFigure, snubberMapFigure } from "../figures/index.ts";
import { formatFixed, formatNumber, formatQuantity } from "../numbers/index.ts";
import { dampingCriterion } from "../summary/index.ts";
import { type Html, html } from "./html.ts";
import type { PartPages } from "./part-section.ts";
import { dataTable, type Head, type RowGroup } from "./tables.ts";

const POINT_HEADS: readonly Head[] = [
  { text: "Oil (°C)", width: 7 },
  { text: "Jack load (N)", numeric: true, width: 10 },
  { text: "Pressure (MPa)", numeric: true, width: 8 },
  { text: "Gas (L)", numeric: true, width: 8 },
  { text: "Accumulator (kN/m)", numeric: true, width: 11 },
  { text: "C1 (kN·s/m)", numeric: true, width: 9 },
  { text: "C2 (kN·s²/m²)", numeric: true, width: 9 },
  { text: "ζ at amplitude (–)", numeric: true, width: 9 },
  { text: "ζ small (–)", numeric: true, width: 9 },
  { text: "Nodding at the tip", width: 20 },
];

function noddingWords({ outcome, cycles, reach_m }: Nodding): string {
  const words = cycles.map(({ attracts, tipAmplitude_m, frequency_Hz, orbit }) => {
    const size = `±${formatNumber((orbit?.tipAmplitude_m ?? tipAmplitude_m) * 1e3)} mm`;
    const frequency = `${formatFixed(orbit?.frequency_Hz ?? frequency_Hz, 3)} Hz`;
    return `${attracts ? "stable" : "unstable"} limit cycle ${size}, ${frequency}`;
  });
  const reach = `±${formatNumber(reach_m * 1e3)} mm`;
  const end = outcome.startsWith("grows") ? [`motion grows past ${reach}, the reach of the model`] : [];
  return [outcome, ...words, ...end].join("; ");
}

function methodTable(variant: string, { points }: SnubberResult): Html {
  const heads: Head[] = [
    { text: "Condition × mass", width: 16 },
    { text: "Limit cycle", width: 10 },
    { text: "Balance (mm)", numeric: true },
    { text: "Balance (Hz)", numeric: true },
    { text: "Orbit (mm)", numeric: true },
    { text: "Orbit (Hz)", numeric: true },
    { text: "Largest multiplier (–)", numeric: true },
    { text: "Simulated", width: 32 },
  ];
  const rows = points
    .filter(({ nodding }) => nodding.simulations.length > 0)
    .flatMap(({ condition, mass, nodding }) => {
      const simulated = nodding.simulations.map(simulationWords).join("; ");
      const name = `${condition} × ${mass}`;
      if (nodding.cycles.length === 0) return [[name, "none", "–", "–", "–", "–", "–", simulated]];
      return nodding.cycles.map(({ attracts, tipAmplitude_m, frequency_Hz, orbit }, i) => [
        ...[name, attracts ? "stable" : "unstable"],
        ...[formatNumber(tipAmplitude_m * 1e3), formatFixed(frequency_Hz, 4)],
        ...(orbit === null
          ? ["–", "–", "–"]
          : [
              formatNumber(orbit.tipAmplitude_m * 1e3),
              formatFixed(orbit.frequency_Hz, 4),
              formatFixed(orbit.largestMultiplier_1, 3),
            ]),
        i === nodding.cycles.length - 1 ? simulated : "",
      ]);
    });
  return dataTable(
    `Lasting oscillation by three methods on the same equations of motion, oil at its normal temperature, ${variant}; stable where the largest multiplier is below 1`,
    heads,
    [{ rows }],
  );
}

function simulationWords(each: Nodding["simulations"][number]): string {
  const end = each.tipAmplitude_m !== null ? `settles at ±${formatNumber(each.tipAmplitude_m * 1e3)} mm` : each.outcome;
  return `from ±${formatNumber(each.startAmplitude_m * 1e3)} mm: ${end}${each.agrees ? "" : ", against the other methods"}`;
}

function pointRow(point: SnubberPoint): string[] {
  const zeta = (value: number | null): string => (value === null ? "–" : formatFixed(value, 4));
  return [
    formatFixed(point.temperature_degC, 0),
    formatNumber(point.jackLoad_N),
    formatFixed(point.pressure_Pa / 1e6, 3),
    point.accumulator === "gas" ? formatFixed(point.gasVolume_m3 * 1e3, 3) : point.accumulator,
    formatNumber(point.accumulatorStiffness_N_m / 1e3),
    formatNumber(point.C1_N_s_m / 1e3),
    formatNumber(point.C2_N_s2_m2 / 1e3),
    zeta(point.dampingRatio),
    zeta(point.smallDampingRatio),
    noddingWords(point.nodding),
  ];
}

function pointTable(variant: string, { points }: SnubberResult): Html {
  const names = [...new Set(points.map(({ condition, mass }) => `${condition} × ${mass}`))];
  const groups: RowGroup[] = names.map((title) => ({
    title,
    rows: points.filter(({ condition, mass }) => `${condition} × ${mass}` === title).map(pointRow),
  }));
  return dataTable(
    `Snubber and accumulator under the trim load, ${variant}; stiffness and coefficients at the tip, pressure absolute`,
    POINT_HEADS,
    groups,
  );
}

function failedTable(variant: string, { failed }: SnubberResult): Html {
  const heads: Head[] = [
    { text: "State", width: 20 },
    { text: "Condition × mass", width: 20 },
    { text: "Accumulator (kN/m)", numeric: true },
    { text: "Weight share (%)", numeric: true },
    { text: "Worst ζ (–)", numeric: true },
    { text: "f (Hz)", numeric: true },
    { text: "Double in (s)", numeric: true },
  ];
  const or = (value: number | null, print: (value: number) => string): string => (value === null ? "–" : print(value));
  const rows = failed.map((state) => [
    state.state,
    `${state.condition} × ${state.mass}${state.outcome === "no balance" ? ": no balance" : ""}`,
    or(state.accumulatorStiffness_N_m, (value) => formatNumber(value / 1e3)),
    formatFixed(100 * state.weightShare_1, 1),
    or(state.dampingRatio, (value) => formatFixed(value, 4)),
    or(state.frequency_Hz, (value) => formatFixed(value, 3)),
    or(state.timeToDouble_s, (value) => formatNumber(value)),
  ]);
  return dataTable(`Failed states of the snubber, oil at its normal temperature, ${variant}`, heads, [{ rows }]);
}

function slowTable(variant: string, { slow }: SnubberResult): Html {
  const heads: Head[] = [
    { text: "Oil (°C)", width: 14 },
    { text: "Viscosity (mm²/s)", numeric: true },
    { text: "Jack speed (m/s)", numeric: true },
    { text: "Snubber force (at the jack)", numeric: true },
    { text: "Share of capacity (%)", numeric: true },
    { text: "Time of stroke (s)", numeric: true },
    { text: "Reynolds number in the bleed", numeric: true },
  ];
  const rows = slow.map((each) => [
    formatFixed(each.temperature_degC, 0),
    formatNumber(each.viscosity_m2_s * 1e6),
    formatNumber(each.jackSpeed_m_s),
    `${formatQuantity(each.jackForce_N, "N")}${each.reliefOpen ? ", relief open" : ""}`,
    each.capacityShare_1 === null ? "–" : formatFixed(100 * each.capacityShare_1, 2),
    each.strokeTime_s === null ? "the load stops it" : formatNumber(each.strokeTime_s),
    formatNumber(each.bleedReynolds_1),
  ]);
  return dataTable(`Commanded slow stroke, ${variant}`, heads, [{ rows }]);
}

const limitOf = (result: HoldDepthResult, ending: string): number | null =>
  result.findings.find(({ id, criterion }) => id.endsWith(ending) && criterion !== undefined)?.criterion?.limit ?? null;

/** Pictures and tables of every variant that has hardware. */
export const holdSnubberPages: PartPages = (results, title, counter, dom) => {
  const own = results.flatMap((result, i) =>
    result.parts?.snubber === undefined ? [] : [{ result, snubber: result.parts.snubber, i }],
  );
  if (own.length === 0) return null;
  const name = title("Snubber as hardware");
  const sections = own.map(({ result, snubber, i }) => {
    const id = (what: string): string => `fig-v${i + 1}-snubber-${what}`;
    const { variant } = result;
    const conditions = [...new Set(snubber.maps.map(({ condition }) => condition))];
    const figures = [
      snubberForceFigure(id("force"), variant, snubber, dom),
      ...[...new Set(snubber.amplitude.map(({ condition }) => condition))].map((condition, k) => {
        const curves = snubber.amplitude.filter((curve) => curve.condition === condition);
        return noddingFigure(id(`nodding${k + 1}`), variant, curves, limitOf(result, ".nodding"), dom);
      }),
      ...conditions.map((condition, k) => {
        const maps = snubber.maps.filter((map) => map.condition === condition);
        return snubberMapFigure(id(`map${k + 1}`), variant, maps, dampingCriterion([result]), dom);
      }),
    ].filter((figure) => figure !== null);
    return html`<h3 id="snubber-v${i + 1}">${variant}</h3>
${figures.map((figure) => counter.print(figure))}${pointTable(variant, snubber)}${methodTable(variant, snubber)}${slowTable(variant, snubber)}${failedTable(variant, snubber)}`;
  });
  const markup = html`<section id="snubber"><h2>${name}</h2>
<p>What orifice, bleed, relief valve, oil and gas make of the snubber: the accumulator's stiffness follows the load that trim puts on the jack and the
temperature, and stands beside every damping ratio. Nodding is an oscillation that neither dies out nor grows. Harmonic balance of all equations of
motion finds it, shooting closes the same orbit and says whether it is stable, and a simulation from both sides of it confirms both. The model
reaches to the amplitude at which the lift of the carried aircraft is its maximum.</p>
${sections}</section>
`;
  return { id: "snubber", title: name, markup };
};
