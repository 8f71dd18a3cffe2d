/** Figures of the part `certainty`: distribution with the limit, drivers, what each ground test would buy. */
import * as Plot from "@observablehq/plot";
import type { ConditionCertainty, PlaneCertainty } from "../../studies/hold-certainty/types.ts";
import { shortPath } from "../names/index.ts";
import { formatFixed } from "../numbers/index.ts";
import { composeFigure, type LegendItem, type Panel } from "./compose.ts";
import { type Axis, type Frame, plotFrame } from "./frame.ts";
import { areaStyle, INK, pattern, SLATE, WARN } from "./style.ts";
import { capitalise, fitText } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const ROW = 24;
const BAR_MARGINS = { left: 250, right: 136, top: 6, bottom: 46 };
/** Bars drawn in a panel; smaller ones are in the result file. */
const MOST = 8;
/** Bars shorter than this are not drawn. */
const LEAST = 0.005;

const percent = (share: number, digits = 0): string => `${formatFixed(100 * share, digits)} %`;

/** All figures of one condition of one variant. */
export function certaintyFigures(id: string, variant: string, certainty: ConditionCertainty, dom: FigureDom): Figure[] {
  if (certainty.planes.length === 0) return [];
  const bars = [driverFigure, testFigure].map((draw, i) =>
    draw(`${id}-${i === 0 ? "drivers" : "tests"}`, variant, certainty, dom),
  );
  return [
    distributionFigure(`${id}-distribution`, variant, certainty, dom),
    ...bars.filter((figure) => figure !== null),
  ];
}

interface Bin {
  readonly x1: number;
  readonly x2: number;
  readonly y: number;
}

/** Bins cut at the criterion, so that what fails has its own hatch. */
function binsOf({ histogram, samples, criterion_1 }: PlaneCertainty): { below: Bin[]; above: Bin[] } {
  const { from_1, width_1, counts } = histogram;
  const below: Bin[] = [];
  const above: Bin[] = [];
  counts.forEach((count, i) => {
    const x1 = from_1 + i * width_1;
    const x2 = x1 + width_1;
    const y = (100 * count) / samples;
    if (y === 0) return;
    if (x1 < criterion_1) below.push({ x1, x2: Math.min(x2, criterion_1), y });
    if (x2 > criterion_1) above.push({ x1: Math.max(x1, criterion_1), x2, y });
  });
  return { below, above };
}

function distributionPanel(id: string, plane: PlaneCertainty, dom: FigureDom): Panel {
  const { below, above } = binsOf(plane);
  const { from_1, width_1, counts } = plane.histogram;
  const ends = [
    from_1,
    from_1 + width_1 * counts.length,
    plane.criterion_1,
    plane.lowerBound_1,
    plane.nominal_1 ?? plane.mean_1,
  ];
  const low = Math.min(...ends);
  const high = Math.max(...ends);
  const top = Math.max(...below.map((bin) => bin.y), ...above.map((bin) => bin.y));
  const frame: Frame = {
    width: WIDTH / 2,
    height: 262,
    margins: { left: 54, right: 14, top: 8, bottom: 46 },
    x: {
      label: "Worst damping ratio ζ (–)",
      from: low - 0.04 * (high - low),
      to: high + 0.04 * (high - low),
      log: false,
    },
    y: { label: "Share of the samples (%)", from: 0, to: 1.25 * top, log: false },
  };
  const rect = (data: Bin[], fill: string) =>
    Plot.rect(data, { x1: "x1", x2: "x2", y1: 0, y2: "y", fill: `url(#${fill})`, stroke: SLATE, strokeWidth: 0.6 });
  const line = (x: number, stroke: string, width: number, dash: string) =>
    Plot.ruleX([x], { stroke, strokeWidth: width, ...(dash === "" ? {} : { strokeDasharray: dash }) });
  const marks = [
    rect(above, `${id}-met`),
    rect(below, `${id}-missed`),
    line(plane.criterion_1, WARN, 2.4, ""),
    line(plane.lowerBound_1, INK, 1.6, "6 4"),
    ...(plane.nominal_1 === null ? [] : [line(plane.nominal_1, INK, 1.6, "2 3")]),
  ];
  return {
    svg: plotFrame(frame, marks, dom),
    width: frame.width,
    height: frame.height,
    heading: `${capitalise(plane.plane)}: ${percent(plane.failing.probability_1, 1)} miss the criterion`,
  };
}

