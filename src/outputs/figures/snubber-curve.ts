/** Figure: least damping ratio against snubber rate, all variants in one picture. */
import * as Plot from "@observablehq/plot";
import type { HoldResult, SnubberCurve } from "../../studies/hold/types.ts";
import { formatFixed, formatQuantity } from "../numbers/index.ts";
import { criterionLegend, dampingGround, unstableLegend, unstablePattern } from "./areas.ts";
import { composeFigure, type LegendItem, type Panel } from "./compose.ts";
import { type Axis, type Frame, padded, plotFrame, toPixelX } from "./frame.ts";
import { type CurveStyle, curveStyle, INK } from "./style.ts";
import { interpolate } from "./sweep-tracks.ts";
import { fitText } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const KILO = 1e-3;

interface Entry {
  readonly variant: string;
  readonly curve: SnubberCurve;
  readonly style: CurveStyle;
}

function entriesOf(results: readonly HoldResult[]): Entry[] {
  return results.flatMap(({ variant, snubber }, i) =>
    snubber.map((curve) => ({ variant, curve, style: curveStyle(i) })),
  );
}

/** Damping ratio of the curve at the pair's own rate, read on a logarithmic rate axis; null outside the curve. */
function dampingAtOwn({ rate_N_s_m, worstDampingRatio, at_N_s_m }: SnubberCurve): number | null {
  return at_N_s_m > 0 ? interpolate(rate_N_s_m.map(Math.log), worstDampingRatio, Math.log(at_N_s_m)) : null;
}

function entryMarks(entry: Entry, frame: Frame): unknown[] {
  const { curve, style } = entry;
  const points = curve.rate_N_s_m.map((rate, i) => ({ x: rate * KILO, y: curve.worstDampingRatio[i]! }));
  const best = { x: curve.optimum.rate_N_s_m * KILO, y: curve.optimum.dampingRatio };
  const own = dampingAtOwn(curve);
  const shared = { x: "x", y: "y", stroke: style.stroke, strokeWidth: 1.8 } as const;
  const right = toPixelX(frame, best.x) > frame.width - 150;
  return [
    Plot.line(points, { ...shared, strokeWidth: 2.2, strokeDasharray: style.dash, clip: true }),
    Plot.dot([best], { ...shared, symbol: "triangle", r: 5.5, fill: style.stroke, stroke: "white", strokeWidth: 1.2 }),
    Plot.text([best], {
      x: "x",
      y: "y",
      text: () => `best ζ ${formatFixed(best.y, 3)}`,
      dy: -15,
      dx: right ? 8 : 0,
      textAnchor: right ? "end" : "middle",
      fill: style.stroke,
      fontWeight: 700,
      stroke: "white",
      strokeWidth: 4,
    }),
    ...(own === null
      ? []
      : [
          Plot.dot([{ x: curve.at_N_s_m * KILO, y: own }], {
            ...shared,
            symbol: style.symbol,
            r: 5,
            fill: "white",
            strokeWidth: 2.2,
          }),
        ]),
  ];
}

function panel(
  id: string,
  mass: string,
  entries: readonly Entry[],
  frame: Frame,
  criterion: number | null,
  dom: FigureDom,
): Panel {
  const own = entries.filter((entry) => entry.curve.mass === mass);
  const marks = [...dampingGround(id, frame, criterion), ...own.flatMap((entry) => entryMarks(entry, frame))];
  const { width, height } = frame;
  return {
    svg: plotFrame(frame, marks, dom),
    width,
    height,
    heading: mass === "all masses" ? "All masses" : `Mass ${fitText(mass, 300)}`,
  };
}

function sentence({ variant, curve }: Entry): string {
  const best = `${formatFixed(curve.optimum.dampingRatio, 3)} at ${formatQuantity(curve.optimum.rate_N_s_m, "N*s/m")}`;
  const own = dampingAtOwn(curve);
  const now = own === null ? "" : ` (own rate ${formatQuantity(curve.at_N_s_m, "N*s/m")}: ${formatFixed(own, 3)})`;
  return `${variant}, ${curve.mass}: best ζ ${best}${now}`;
}

/** Entries named in the caption: those over all masses where there are such, else every one. */
function spoken(entries: readonly Entry[]): Entry[] {
  const together = entries.filter(({ curve }) => curve.mass === "all masses");
  return together.length > 0 ? together : [...entries];
}

/** Axes that all panels share, so that they can be compared by eye. */
function axesOf(entries: readonly Entry[], criterion: number | null): { readonly x: Axis; readonly y: Axis } {
  const rates = entries.flatMap(({ curve }) => curve.rate_N_s_m);
  const ratios = entries.flatMap(({ curve }) => [...curve.worstDampingRatio, curve.optimum.dampingRatio]);
  const [from, to] = padded([0, ...(criterion === null ? [] : [criterion]), ...ratios], 0.06);
  return {
    x: {
      label: "Snubber rate at the tip (kN·s/m)",
      from: Math.min(...rates) * KILO,
      to: Math.max(...rates) * KILO,
      log: true,
    },
    y: { label: "Least damping ratio ζ (–)", from, to: to + 0.2 * (to - from), log: false },
  };
}

/**
 * Least damping ratio over the speed band against the snubber rate: one curve for each variant, one panel for each mass,
 * the best rate and the pair's own marked.
 */
export function snubberFigure(
  id: string,
  results: readonly HoldResult[],
  criterion: number | null,
  dom: FigureDom,
): Figure | null {
  const entries = entriesOf(results);
  if (entries.length === 0) return null;
  const masses = [...new Set(entries.map(({ curve }) => curve.mass))];
  const columns = masses.length === 1 ? 1 : 2;
  const frame: Frame = {
    width: 760 / columns,
    height: columns === 1 ? 330 : masses.length > 2 ? 232 : 272,
    margins: { left: 62, right: 14, top: 6, bottom: 46 },
    ...axesOf(entries, criterion),
  };
  const variants: LegendItem[] = results.map(({ variant }, i) => {
    const { stroke, dash, symbol } = curveStyle(i);
    return {
      kind: "line",
      label: `${fitText(variant, 150)} (symbol: own rate)`,
      stroke,
      dash,
      width: 2.2,
      symbol,
      fill: "#ffffff",
    };
  });
  return composeFigure({
    id,
    title: "Least damping ratio over the speed band against snubber rate",
    caption:
      `Least damping ratio ζ of the oscillatory rigid-body-type modes over the declared speed band. The boom's bending lies in series ` +
      `with the snubber: too little does nothing, too much locks the snubber and leaves the boom to spring. ${spoken(entries).map(sentence).join("; ")}.`,
    description: `Curves on a logarithmic rate axis, one panel for each mass. ${entries.map(sentence).join("; ")}.`,
    panels: masses.map((mass) => panel(id, mass, entries, frame, criterion, dom)),
    legend: [
      ...variants,
      { kind: "symbol", label: "best rate", symbol: "triangle", fill: INK, stroke: INK },
      ...(criterion === null ? [] : [criterionLegend(criterion)]),
      unstableLegend(id),
    ],
    columns,
    defs: unstablePattern(id),
  });
}
