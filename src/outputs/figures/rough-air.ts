/** Figures of rough air: probability by intensity, exits by level, spectra, worst gust. */
import * as Plot from "@observablehq/plot";
import type { RoughAirPoint, RoughAirResult } from "../../studies/hold-rough/types.ts";
import { formatNumber, formatShort } from "../numbers/index.ts";
import { composeFigure, type LegendItem, type Panel } from "./compose.ts";
import { type Axis, type Frame, plotFrame } from "./frame.ts";
import { type CurveStyle, curveStyle, INK, SLATE, WARN } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const MARGINS = { left: 66, right: 16, top: 8, bottom: 46 };
/** Curves in one frame: as many as there are styles. */
const MOST = 6;
const SYMBOLS = 6;

interface Curve {
  readonly label: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly style: CurveStyle;
  readonly width?: number;
}

/** Line with dash, clipped to the frame, and symbols inside it. */
function curveMarks(frame: Frame, { x, y, style, width = 1.8 }: Curve): unknown[] {
  const samples = x.map((at, i) => ({ x: at, y: y[i]! }));
  const inside = samples.filter(
    (p) => p.y >= frame.y.from && p.y <= frame.y.to && p.x >= frame.x.from && p.x <= frame.x.to,
  );
  const stride = Math.max(1, Math.round(inside.length / SYMBOLS));
  const spots = inside.filter((_, i) => i % stride === Math.floor(stride / 2));
  const { stroke, dash, symbol } = style;
  return [
    Plot.line(samples, { x: "x", y: "y", stroke, strokeWidth: width, strokeDasharray: dash, clip: true }),
    Plot.dot(spots, { x: "x", y: "y", symbol, r: 3.6, fill: "white", stroke, strokeWidth: 1.4 }),
  ];
}

function legendOf({ label, style, width = 1.8 }: Curve): LegendItem {
  const { stroke, dash, symbol } = style;
  return { kind: "line", label, stroke, dash, width, symbol, fill: "#ffffff" };
}

function frameOf(width: number, height: number, x: Axis, y: Axis): Frame {
  return { width, height, margins: MARGINS, x, y };
}

function panelOf(
  frame: Frame,
  curves: readonly Curve[],
  marks: readonly unknown[],
  dom: FigureDom,
  heading?: string,
): Panel {
  const svg = plotFrame(frame, [...marks, ...curves.flatMap((curve) => curveMarks(frame, curve))], dom);
  return { svg, width: frame.width, height: frame.height, ...(heading === undefined ? {} : { heading }) };
}

/** The mass of a result with the least σ; that is shown. */
export function governingAir({ points }: RoughAirResult): RoughAirPoint | null {
  const settled = points.filter(({ answer }) => answer !== null);
  if (settled.length === 0) return null;
  return settled.reduce((a, b) => (b.answer!.sigma_m_s < a.answer!.sigma_m_s ? b : a));
}

/** Limited quantities, the one that gives way first in front. */
function deciding(point: RoughAirPoint, most: number) {
  return point.quantities
    .filter(
      ({ limit, largestSigma_m_s, deviationPerSigma }) =>
        limit !== null && largestSigma_m_s !== null && deviationPerSigma > 0,
    )
    .sort((a, b) => a.largestSigma_m_s! - b.largestSigma_m_s!)
    .slice(0, most);
}

const LEAST = 1e-6;

