/** Figure: jack load, transmission ratio and angles, and attitude error along the stroke. */
import * as Plot from "@observablehq/plot";
import type { Finding } from "../../studies/finding/types.ts";
import type { FitResult, JackLoad, StrokePoint } from "../../studies/fit/types.ts";
import { formatFixed, formatShort } from "../numbers/index.ts";
import { composeFigure, type LegendItem, type Panel } from "./compose.ts";
import { type Frame, padded, plotFrame } from "./frame.ts";
import { type EndLabel, endLabels } from "./labels.ts";
import { type CurveStyle, curveStyle, INK, WARN } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const MARGINS = { left: 66, right: 216, top: 6 };
const KILO = 1e-3;

interface Curve {
  readonly name: string;
  readonly values: readonly (number | null)[];
}

interface Rule {
  readonly text: string;
  readonly value: number;
}

interface Chart {
  readonly label: string;
  readonly curves: readonly Curve[];
  readonly rules: readonly Rule[];
  readonly height: number;
  /** Values that the frame must hold besides those of the curves. */
  readonly holds: readonly number[];
}

export function loadName({ mass, weightShare_1 }: Pick<JackLoad, "mass" | "weightShare_1">): string {
  return `${mass}, ${formatShort(100 * weightShare_1)} % of the weight`;
}

/** Criterion of the first finding whose id and unit fit; null when there is none. */
export function criterionOf(findings: readonly Finding[], id: RegExp, unit: string): Rule | null {
  const found = findings.find((one) => one.criterion !== undefined && one.unit === unit && id.test(one.id));
  return found?.criterion === undefined ? null : { text: found.criterion.text, value: found.criterion.limit };
}

function loadCurves(stroke: readonly StrokePoint[]): Curve[] {
  const names = [...new Set(stroke.flatMap(({ jackLoads }) => jackLoads.map(loadName)))];
  return names.map((name) => ({
    name,
    values: stroke.map(({ jackLoads }) => {
      const load = jackLoads.find((one) => loadName(one) === name)?.load_N;
      return load === undefined || load === null ? null : load * KILO;
    }),
  }));
}

function chartsOf({ stroke, findings }: FitResult): Chart[] {
  const capacity = criterionOf(findings, /jack/i, "N");
  const angle = criterionOf(findings, /transmission/i, "deg");
  const loads = loadCurves(stroke);
  // the capacity counts whichever way the jack is loaded: it is drawn on the side where the loads are
  const pulls = loads.some(({ values }) => values.some((value) => (value ?? 0) < 0));
  const pushes = loads.some(({ values }) => values.some((value) => (value ?? 0) > 0));
  const sides = [...(pulls ? [-1] : []), ...(pushes || !pulls ? [1] : [])];
  const limits =
    capacity === null
      ? []
      : sides.map((sign) => ({
          text: `capacity ${formatShort(capacity.value * KILO)} kN`,
          value: sign * capacity.value * KILO,
        }));
  const coupled = stroke.some((point) => point.couplerTransmissionAngle_deg !== null);
  const erring = stroke.some((point) => point.attitudeError_deg !== null);
  const charts: Chart[] = [
    { label: "Jack load (kN)", curves: loads, rules: limits, height: 190, holds: [0] },
    {
      label: "Tip per jack (–)",
      curves: [{ name: "tip travel per jack travel", values: stroke.map((point) => point.tipPerJack_1) }],
      rules: [],
      height: 120,
      holds: [],
    },
    {
      label: "Transm. angle (deg)",
      curves: [
        { name: "jack on boom", values: stroke.map((point) => point.jackTransmissionAngle_deg) },
        ...(coupled
          ? [{ name: "aircraft on yoke", values: stroke.map((point) => point.couplerTransmissionAngle_deg) }]
          : []),
      ],
      rules: angle === null ? [] : [{ text: `criterion ${formatShort(angle.value)}°`, value: angle.value }],
      height: 140,
      holds: [0],
    },
    {
      label: "Pitch error (deg)",
      curves: [
        { name: "worst case", values: stroke.map((point) => point.attitudeError_deg?.worst ?? null) },
        { name: "root sum square", values: stroke.map((point) => point.attitudeError_deg?.rss ?? null) },
      ],
      rules: [],
      height: 130,
      holds: [0],
    },
  ];
  return charts.filter(({ curves }, i) => (i === 3 ? erring : curves.length > 0));
}

function lastOf(curve: Curve, angles: readonly number[]): { readonly x: number; readonly y: number } | null {
  for (let i = curve.values.length - 1; i >= 0; i--) {
    const value = curve.values[i];
    if (value !== null && value !== undefined) return { x: angles[i]!, y: value };
  }
  return null;
}

