/** Report section of the carrier in the motion of `hold`. */
import type { CarrierAlone, CarrierCase, CarrierPoint } from "../../studies/hold-carrier/types.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { carrierDampingFigure, gustPenetrationFigure, slug } from "../figures/index.ts";
import { formatFixed, formatNumber, formatQuantity } from "../numbers/index.ts";
import { type Html, html } from "./html.ts";
import type { PartPages } from "./part-section.ts";
import { dataTable, type Head } from "./tables.ts";

function modesTable(name: string, points: readonly CarrierPoint[]) {
  const models = points[0]!.cases.map(({ model }) => model);
  const heads = [{ text: "Oscillation", width: 22 }, ...models.map((model) => ({ text: model, numeric: true }))];
  const cell = (of: CarrierCase, from: string | null, plane: string): string => {
    if (of.outcome === "outside") return "not analysed";
    if (of.outcome === "no trim") return "no trim";
    const mode = of.modes.find((each) => each.from === from && each.plane === plane);
    return mode === undefined ? "–" : `${formatFixed(mode.dampingRatio, 4)} at ${formatFixed(mode.frequency_Hz, 3)}`;
  };
  const groups = points.map(({ mass, cases }) => ({
    title: `Mass ${mass}`,
    rows: (cases[0]?.modes ?? [])
      .filter((mode) => mode.imag_rad_s > 0)
      .map((mode) => [`${mode.name}, ${mode.plane}`, ...cases.map((of) => cell(of, mode.from, mode.plane))]),
  }));
  return dataTable(`Damping ratio ζ (–) at frequency (Hz) by model of the carrier, ${name}`, heads, groups);
}

function trimTable(name: string, points: readonly CarrierPoint[]) {
  const models = points[0]!.cases
    .map(({ model }) => model)
    .filter((model) => !model.includes("free") && model !== "rigid");
  if (models.length < 2) return "";
  const heads = [{ text: "At trim", width: 28 }, ...models.map((model) => ({ text: model, numeric: true }))];
  const values: [string, (of: NonNullable<CarrierCase["trim"]>) => string][] = [
    ["Pitch against the flight path (°)", ({ pitch_deg }) => formatFixed(pitch_deg, 2)],
    ["Angle of attack in the flow (°)", ({ alpha_deg }) => formatFixed(alpha_deg, 2)],
    ["Elevator (°)", ({ elevator_deg }) => formatFixed(elevator_deg, 2)],
    ["Tow load (N)", ({ towLoad_N }) => formatFixed(towLoad_N, 0)],
    ["Tip load along the boom (N)", ({ tipAxialLoad_N }) => formatFixed(tipAxialLoad_N, 0)],
    ["Tip load normal to the boom (N)", ({ tipTangentialLoad_N }) => formatFixed(tipTangentialLoad_N, 0)],
    ["Jack load (N)", ({ jackLoad_N }) => formatFixed(jackLoad_N, 0)],
  ];
  const groups = points.map(({ mass, cases }) => ({
    title: `Mass ${mass}`,
    rows: values.map(([text, value]) => [
      text,
      ...cases
        .filter(({ model }) => models.includes(model))
        .map(({ trim }) => (trim === null ? "not analysed" : value(trim))),
    ]),
  }));
  return dataTable(`Trim in the carrier's flow, ${name}`, heads, groups);
}

function aloneTable(name: string, { modes }: CarrierAlone) {
  const heads = [
    { text: "Carrier by itself", width: 30 },
    { text: "Plane" },
    { text: "Root (1/s)", numeric: true },
    { text: "Frequency (Hz)", numeric: true },
    { text: "ζ (–)", numeric: true },
  ];
  const rows = modes.map((mode) => [
    mode.name,
    mode.plane,
    formatNumber(mode.real_1_s),
    mode.imag_rad_s > 0 ? formatNumber(mode.frequency_Hz) : "–",
    mode.imag_rad_s > 0 ? formatFixed(mode.dampingRatio, 3) : "–",
  ]);
  return dataTable(`Free modes of the carrier, nothing on its boom, controls fixed, ${name}`, heads, [{ rows }]);
}