/** Probability that a limit is passed in the time hooked, by intensity, with the named severities. */
export function roughAirFigure(id: string, variant: string, result: RoughAirResult, dom: FigureDom): Figure | null {
  const point = governingAir(result);
  if (point === null) return null;
  const { sigma_m_s: x, any_1, alone_1 } = point.probability;
  const clipped = (values: readonly number[]): number[] => values.map((value) => Math.max(value, LEAST / 10));
  const any: Curve = {
    ...{ label: "any limit", x, y: clipped(any_1), width: 3 },
    style: { stroke: INK, dash: "none", symbol: "diamond" },
  };
  const curves = deciding(point, MOST - 1).map(
    ({ key, title }, i): Curve => ({ label: title, x, y: clipped(alone_1[key]!), style: curveStyle(i) }),
  );
  const frame = frameOf(
    WIDTH,
    360,
    { label: "Intensity of the vertical gusts σ (m/s)", from: x[0]!, to: x.at(-1)!, log: true },
    { label: `Probability in ${formatShort(result.timeHooked_s / 60)} min (–)`, from: LEAST, to: 2, log: true },
  );
  const charted = point.levels.filter(
    ({ origin, sigma_m_s }) => origin === "chart" && sigma_m_s > x[0]! && sigma_m_s < x.at(-1)!,
  );
  const marks = [
    Plot.ruleY([result.probability_1], { stroke: WARN, strokeWidth: 1.6, strokeDasharray: "9 4" }),
    Plot.ruleX(
      [point.answer!.sigma_m_s].filter((sigma) => sigma > x[0]! && sigma < x.at(-1)!),
      { stroke: WARN, strokeWidth: 1.6 },
    ),
    Plot.ruleX(charted, { x: "sigma_m_s", stroke: SLATE, strokeWidth: 1.1, strokeDasharray: "2 3" }),
    Plot.text(charted, {
      ...{ x: "sigma_m_s", y: LEAST, text: "name", rotate: -90, textAnchor: "start", dx: -5, dy: -6 },
      ...{ fill: SLATE, fontSize: 12, stroke: "white", strokeWidth: 3 },
    }),
  ];
  const answer = `${formatNumber(point.answer!.sigma_m_s)} m/s`;
  const limiting = point.quantities.find(({ key }) => key === point.answer!.limiting)!.title.toLowerCase();
  return composeFigure({
    id,
    title: `Probability of passing a limit while hooked, by turbulence, ${variant}`,
    caption: `${point.condition}, mass ${point.mass}: every limit holds with ${formatShort(100 * result.probability_1)} % in ${formatShort(result.timeHooked_s / 60)} min up to σ ${answer}; ${limiting} gives way first. Dotted: severities of the intensity chart at this altitude. ${result.spectrum} of ${result.document}.`,
    description: `Rising curves of probability against turbulence intensity. Largest intensity ${answer}, limited by ${limiting}.`,
    panels: [panelOf(frame, [any, ...curves], marks, dom)],
    legend: [
      legendOf(any),
      ...curves.map(legendOf),
      { kind: "line", label: "accepted probability", stroke: WARN, dash: "9 4", width: 1.6 },
      { kind: "line", label: `largest σ, ${answer}`, stroke: WARN, width: 1.6 },
    ],
  });
}

/** Exits per hour by the share of the way from trim to the limit, in the design turbulence. */
export function exceedanceFigure(id: string, variant: string, result: RoughAirResult, dom: FigureDom): Figure | null {
  const point = governingAir(result);
  if (point === null) return null;
  const { share_1: x, perHour } = point.exceedance;
  const curves = deciding(point, MOST).flatMap(({ key, title }, i): Curve[] => {
    const y = perHour[key];
    return y === undefined
      ? []
      : [{ label: title, x, y: y.map((value) => Math.max(value, 1e-9)), style: curveStyle(i) }];
  });
  const frame = frameOf(
    WIDTH,
    340,
    { label: "Level: share of the way from trim to the limit (–)", from: 0, to: 1.5, log: false },
    { label: "Exits per hour (1/h)", from: 1e-4, to: 1e5, log: true },
  );
  const allowed = (-Math.log1p(-result.probability_1) / result.timeHooked_s) * 3600;
  const marks = [
    Plot.ruleX([1], { stroke: WARN, strokeWidth: 1.6 }),
    Plot.ruleY([allowed], { stroke: WARN, strokeWidth: 1.6, strokeDasharray: "9 4" }),
  ];
  const { name, sigma_m_s } = result.design;
  return composeFigure({
    id,
    title: `How often a level is passed in ${name} turbulence, ${variant}`,
    caption: `${point.condition}, mass ${point.mass}, σ ${formatShort(sigma_m_s)} m/s. A curve that crosses the limit (1) below the dashed line holds with ${formatShort(100 * result.probability_1)} % in ${formatShort(result.timeHooked_s / 60)} min.`,
    description: `Falling curves of exits per hour against level for ${curves.map(({ label }) => label.toLowerCase()).join(", ")}.`,
    panels: [panelOf(frame, curves, marks, dom)],
    legend: [
      ...curves.map(legendOf),
      { kind: "line", label: "limit", stroke: WARN, width: 1.6 },
      { kind: "line", label: "accepted for one quantity alone", stroke: WARN, dash: "9 4", width: 1.6 },
    ],
  });
}

