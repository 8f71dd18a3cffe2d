/** Figure: least damping ratio against tangential stiffness without a snubber, with the intervals that are good enough. */
import * as Plot from "@observablehq/plot";
import type { StiffnessInterval, StiffnessNeed } from "../../studies/hold/types.ts";
import { formatQuantity } from "../numbers/index.ts";
import { criterionLegend, dampingGround, unstableLegend, unstablePattern } from "./areas.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Axis, type Frame, padded, plotFrame } from "./frame.ts";
import { endLabels } from "./labels.ts";
import { curveStyle, INK, pattern, SLATE } from "./style.ts";
import { capitalise, fitText } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const KILO = 1e-3;
const WIDTH = 760;
const MARGINS = { left: 76, right: 132, top: 6, bottom: 8 };
const ROW = 30;

function curvePanel(id: string, needs: readonly StiffnessNeed[], x: Axis, criterion: number, dom: FigureDom): Panel {
  const ratios = needs.flatMap((need) => need.curve.worstDampingRatio);
  const [from, to] = padded([0, criterion, ...ratios], 0.08);
  const frame: Frame = {
    width: WIDTH,
    height: 224,
    margins: MARGINS,
    x: { ...x, label: "", format: () => "" },
    y: { label: "Least damping ratio ζ (–)", from, to, log: false },
  };
  const curves = needs.map((need, i) => ({
    style: curveStyle(i),
    mass: need.mass,
    points: need.curve.stiffness_N_m.map((k, j) => ({ x: k * KILO, y: need.curve.worstDampingRatio[j]! })),
  }));
  const marks = [
    ...dampingGround(id, frame, criterion),
    ...curves.map(({ style, points }) =>
      Plot.line(points, { x: "x", y: "y", stroke: style.stroke, strokeWidth: 2.2, strokeDasharray: style.dash }),
    ),
    ...endLabels(
      frame,
      curves.map(({ style, mass, points }) => ({ text: `mass ${mass}`, ...points.at(-1)!, color: style.stroke })),
    ),
  ];
  return { svg: plotFrame(frame, marks, dom), width: WIDTH, height: frame.height };
}

interface Bar {
  readonly x1: number;
  readonly x2: number;
  readonly y1: number;
  readonly y2: number;
}

function barsOf(intervals: readonly StiffnessInterval[], row: number, half: number, x: Axis): Bar[] {
  return intervals.flatMap(({ from_N_m, to_N_m }) => {
    const x1 = Math.max(x.from, from_N_m * KILO);
    const x2 = Math.min(x.to, to_N_m === null ? x.to : to_N_m * KILO);
    return x2 > x1 ? [{ x1, x2, y1: row - half, y2: row + half }] : [];
  });
}

function intervalPanel(id: string, needs: readonly StiffnessNeed[], x: Axis, dom: FigureDom): Panel {
  const rows = needs.length;
  const height = ROW * rows + 54;
  const frame: Frame = {
    width: WIDTH,
    height,
    margins: { ...MARGINS, top: 4, bottom: 46 },
    x,
    y: {
      label: "",
      from: rows - 0.5,
      to: -0.5,
      log: false,
      ticks: needs.map((_, i) => i),
      format: (i) => fitText(needs[i]?.mass ?? "", 60),
    },
  };
  const corners = { x1: "x1", x2: "x2", y1: "y1", y2: "y2" } as const;
  const stable = needs.flatMap((need, i) => barsOf(need.stable, i, 0.34, x));
  const meets = needs.flatMap((need, i) => barsOf(need.meetsCriterion, i, 0.17, x));
  const heads = needs.flatMap((need, i) =>
    need.headline_N_m === null ? [] : [{ x: need.headline_N_m * KILO, y: i, k: need.headline_N_m }],
  );
  const inside = heads.filter((head) => head.x >= x.from && head.x <= x.to);
  const marks = [
    Plot.rect(stable, { ...corners, fill: `url(#${id}-stable)`, stroke: SLATE, strokeWidth: 0.8 }),
    Plot.rect(meets, { ...corners, fill: "#2459a8", stroke: "#16386b", strokeWidth: 0.8 }),
    Plot.dot(inside, {
      x: "x",
      y: "y",
      symbol: "triangle",
      r: 5.5,
      fill: INK,
      stroke: "white",
      strokeWidth: 1.3,
      rotate: 180,
      dy: -11,
    }),
    Plot.text(inside, {
      x: "x",
      y: "y",
      text: (head: { k: number }) => formatQuantity(head.k, "N/m"),
      textAnchor: "end",
      dx: -9,
      dy: -5,
      fontWeight: 700,
      fill: INK,
      stroke: "white",
      strokeWidth: 4,
    }),
  ];
  return { svg: plotFrame(frame, marks, dom), width: WIDTH, height };
}

function sentence(need: StiffnessNeed): string {
  if (need.headline_N_m === null) return `mass ${need.mass}: not even a rigid connection meets it`;
  return `mass ${need.mass}: every stiffness from ${formatQuantity(need.headline_N_m, "N/m")} up to rigid meets it`;
}

/** Least damping ratio against tangential stiffness without a snubber, one curve for each mass, and bars of the good intervals. */
export function stiffnessFigure(
  id: string,
  variant: string,
  needs: readonly StiffnessNeed[],
  dom: FigureDom,
): Figure | null {
  const criterion = needs[0]?.criterion_1;
  if (criterion === undefined) return null;
  const stiffness = needs.flatMap((need) => need.curve.stiffness_N_m);
  const x: Axis = {
    label: "Tangential stiffness at the tip, no snubber (kN/m)",
    from: Math.min(...stiffness) * KILO,
    to: Math.max(...stiffness) * KILO,
    log: true,
  };
  return composeFigure({
    id,
    title: `Least damping ratio against tangential stiffness without a snubber (${variant})`,
    caption:
      `What stiffness alone can do, ${variant}, snubber removed. Upper part: least damping ratio ζ; lower part: the intervals of stiffness ` +
      `that are stable (wide bar) and that meet the criterion (narrow bar). ${capitalise(needs.map(sentence).join("; "))}.`,
    description: `Curves and interval bars on a logarithmic stiffness axis. ${capitalise(needs.map(sentence).join("; "))}.`,
    panels: [curvePanel(id, needs, x, criterion, dom), intervalPanel(id, needs, x, dom)],
    legend: [
      unstableLegend(id),
      criterionLegend(criterion),
      { kind: "area", label: "stable", fill: `url(#${id}-stable)`, stroke: SLATE },
      { kind: "area", label: "meets the criterion", fill: "#2459a8", stroke: "#16386b" },
      { kind: "symbol", label: "enough up to rigid", symbol: "triangle", flip: true, fill: INK, stroke: INK },
    ],
    defs: unstablePattern(id) + pattern(`${id}-stable`, "dots", "#dfe9f5", "#16386b", 0.6),
  });
}