function panel(chart: Chart, angles: readonly number[], last: boolean, dom: FigureDom): Panel {
  const values = chart.curves.flatMap((curve) => curve.values.filter((value) => value !== null));
  const [from, to] = padded([...values, ...chart.holds, ...chart.rules.map(({ value }) => value)], 0.08);
  const bottom = last ? 46 : 10;
  const height = MARGINS.top + chart.height + bottom;
  const frame: Frame = {
    width: WIDTH,
    height,
    margins: { ...MARGINS, bottom },
    x: {
      label: last ? "Boom angle below horizontal (deg), stowed → extended" : "",
      from: Math.min(...angles),
      to: Math.max(...angles),
      log: false,
      ...(last ? {} : { format: () => "" }),
    },
    y: { label: chart.label, from, to, log: false },
  };
  const styles: CurveStyle[] = chart.curves.map((_, i) => curveStyle(i));
  const ends = chart.curves.flatMap((curve, i): EndLabel[] => {
    const end = lastOf(curve, angles);
    return end === null ? [] : [{ text: curve.name, ...end, color: styles[i]!.stroke }];
  });
  const rules = chart.rules.map(({ text, value }): EndLabel => ({ text, x: frame.x.to, y: value, color: WARN }));
  const marks = [
    ...(from < 0 && to > 0 ? [Plot.ruleY([0], { stroke: INK, strokeWidth: 0.7 })] : []),
    ...chart.rules.map(({ value }) => Plot.ruleY([value], { stroke: WARN, strokeWidth: 1.6, strokeDasharray: "9 4" })),
    ...chart.curves.flatMap((curve, i) => {
      const points = curve.values.map((y, k) => ({ x: angles[k]!, y }));
      const { stroke, dash, symbol } = styles[i]!;
      const stride = Math.max(1, Math.round(points.length / 6));
      const dots = points.filter(({ y }, k) => y !== null && k % stride === Math.floor(stride / 2));
      return [
        Plot.line(points, { x: "x", y: "y", stroke, strokeWidth: 2, strokeDasharray: dash }),
        Plot.dot(dots, { x: "x", y: "y", symbol, r: 3.6, fill: "white", stroke, strokeWidth: 1.4 }),
      ];
    }),
    ...endLabels(frame, [...ends, ...rules]),
  ];
  return { svg: plotFrame(frame, marks, dom), width: WIDTH, height };
}

/** Greatest load of any case, whichever way it acts; null without loads. */
export function greatestLoad(stroke: readonly StrokePoint[]): (JackLoad & { readonly boomAngle_deg: number }) | null {
  let best: (JackLoad & { readonly boomAngle_deg: number }) | null = null;
  for (const { jackLoads, boomAngle_deg } of stroke) {
    for (const one of jackLoads) {
      if (one.load_N === null) continue;
      if (best?.load_N == null || Math.abs(one.load_N) > Math.abs(best.load_N)) best = { ...one, boomAngle_deg };
    }
  }
  return best;
}

/** Jack load by case, tip travel per jack travel, transmission angles and attitude error, one panel under the other. */
export function jackFigure(id: string, result: FitResult, dom: FigureDom): Figure | null {
  const { stroke, variant } = result;
  if (stroke.length < 2) return null;
  const angles = stroke.map((point) => point.boomAngle_deg);
  const charts = chartsOf(result);
  const greatest = greatestLoad(stroke);
  const load =
    greatest?.load_N == null
      ? ""
      : ` Greatest load ${formatFixed(greatest.load_N * KILO, 1)} kN at ${formatFixed(greatest.boomAngle_deg, 1)}° (${loadName(greatest)}).`;
  const ruled = charts.some(({ rules }) => rules.length > 0);
  const legend: LegendItem[] = ruled
    ? [{ kind: "line", label: "capacity or criterion", stroke: WARN, dash: "9 4", width: 1.6 }]
    : [];
  return composeFigure({
    id,
    title: `Jack load and transmission along the stroke (${variant})`,
    caption:
      `Positive jack load pushes the jack's ends apart, negative pulls them together. A tip ratio that grows without bound marks a dead point of the jack. ` +
      `The pitch error of the carried aircraft comes from the tolerances of the mechanism.${load}`,
    description: `Panels against boom angle: ${charts.map((chart) => `${chart.label}: ${chart.curves.map(({ name }) => name).join(", ")}`).join("; ")}.${load}`,
    panels: charts.map((chart, i) => panel(chart, angles, i === charts.length - 1, dom)),
    legend,
  });
}
