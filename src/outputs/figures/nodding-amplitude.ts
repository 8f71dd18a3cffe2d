/** Figure: amplitude of lasting nodding against the orifice coefficient, by harmonic balance and by simulation. */
import * as Plot from "@observablehq/plot";
import type { AmplitudeCurve } from "../../studies/hold-snubber/types.ts";
import { formatNumber, formatQuantity } from "../numbers/index.ts";
import { ownValue } from "./areas.ts";
import { composeFigure, type LegendItem } from "./compose.ts";
import { type Frame, plotFrame } from "./frame.ts";
import { curveStyle, INK, WARN } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const KILO = 1e-3;
const MILLI = 1e3;

interface Point {
  readonly x: number;
  readonly y: number;
}

function balanced({ C2_N_s2_m2, balance_m }: AmplitudeCurve): Point[] {
  return C2_N_s2_m2.flatMap((c2, i) => {
    const amplitude = balance_m[i];
    return amplitude == null ? [] : [{ x: c2 * KILO, y: amplitude * MILLI }];
  });
}

function simulated({ simulated: points }: AmplitudeCurve): Point[] {
  return points.map(({ C2_N_s2_m2, tipAmplitude_m }) => ({ x: C2_N_s2_m2 * KILO, y: tipAmplitude_m * MILLI }));
}

const nameOf = ({ bleed, bleed_N_s_m }: AmplitudeCurve): string =>
  bleed === "orifice alone" ? bleed : `${bleed}, bleed ${formatQuantity(bleed_N_s_m, "N*s/m")}`;

function sentence(curve: AmplitudeCurve): string {
  const own = simulated(curve).map(({ x, y }) => `±${formatNumber(y)} mm at ${formatNumber(x)} kN·s²/m²`);
  const none = balanced(curve).length === 0;
  return `${nameOf(curve)}: ${none ? "no lasting nodding in this range" : `simulated ${own.join(", ") || "without a bounded end"}`}`;
}

/** Amplitude at the tip on two logarithmic axes: curves by harmonic balance, symbols by simulation of the nonlinear pair. */
export function noddingFigure(
  id: string,
  variant: string,
  curves: readonly AmplitudeCurve[],
  criterion: number | null,
  dom: FigureDom,
): Figure | null {
  const points = curves.flatMap((curve) => [...balanced(curve), ...simulated(curve)]);
  const [first] = curves;
  if (first === undefined || points.length === 0) return null;
  const limit = criterion === null ? [] : [criterion * MILLI];
  const heights = [...points.map(({ y }) => y), ...limit];
  const frame: Frame = {
    width: 760,
    height: 320,
    margins: { left: 66, right: 16, top: 8, bottom: 48 },
    x: {
      ...{ label: "Orifice coefficient C2 at the tip (kN·s²/m²)", log: true },
      from: first.C2_N_s2_m2[0]! * KILO,
      to: first.C2_N_s2_m2.at(-1)! * KILO,
    },
    y: {
      ...{ label: "Amplitude of nodding at the tip (mm)", log: true },
      from: Math.min(...heights) / 1.6,
      to: Math.max(...heights) * 1.6,
    },
  };
  const marks = [
    ...limit.map((at) => Plot.ruleY([at], { stroke: WARN, strokeWidth: 1.6, strokeDasharray: "7 4" })),
    ...ownValue(first.at_N_s2_m2 * KILO, "own orifice", frame),
    ...curves.flatMap((curve, i) => {
      const style = curveStyle(i);
      const shared = { x: "x", y: "y" } as const;
      return [
        Plot.line(balanced(curve), {
          ...{ ...shared, stroke: style.stroke, strokeWidth: 2.2, strokeDasharray: style.dash, clip: true },
        }),
        Plot.dot(simulated(curve), {
          ...{ ...shared, symbol: style.symbol, r: 5.5, fill: "white", stroke: style.stroke, strokeWidth: 2.2 },
        }),
      ];
    }),
  ];
  const legend: LegendItem[] = curves.map((curve, i) => {
    const { stroke, dash, symbol } = curveStyle(i);
    const label = `${nameOf(curve)} (line: balance, symbol: simulated)`;
    return { kind: "line", label, stroke, dash, width: 2.2, symbol, fill: "#ffffff" };
  });
  return composeFigure({
    id,
    title: `Lasting nodding against the orifice (${variant})`,
    caption:
      `Amplitude of lasting nodding at the tip, ${variant}, mass ${first.mass}, oil at its normal temperature. An orifice alone resists small ` +
      `motion with nothing: the amplitude falls with 1/C2 and never to zero. ${curves.map(sentence).join("; ")}.`,
    description: `Amplitude against orifice coefficient on logarithmic axes. ${curves.map(sentence).join("; ")}.`,
    panels: [{ svg: plotFrame(frame, marks, dom), width: frame.width, height: frame.height }],
    legend: [
      ...legend,
      ...(criterion === null
        ? []
        : [{ kind: "line" as const, label: "criterion", stroke: WARN, dash: "7 4", width: 1.6 }]),
      { kind: "line", label: "own orifice", stroke: INK, dash: "2 2.5", width: 1 },
    ],
  });
}
