/** Figure: least distance in a breakaway against the time of reaction. */
import * as Plot from "@observablehq/plot";
import type { BreakawayCurve } from "../../studies/hookon/types.ts";
import { formatFixed } from "../numbers/index.ts";
import { composeFigure } from "./compose.ts";
import { type Frame, padded, plotFrame } from "./frame.ts";
import { curveStyle, INK, WARN } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;

export function breakawayFigure(
  id: string,
  variant: string,
  curve: BreakawayCurve | null,
  criterion: number | null,
  dom: FigureDom,
): Figure | null {
  if (curve === null || curve.points.length === 0) return null;
  const [least, over] = [curveStyle(0), curveStyle(1)];
  const lines = [
    { style: least, at: curve.points.map(({ reaction_s, distance_m }) => ({ x: reaction_s, y: distance_m })) },
    { style: over, at: curve.points.map(({ reaction_s, overrun_m }) => ({ x: reaction_s, y: overrun_m })) },
  ];
  const [from, to] = padded([0, criterion ?? 0, ...lines.flatMap(({ at }) => at.map(({ y }) => y))], 0.08);
  const frame: Frame = {
    ...{ width: WIDTH, height: 230, margins: { left: 62, right: 20, top: 8, bottom: 46 } },
    x: {
      label: "Time of reaction, call to controls (s)",
      from: 0,
      to: 1.05 * curve.points.at(-1)!.reaction_s,
      log: false,
    },
    y: { label: "Distance (m)", from, to, log: false },
  };
  const marks = [
    Plot.ruleY([0], { stroke: INK, strokeWidth: 0.6 }),
    Plot.ruleY(criterion === null ? [] : [criterion], { stroke: WARN, strokeWidth: 1.6, strokeDasharray: "8 4" }),
    ...lines.flatMap(({ style: { stroke, dash, symbol }, at }) => [
      Plot.line(at, { x: "x", y: "y", stroke, strokeWidth: 2, strokeDasharray: dash }),
      Plot.dot(at, { x: "x", y: "y", symbol, r: 4.4, fill: "white", stroke, strokeWidth: 1.8 }),
    ]),
  ];
  const ends = [curve.points[0]!, curve.points.at(-1)!];
  const said = ends.map((p) => `${formatFixed(p.reaction_s, 1)} s: ${formatFixed(p.distance_m, 2)} m`).join(", ");
  const name = ["least distance from the boom", "overrun past the mouth"];
  return composeFigure({
    id,
    title: `Breakaway: least distance by time of reaction (${variant})`,
    caption: `Called at ${formatFixed(curve.at_m, 1)} m with a closure of ${formatFixed(curve.closure_m_s, 1)} m/s, still air; the carried aircraft goes down, the carrier flies on level. Least distance of the probe's head from the boom after the call: ${said}.`,
    description: `Curves of least distance and overrun against reaction time. ${said}.`,
    panels: [{ svg: plotFrame(frame, marks, dom), width: WIDTH, height: frame.height }],
    legend: [
      ...lines.map(({ style: { stroke, dash, symbol } }, i) => ({
        ...{ kind: "line" as const, label: name[i]!, stroke, dash, symbol, fill: "#ffffff", width: 2 },
      })),
      ...(criterion === null
        ? []
        : [{ kind: "line" as const, label: "criterion", stroke: WARN, dash: "8 4", width: 1.6 }]),
    ],
  });
}