function distributionWords(plane: PlaneCertainty): string {
  const { failing } = plane;
  return `${plane.plane}: mean ${formatFixed(plane.mean_1, 4)}, standard deviation ${formatFixed(plane.standardDeviation_1, 4)}, criterion missed by ${failing.count} of ${failing.of} samples (${percent(failing.lower_1, 1)} to ${percent(failing.upper_1, 1)})`;
}

function distributionFigure(id: string, variant: string, certainty: ConditionCertainty, dom: FigureDom): Figure {
  const { planes, condition, samples, method, values } = certainty;
  const words = planes.map(distributionWords).join("; ");
  const area = (label: string, fill: string): LegendItem => ({
    kind: "area",
    label,
    fill: `url(#${fill})`,
    stroke: SLATE,
  });
  return composeFigure({
    id,
    title: `Worst damping ratio of all masses under the uncertainty of the pair, ${condition} (${variant})`,
    caption:
      `${samples} samples (${method}) of ${values.length} uncertain values, each with the trim and all modes of every mass. ` +
      `The interval holds with ${percent(certainty.confidence_1)} confidence. ${capitalise(words)}.`,
    description: `Histograms of the worst damping ratio, one panel for each plane, with the criterion as a line. ${words}.`,
    panels: planes.map((plane) => distributionPanel(id, plane, dom)),
    legend: [
      area("meets the criterion", `${id}-met`),
      area("misses it", `${id}-missed`),
      { kind: "line", label: "criterion", stroke: WARN, width: 2.4 },
      { kind: "line", label: "nominal", stroke: INK, width: 1.6, dash: "2 3" },
      { kind: "line", label: "exceeded by 95 %", stroke: INK, width: 1.6, dash: "6 4" },
    ],
    columns: 2,
    defs: pattern(`${id}-met`, "none", areaStyle(0).tint) + pattern(`${id}-missed`, "rising", areaStyle(1).tint),
  });
}

interface Bar {
  readonly name: string;
  readonly value: number;
  /** Half of the interval drawn about the end of the bar. */
  readonly error: number;
  /** Second value, drawn as a diamond. */
  readonly mark: number | null;
  readonly text: string;
}

function barPanel(id: string, heading: string, label: string, rows: readonly Bar[], dom: FigureDom): Panel {
  const largest = Math.max(0.01, ...rows.map(({ value, error, mark }) => Math.max(value + error, mark ?? 0)));
  const y: Axis = {
    label: "",
    from: rows.length - 0.5,
    to: -0.5,
    log: false,
    ticks: rows.map((_, i) => i),
    format: (i) => fitText(rows[i]?.name ?? "", BAR_MARGINS.left - 24),
  };
  const frame: Frame = {
    width: WIDTH,
    height: ROW * rows.length + BAR_MARGINS.top + BAR_MARGINS.bottom,
    margins: BAR_MARGINS,
    x: { label, from: 0, to: 104 * largest, log: false },
    y,
  };
  const data = rows.map(({ value, error, text }, i) => ({
    ...{ i, text, end: frame.x.to, x1: 0, x2: 100 * Math.max(0, value), y1: i - 0.34, y2: i + 0.34 },
    low: 100 * Math.max(0, value - error),
    high: 100 * (value + error),
  }));
  const dots = rows.flatMap(({ mark }, i) => (mark === null ? [] : [{ x: 100 * mark, y: i }]));
  const marks = [
    Plot.rect(data, {
      x1: "x1",
      x2: "x2",
      y1: "y1",
      y2: "y2",
      fill: `url(#${id}-bar)`,
      stroke: SLATE,
      strokeWidth: 0.8,
    }),
    Plot.link(
      data.filter(({ low, high }) => high > low),
      { x1: "low", x2: "high", y1: "i", y2: "i", stroke: INK, strokeWidth: 1.6 },
    ),
    Plot.dot(dots, { x: "x", y: "y", symbol: "diamond", r: 4.6, fill: "white", stroke: INK, strokeWidth: 1.6 }),
    Plot.text(data, { x: "end", y: "i", text: "text", textAnchor: "start", dx: 8, fill: INK, fontSize: 11.5 }),
  ];
  return { svg: plotFrame(frame, marks, dom), width: WIDTH, height: frame.height, heading };
}

