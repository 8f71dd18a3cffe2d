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
  const [alone, both] = [curveStyle(0), curveStyle(1)];
  const known = (of: (point: BreakawayCurve["points"][number]) => number | null): { x: number; y: number }[] =>
    curve.points.flatMap((point) => {
      const y = of(point);
      return y === null ? [] : [{ x: point.reaction_s, y }];
    });
  const lines = [
    { style: alone, at: known(({ alone_m }) => alone_m) },
    { style: both, at: known(({ both_m }) => both_m) },
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
    y: { label: "Least vertical distance (m)", from, to, log: false },
  };
  const marks = [
    Plot.ruleY([0], { stroke: INK, strokeWidth: 0.6 }),
    Plot.ruleY(criterion === null ? [] : [criterion], { stroke: WARN, strokeWidth: 1.6, strokeDasharray: "8 4" }),
    ...lines.flatMap(({ style: { stroke, dash, symbol }, at }) => [
      Plot.line(at, { x: "x", y: "y", stroke, strokeWidth: 2, strokeDasharray: dash }),
      Plot.dot(at, { x: "x", y: "y", symbol, r: 4.4, fill: "white", stroke, strokeWidth: 1.8 }),
    ]),
  ];
  const longest = curve.longestReaction_s;
  const said =
    longest === null
      ? "no reaction is fast enough for the required distance"
      : `the required distance is left up to a reaction of ${formatFixed(longest, 2)} s`;
  const name = ["carried aircraft alone descends", "carrier climbs too"];
  return composeFigure({
    id,
    title: `Breakaway: least distance by time of reaction (${variant})`,
    caption: `Called at a vertical distance of ${formatFixed(curve.gap_m, 1)} m that shrinks with ${formatFixed(curve.closing_m_s, 1)} m/s; they leave each other in opposite vertical directions. With the carrier flying on, ${said}.`,
    description: `Curves of least vertical distance against reaction time. ${said}.`,
    panels: [{ svg: plotFrame(frame, marks, dom), width: WIDTH, height: frame.height }],
    legend: [
      ...lines
        .filter(({ at }) => at.length > 0)
        .map(({ style: { stroke, dash, symbol } }, i) => ({
          ...{ kind: "line" as const, label: name[i]!, stroke, dash, symbol, fill: "#ffffff", width: 2 },
        })),
      ...(criterion === null
        ? []
        : [{ kind: "line" as const, label: "criterion", stroke: WARN, dash: "8 4", width: 1.6 }]),
    ],
  });
}
