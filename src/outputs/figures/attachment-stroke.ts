/** Figure: least damping ratio along the stroke, a curve for each state of attachment. */
import * as Plot from "@observablehq/plot";
import type { StrokeDamping } from "../../studies/hold-attachment/types.ts";
import { formatFixed } from "../numbers/index.ts";
import { dampingGround, unstableLegend, unstablePattern } from "./areas.ts";
import { composeFigure } from "./compose.ts";
import { type Frame, padded, plotFrame } from "./frame.ts";
import { curveStyle } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const PLANES = ["longitudinal", "lateral"] as const;

/**
 * Least damping ratio of each state along the stroke, a panel for each plane; a gap is a pose without balance.
 * Oscillations of both classes stand in it, each with a criterion of its own, so that no criterion is drawn.
 */
export function attachmentStrokeFigure(
  id: string,
  variant: string,
  stroke: StrokeDamping,
  dom: FigureDom,
): Figure | null {
  const values = stroke.states.flatMap(({ longitudinal, lateral }) => [...longitudinal, ...lateral]);
  const known = values.filter((value) => value !== null);
  if (known.length === 0) return null;
  const angles = stroke.boomAngle_deg;
  const panels = PLANES.map((plane) => {
    const own = stroke.states.flatMap((state) => state[plane].filter((value) => value !== null));
    const [from, to] = padded([0, ...own]);
    const frame: Frame = {
      width: 760,
      height: 270,
      margins: { left: 62, right: 14, top: 6, bottom: 46 },
      x: { label: "Boom angle (°), stowed left, extended right", from: angles[0]!, to: angles.at(-1)!, log: false },
      y: { label: "Least damping ratio ζ (–)", from, to, log: false },
    };
    const curves = stroke.states.flatMap((state, i) => {
      const { stroke: colour, dash, symbol } = curveStyle(i);
      const points = state[plane].map((value, k) => ({ x: angles[k]!, y: value ?? Number.NaN }));
      const marked = points.filter((point, k) => k % 4 === i % 4 && !Number.isNaN(point.y));
      return [
        Plot.line(points, { x: "x", y: "y", stroke: colour, strokeWidth: 2.1, strokeDasharray: dash, clip: true }),
        Plot.dot(marked, { x: "x", y: "y", symbol, r: 4, fill: "white", stroke: colour, strokeWidth: 1.8 }),
      ];
    });
    const svg = plotFrame(frame, [...dampingGround(id, frame, null), ...curves], dom);
    return {
      svg,
      width: frame.width,
      height: frame.height,
      heading: plane === "longitudinal" ? "Longitudinal" : "Lateral",
    };
  });
  const said = stroke.states.map(({ state, longitudinal, lateral }) => {
    const [a, b] = [longitudinal, lateral].map((all) => {
      const found = all.filter((value) => value !== null);
      return found.length === 0 ? "no balance" : formatFixed(Math.min(...found), 3);
    });
    return `${state} ${a} and ${b}`;
  });
  return composeFigure({
    id,
    title: `${variant}: least damping ratio along the stroke by state of attachment, condition ${stroke.condition}, mass ${stroke.mass}`,
    caption: `Of all oscillations of the plane, whatever their class. Least along the stroke, longitudinal and lateral: ${said.join("; ")}.`,
    description: `Curves over the boom angle, one panel for each plane. ${said.join("; ")}.`,
    panels,
    legend: [
      ...stroke.states.map(({ state }, i) => {
        const { stroke: colour, dash, symbol } = curveStyle(i);
        return { kind: "line" as const, label: state, stroke: colour, dash, symbol, fill: "#ffffff" };
      }),
      unstableLegend(id),
    ],
    defs: unstablePattern(id),
  });
}