/** Bars of one kind for both planes; `null` when no bar is long enough to see. */
function barFigure(
  id: string,
  certainty: ConditionCertainty,
  label: string,
  rowsOf: (plane: PlaneCertainty) => Bar[],
  words: { readonly title: string; readonly caption: string; readonly legend: readonly LegendItem[] },
  dom: FigureDom,
): Figure | null {
  const shown = certainty.planes
    .map((plane) => ({
      plane,
      rows: rowsOf(plane)
        .filter(({ value }) => value >= LEAST)
        .slice(0, MOST),
    }))
    .filter(({ rows }) => rows.length > 0);
  if (shown.length === 0) return null;
  const { tint, hatch } = areaStyle(1);
  const told = shown
    .map(
      ({ plane, rows }) => `${plane.plane}: ${rows.map(({ name, value }) => `${name} ${percent(value)}`).join(", ")}`,
    )
    .join("; ");
  return composeFigure({
    id,
    title: words.title,
    caption: `${words.caption} Bars below ${percent(LEAST, 1)} are not drawn.`,
    description: `Bars, longest first. ${told}.`,
    panels: shown.map(({ plane, rows }) => barPanel(id, capitalise(plane.plane), label, rows, dom)),
    legend: words.legend,
    defs: pattern(`${id}-bar`, hatch, tint, "#39404a", 0.4),
  });
}

function driverFigure(id: string, variant: string, certainty: ConditionCertainty, dom: FigureDom): Figure | null {
  const rowsOf = ({ drivers }: PlaneCertainty): Bar[] =>
    drivers.map(({ paths, total_1, totalError_1, linear_1 }) => ({
      name: paths.map(shortPath).join(", "),
      value: total_1,
      error: totalError_1,
      mark: linear_1,
      text: `${percent(total_1)} ± ${percent(totalError_1)}`,
    }));
  const pairs = certainty.planes[0]!.driverPairs;
  return barFigure(
    id,
    certainty,
    "Share of the variance of the worst damping ratio (%)",
    rowsOf,
    {
      title: `What makes the damping uncertain, ${certainty.condition} (${variant})`,
      caption:
        `Share of each value, with all that it does together with others, in the variance of the worst damping ratio: bar and one standard deviation of the ` +
        `estimate from ${pairs} pairs of points. Diamond: share by the slopes of the nominal worst root, from its left and right eigenvectors; it knows the mass state ` +
        `of that root only. Correlated values share one bar.`,
      legend: [
        { kind: "area", label: "variance share, all effects", fill: `url(#${id}-bar)`, stroke: SLATE },
        { kind: "line", label: "one standard deviation", stroke: INK, width: 1.6 },
        { kind: "symbol", label: "linear, by eigenvectors", symbol: "diamond", fill: "#ffffff", stroke: INK },
      ],
    },
    dom,
  );
}

function testFigure(id: string, variant: string, certainty: ConditionCertainty, dom: FigureDom): Figure | null {
  const rowsOf = ({ tests }: PlaneCertainty): Bar[] =>
    tests.map(({ test, varianceBought_1, decides_1 }) => ({
      ...{ name: test, value: varianceBought_1, error: 0, mark: decides_1 },
      text: `${percent(varianceBought_1)}, decides ${percent(decides_1)}`,
    }));
  return barFigure(
    id,
    certainty,
    "Variance taken away; chance that the test decides (%)",
    rowsOf,
    {
      title: `Which ground test would buy the most certainty, ${certainty.condition} (${variant})`,
      caption:
        `Share of the variance of the worst damping ratio that each test would take away, with the accuracy that the pair assumes for it. Diamond: chance that after this test alone ` +
        `the criterion is known to be met, or known to be missed, with ${percent(certainty.confidence_1)} confidence.`,
      legend: [
        { kind: "area", label: "variance taken away", fill: `url(#${id}-bar)`, stroke: SLATE },
        { kind: "symbol", label: "chance that it decides", symbol: "diamond", fill: "#ffffff", stroke: INK },
      ],
    },
    dom,
  );
}
