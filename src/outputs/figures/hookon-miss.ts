/** Figure: where the head of the probe passes the plane of the mouth, with the circle that captures. */
import * as Plot from "@observablehq/plot";
import type { HookonCase, HookonResult, MissDistribution } from "../../studies/hookon/types.ts";
import { caseWords } from "../names/index.ts";
import { formatFixed } from "../numbers/index.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Frame, plotFrame, ticksOf } from "./frame.ts";
import { inOrder, OUTCOME_LOOKS, symbolLegend } from "./hookon-marks.ts";
import { INK, SLATE } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const SIZE = 253;
const MARGINS = { left: 58, right: 6, top: 6, bottom: 44 };
const TURN = 60;
/** Passages of the mouth from which a case is drawn. */
const FEWEST = 8;
/** Panels drawn: three in a row. */
const MOST = 6;

function circle(radius: number): { x: number; y: number }[] {
  return Array.from({ length: TURN + 1 }, (_, i) => {
    const angle = (2 * Math.PI * i) / TURN;
    return { x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
  });
}

/** Ellipse that holds 95 % of normal scatter with the moments of the case [mm]. */
function ellipse(miss: MissDistribution): { x: number; y: number }[] {
  const { sigmaRight_m: a, sigmaDown_m: b, correlation_1: c } = miss;
  const k = 1000 * Math.sqrt(-2 * Math.log(0.05));
  return circle(1).map(({ x, y }) => ({
    x: 1000 * miss.meanRight_m + k * a * x,
    y: 1000 * miss.meanDown_m + k * b * (c * x + Math.sqrt(Math.max(0, 1 - c * c)) * y),
  }));
}

function panel(each: HookonCase, reach: number, dom: FigureDom): Panel {
  const miss = each.miss!;
  const spots = each.shown.flatMap(({ missRight_m, missDown_m, outcome }) =>
    missRight_m === null || missDown_m === null ? [] : [{ x: 1000 * missRight_m, y: 1000 * missDown_m, outcome }],
  );
  const ticks = ticksOf({ label: "", from: -reach, to: reach, log: false }, 4);
  const frame: Frame = {
    ...{ width: SIZE, height: SIZE + MARGINS.top + MARGINS.bottom - MARGINS.left - MARGINS.right, margins: MARGINS },
    x: { label: "Right of the mouth (mm)", from: -reach, to: reach, log: false, ticks },
    y: { label: "Below the mouth (mm)", from: reach, to: -reach, log: false, ticks },
  };
  const inside = spots.filter(({ x, y }) => Math.abs(x) <= reach && Math.abs(y) <= reach);
  const marks = [
    Plot.ruleX([0], { stroke: SLATE, strokeWidth: 0.5 }),
    Plot.ruleY([0], { stroke: SLATE, strokeWidth: 0.5 }),
    ...inOrder(inside.map(({ outcome }) => outcome)).map((outcome) => {
      const { symbol, fill, stroke } = OUTCOME_LOOKS[outcome];
      const own = inside.filter((spot) => spot.outcome === outcome);
      return Plot.dot(own, { x: "x", y: "y", symbol, r: 2.4, fill, stroke, strokeWidth: 1 });
    }),
    Plot.line(circle(1000 * miss.captureRadius_m), { x: "x", y: "y", stroke: INK, strokeWidth: 2.2, clip: true }),
    Plot.line(ellipse(miss), { x: "x", y: "y", stroke: SLATE, strokeWidth: 1.4, strokeDasharray: "5 3", clip: true }),
  ];
  return { svg: plotFrame(frame, marks, dom), width: SIZE, height: frame.height, heading: caseWords(each) };
}

/** Scatter in the plane of the mouth, a panel for each case, one scale for all. */
export function missFigure(id: string, result: HookonResult, dom: FigureDom): Figure | null {
  const drawn = result.cases.filter(({ miss }) => miss !== null && miss.count >= FEWEST).slice(0, MOST);
  if (drawn.length === 0) return null;
  const reach =
    1050 *
    Math.max(
      ...drawn.map(({ miss }) =>
        Math.max(1.3 * miss!.captureRadius_m, Math.min(miss!.radius_m.p95, 2 * miss!.captureRadius_m)),
      ),
    );
  const outcomes = inOrder(drawn.flatMap(({ shown }) => shown.map(({ outcome }) => outcome)));
  const said = drawn
    .map((each) => {
      const { inside_1, normal_1 } = each.miss!;
      return `${caseWords(each)}: ${formatFixed(100 * inside_1, 1)} % inside, normal scatter ${formatFixed(100 * normal_1, 1)} %`;
    })
    .join("; ");
  return composeFigure({
    id,
    title: `Where the probe passes the plane of the mouth (${result.variant})`,
    caption: `Seen in flight direction; full circle: largest distance at which the head still enters; dashed: holds 95 % of normal scatter with the same moments. Points further out than the frame are left out. ${said}.`,
    description: `Scatter of the probe in the plane of the mouth, ${drawn.length} panels. ${said}.`,
    panels: drawn.map((each) => panel(each, reach, dom)),
    columns: 3,
    legend: [
      ...symbolLegend(outcomes),
      { kind: "line", label: "captures", stroke: INK, width: 2.2 },
      { kind: "line", label: "95 %", stroke: SLATE, dash: "5 3", width: 1.4 },
    ],
  });
}
