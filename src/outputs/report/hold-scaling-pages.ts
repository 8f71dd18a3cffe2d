/** Report section of the similar models of `hold`. */
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { formatFixed, formatNumber, formatQuantity } from "../numbers/index.ts";
import { html } from "./html.ts";
import type { PartPages } from "./part-section.ts";
import { dataTable, type Head } from "./tables.ts";

const HEADS: readonly Head[] = [
  { text: "Quantity", width: 40 },
  { text: "Aircraft", numeric: true, width: 20 },
  { text: "Factor", numeric: true, width: 18 },
  { text: "Model", numeric: true, width: 22 },
];
const MODE_HEADS: readonly Head[] = [
  { text: "Oscillation", width: 34 },
  { text: "Plane", width: 16 },
  { text: "Aircraft (Hz)", numeric: true, width: 17 },
  { text: "Model (Hz)", numeric: true, width: 17 },
  { text: "ζ, both (–)", numeric: true, width: 16 },
];
const BACK_HEADS: readonly Head[] = [
  { text: "Measured", width: 24 },
  { text: "Model (Hz)", numeric: true, width: 14 },
  { text: "Aircraft (Hz)", numeric: true, width: 14 },
  { text: "ζ (–)", numeric: true, width: 10 },
  { text: "Nearest computed", width: 38 },
];

function modelTables(result: HoldDepthResult) {
  return (result.parts?.scaling?.models ?? []).map((model) => {
    const groups = model.states.map(({ mass, quantities }) => ({
      title: `Mass state ${mass}`,
      rows: quantities.map((each) => [
        each.name,
        formatQuantity(each.full, each.unit),
        formatNumber(each.factor_1),
        formatQuantity(each.model, each.unit),
      ]),
    }));
    const modes = model.states.map((state) => ({
      title: `Mass state ${state.mass}`,
      rows: state.modes.map((mode) => [
        mode.name,
        mode.plane,
        formatNumber(mode.fullFrequency_Hz),
        formatNumber(mode.modelFrequency_Hz),
        formatFixed(mode.dampingRatio, 4),
      ]),
    }));
    const back = model.measured.map((each) => [
      `${each.plane}, mass state ${each.mass}`,
      formatNumber(each.modelFrequency_Hz),
      formatNumber(each.fullFrequency_Hz),
      formatFixed(each.dampingRatio, 4),
      each.nearest === null
        ? "none in that plane"
        : `${each.nearest.name}: ${formatNumber(each.nearest.frequency_Hz)} Hz, ζ ${formatFixed(each.nearest.dampingRatio, 4)}`,
    ]);
    const name = `${result.variant}, "${model.name}", condition ${model.condition}`;
    const about = `scale ${formatNumber(model.scale_1)}, air of ${formatNumber(model.density_kg_m3)} kg/m³`;
    return html`${dataTable(`Similar model, ${name}: ${about}`, HEADS, groups)}
<p>The model does not share the Reynolds number (${formatNumber(100 * model.reynoldsRatio_1)} % of ${formatNumber(model.fullReynolds_1)}) and the Mach number (${formatNumber(100 * model.machRatio_1)} % of ${formatNumber(model.fullMach_1)}); coefficients are taken to be equal.</p>
${dataTable(`Oscillations that the model must show, ${name}`, MODE_HEADS, modes)}${back.length === 0 ? "" : dataTable(`Measured on the model and brought back, ${name}`, BACK_HEADS, [{ rows: back }])}`;
  });
}

/** Dynamically similar models of every variant that names some. */
export const scalingPages: PartPages = (results, title) => {
  if (!results.some((result) => (result.parts?.scaling?.models ?? []).length > 0)) return null;
  const name = title("Similar models");
  return {
    id: "similar-models",
    title: name,
    markup: html`<section id="similar-models"><h2>${name}</h2>
<p>What a tunnel or drop model must weigh and how stiff and damped its boom must be to move as the aircraft does: same Froude number, same ratio of its mass to that of the air.</p>
${results.flatMap(modelTables)}</section>
`,
  };
};