/** Spectra of pitch, bank and tip motion at σ = 1 m/s, one curve for each mass. */
export function motionSpectraFigure(
  id: string,
  variant: string,
  result: RoughAirResult,
  dom: FigureDom,
): Figure | null {
  const condition = governingAir(result)?.condition;
  const points = result.points.filter((one) => one.condition === condition && one.answer !== null).slice(0, MOST);
  const first = points[0];
  if (first === undefined) return null;
  const x = first.spectra.frequency_Hz;
  const parts = [
    ["pitch_deg2_Hz", "Pitch", "deg²/Hz"],
    ["bank_deg2_Hz", "Bank", "deg²/Hz"],
    ["tip_mm2_Hz", "Tip travel in the swing plane", "mm²/Hz"],
  ] as const;
  const styled = points.map((point, i) => ({ point, style: curveStyle(i) }));
  const panels = parts.flatMap(([key, name, unit]): Panel[] => {
    const curves = styled.map(({ point, style }): Curve => ({ label: point.mass, x, y: point.spectra[key], style }));
    const highest = Math.max(...curves.flatMap(({ y }) => [...y]));
    if (!(highest > 0)) return [];
    const top = 10 ** Math.ceil(Math.log10(highest));
    const frame = frameOf(
      WIDTH / parts.length,
      270,
      { label: "Frequency (Hz)", from: 0.01, to: 10, log: true },
      { label: `Spectrum (${unit})`, from: top / 1e6, to: top, log: true },
    );
    return [panelOf(frame, curves, [], dom, name)];
  });
  const peak = (key: (typeof parts)[number][0]): string =>
    formatNumber(x[first.spectra[key].indexOf(Math.max(...first.spectra[key]))]!);
  return composeFigure({
    id,
    title: `Spectra of the motion at σ 1 m/s, ${variant}`,
    caption: `${first.condition}, one-sided, ${result.spectrum} of ${result.document}. Highest, mass ${first.mass}: pitch at ${peak("pitch_deg2_Hz")} Hz, bank at ${peak("bank_deg2_Hz")} Hz, tip at ${peak("tip_mm2_Hz")} Hz.`,
    description: `Spectra of pitch, bank and tip travel against frequency, one curve for each mass: ${points.map(({ mass }) => mass).join(", ")}.`,
    panels,
    columns: parts.length,
    legend: styled.map(({ point, style }) => legendOf({ label: `mass ${point.mass}`, x: [], y: [], style })),
  });
}

/** Share of the room that a 1−cosine gust takes, by its gradient. */
export function gustLengthFigure(id: string, variant: string, result: RoughAirResult, dom: FigureDom): Figure | null {
  const point = governingAir(result);
  const gusts = point?.gusts ?? null;
  if (point === null || gusts === null) return null;
  const rows = gusts.rows
    .filter(({ share_1 }) => share_1 !== null)
    .sort((a, b) => b.share_1! - a.share_1!)
    .slice(0, MOST);
  if (rows.length === 0) return null;
  const titleOf = (key: string): string => point.quantities.find((one) => one.key === key)!.title;
  const curves = rows.map(
    ({ key, direction, share_1, distance, byGradient }, i): Curve => ({
      label: `${titleOf(key)}, ${direction}`,
      x: gusts.gradients_m,
      y: byGradient.map((value) => (value / distance) * share_1!),
      style: curveStyle(i),
    }),
  );
  const highest = Math.max(1, ...rows.map(({ share_1 }) => share_1!));
  const [from, to] = [gusts.gradients_m[0]!, gusts.gradients_m.at(-1)!];
  const frame = frameOf(
    WIDTH,
    320,
    { label: "Gust gradient H (m)", from, to, log: false },
    { label: "Share of the room to the limit (–)", from: 0, to: 1.1 * highest, log: false },
  );
  const worst = rows[0]!;
  return composeFigure({
    id,
    title: `Search for the worst gust length, ${variant}`,
    caption: `${point.condition}, mass ${point.mass}: 1−cosine gusts up, down and sideways, ${formatShort(gusts.reference_m_s_EAS)} m/s EAS at 106.7 m, less when shorter. Worst: ${titleOf(worst.key).toLowerCase()}, ${formatNumber(100 * worst.share_1!)} % of its room at ${formatNumber(worst.gradient_m)} m.`,
    description: `Curves of the share of the room to each limit against gust gradient: ${curves.map(({ label }) => label.toLowerCase()).join("; ")}.`,
    panels: [panelOf(frame, curves, [Plot.ruleY([1], { stroke: WARN, strokeWidth: 1.6 })], dom)],
    legend: [...curves.map(legendOf), { kind: "line", label: "limit", stroke: WARN, width: 1.6 }],
  });
}