function ownTable(name: string, points: readonly CarrierPoint[]) {
  const heads = [
    { text: "Motion", width: 40 },
    { text: "Carrier's share (%)", numeric: true },
    { text: "Root (1/s)", numeric: true },
    { text: "Frequency (Hz)", numeric: true },
    { text: "ζ (–)", numeric: true },
  ];
  const groups = points.map(({ mass, cases }) => ({
    title: `Mass ${mass}, ${cases.at(-1)?.model ?? ""}`,
    rows: (cases.at(-1)?.modes ?? [])
      .filter(({ carrierShare_1 }) => carrierShare_1 > 0.5)
      .map((mode) => [
        `${mode.name}, ${mode.plane}`,
        formatFixed(100 * mode.carrierShare_1, 0),
        formatNumber(mode.real_1_s),
        mode.imag_rad_s > 0 ? formatNumber(mode.frequency_Hz) : "–",
        mode.imag_rad_s > 0 ? formatFixed(mode.dampingRatio, 3) : "–",
      ]),
  }));
  if (groups.every(({ rows }) => rows.length === 0)) return "";
  return dataTable(`Motions that the carrier brings to the hooked pair, ${name}`, heads, groups);
}

/** Standard deviations in turbulence of 1 m/s, by mass and model. */
function spreadTable(where: string, points: readonly CarrierPoint[]): Html | string {
  const heads: Head[] = [
    { text: "Carrier" },
    { text: "Tension", numeric: true },
    { text: "Shear in the swing plane", numeric: true },
    { text: "Pitch against the carrier", numeric: true },
    { text: "Load factor (–)", numeric: true },
  ];
  const groups = points.map(({ mass, gust }) => ({
    title: `Mass state ${mass}`,
    rows: (gust?.curves ?? []).map(({ model, rms }) => [
      model,
      formatQuantity(rms.tension_N, "N"),
      formatQuantity(rms.shear_N, "N"),
      `${formatFixed(rms.relativePitch_deg, 3)}°`,
      formatFixed(rms.loadFactor_1, 4),
    ]),
  }));
  return dataTable(`Spread (1σ) in Dryden turbulence of 1 m/s, ${where}`, heads, groups);
}

/** The carrier's motion, flow and gusts of every variant whose pair describes it. */
export const carrierPages: PartPages = (results, title, counter, dom) => {
  const found = results.filter((result) => (result.parts?.carrier?.points ?? []).length > 0);
  if (found.length === 0) return null;
  const name = title("The carrier in the motion");
  const parts = found.flatMap((result) => {
    const { alone, points } = result.parts!.carrier!;
    return [...new Set(points.map(({ condition }) => condition))].flatMap((condition) => {
      const own = points.filter((point) => point.condition === condition);
      const where = `${result.variant}, condition ${condition}`;
      const id = `carrier-${slug(result.variant)}-${slug(condition)}`;
      const criterion = rigidCriterion(result);
      const damping = carrierDampingFigure(`${id}-damping`, result.variant, own, criterion, dom);
      // one mass tells; the others stand in the result file
      const gust = own.find((point) => (point.gust?.curves.length ?? 0) > 0);
      const response =
        gust === undefined ? null : gustPenetrationFigure(`${id}-gust-${slug(gust.mass)}`, result.variant, gust, dom);
      return [
        ...(damping === null ? [] : [counter.print(damping)]),
        modesTable(where, own),
        trimTable(where, own),
        ...alone.filter((one) => one.condition === condition).map((one) => aloneTable(where, one)),
        ownTable(where, own),
        ...(response === null ? [] : [counter.print(response), spreadTable(where, own)]),
      ];
    });
  });
  return {
    id: "carrier-in-the-motion",
    title: name,
    markup: html`<section id="carrier-in-the-motion"><h2>${name}</h2>
<p>What changes when the carrier is no steady platform: it answers the hook load and gusts as a free mass or as a rigid body with its own airloads, and the air under it is deflected and changes along the stroke. Motions of which the carrier has the larger part are listed and not judged.</p>
${parts}</section>
`,
  };
};

function rigidCriterion(result: HoldDepthResult): number | null {
  const judged = result.findings.find(
    ({ id, criterion }) => id.includes(".carrier.") && criterion?.text.includes("rigid-body"),
  );
  return judged?.criterion?.limit ?? null;
}
