/** Figure: least damping ratio over snubber rate and stiffness. */
import * as Plot from "@observablehq/plot";
import type { StabilityMap } from "../../studies/hold/types.ts";
import { formatShort, prettyUnit, scaleUnit } from "../numbers/index.ts";
import { criterionLegend, unstableLegend, unstablePattern } from "./areas.ts";
import { composeFigure, type LegendItem } from "./compose.ts";
import { type Frame, plotFrame, toPixelX, toPixelY } from "./frame.ts";
import { isolines, type Point } from "./isolines.ts";
import { INK, pattern, SLATE, type SymbolName, WARN } from "./style.ts";
import { capitalise, fitText } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const HEIGHT = 384;
const MARGINS = { left: 66, right: 22, top: 8, bottom: 50 };
/** Contours above the criterion; those outside the range of the map are left out. */
const LEVELS = [-0.2, -0.1, -0.05, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8];
const TINTS = ["#eef3fa", "#dfe9f5", "#cddcef", "#bacfe8", "#a6c0e0", "#93b2d8"];
const MARKS: readonly SymbolName[] = ["square", "diamond", "triangle", "circle"];

interface Scaled {
  readonly frame: Frame;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly fx: number;
  readonly fy: number;
}

function scaled(map: StabilityMap): Scaled {
  const sx = scaleUnit(map.x.unit, map.x.values.at(-1)!);
  const sy = scaleUnit(map.y.unit, map.y.values.at(-1)!);
  const fitted = (values: readonly number[], factor: number) => values.map((value) => value * factor);
  // a stiffness range from 5 kN/m to 5 MN/m reads best in kN/m throughout
  const kilo = (unit: string, own: typeof sx) =>
    own.factor === 1e-6 ? { factor: 1e-3, unit: `k${prettyUnit(unit)}` } : own;
  const ux = kilo(map.x.unit, sx);
  const uy = kilo(map.y.unit, sy);
  const x = fitted(map.x.values, ux.factor);
  const y = fitted(map.y.values, uy.factor);
  const axis = (label: string, unit: string, values: readonly number[]) => ({
    label: `${capitalise(label)} (${unit})`,
    from: values[0]!,
    to: values.at(-1)!,
    log: true,
  });
  const frame = {
    width: WIDTH,
    height: HEIGHT,
    margins: MARGINS,
    x: axis(map.x.label, ux.unit, x),
    y: axis(map.y.label, uy.unit, y),
  };
  return { frame, x, y, fx: ux.factor, fy: uy.factor };
}

interface PlacedLabel {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly bold: boolean;
}

/** Puts a label on the longest line of its level where it is clear of the labels and marks already there. */
function labelLine(
  frame: Frame,
  lines: readonly (readonly Point[])[],
  text: string,
  bold: boolean,
  taken: Point[],
): PlacedLabel[] {
  const pixels = lines.map((line) => line.map(([x, y]): Point => [toPixelX(frame, x), toPixelY(frame, y)]));
  const length = (line: readonly Point[]) =>
    line.reduce((sum, [x, y], i) => (i === 0 ? 0 : sum + Math.hypot(x - line[i - 1]![0], y - line[i - 1]![1])), 0);
  const order = pixels.map((line, i) => ({ i, size: length(line) })).sort((a, b) => b.size - a.size);
  const best = order[0];
  if (best === undefined || best.size < 70) return [];
  const line = pixels[best.i]!;
  const half = bold ? 30 : 18;
  for (const part of [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9]) {
    const at = line[Math.round(part * (line.length - 1))]!;
    const inside =
      at[0] > MARGINS.left + half &&
      at[0] < WIDTH - MARGINS.right - half &&
      at[1] > MARGINS.top + 12 &&
      at[1] < HEIGHT - MARGINS.bottom - 12;
    if (!inside || taken.some(([x, y]) => Math.abs(x - at[0]) < half + 34 && Math.abs(y - at[1]) < 17)) continue;
    taken.push(at);
    const source = lines[best.i]![Math.round(part * (line.length - 1))]!;
    return [{ x: source[0], y: source[1], text, bold }];
  }
  return [];
}

function boundaryStyle(level: number): { readonly stroke: string; readonly dash: string } {
  return level === 0 ? { stroke: WARN, dash: "none" } : { stroke: INK, dash: "8 4" };
}

/** Thresholds of the filled contours and what each is filled with, from the criterion upwards in darker tints. */
function bandsOf(id: string, map: StabilityMap, criterion: number | null): { level: number; fill: string }[] {
  const top = Math.max(...map.worst);
  const floor = criterion ?? 0;
  const steps = [floor, ...LEVELS.filter((level) => level > floor && level < top)];
  const bands = steps.map((level, i) => ({ level, fill: TINTS[Math.min(i, TINTS.length - 1)]! }));
  return criterion === null ? bands : [{ level: 0, fill: `url(#${id}-marginal)` }, ...bands];
}

function fills(id: string, map: StabilityMap, s: Scaled, criterion: number | null): unknown[] {
  const { x, y } = s.frame;
  const ground = [{ x1: x.from, x2: x.to, y1: y.from, y2: y.to }];
  const points = map.worst.map((value, i) => ({ x: s.x[i % s.x.length]!, y: s.y[Math.floor(i / s.x.length)]!, value }));
  const bands = bandsOf(id, map, criterion);
  const fillOf = new Map(bands.map(({ level, fill }) => [level, fill]));
  return [
    Plot.rect(ground, { x1: "x1", x2: "x2", y1: "y1", y2: "y2", fill: `url(#${id}-unstable)` }),
    Plot.contour(points, {
      x: "x",
      y: "y",
      value: "value",
      interpolate: "barycentric",
      stroke: "none",
      pixelSize: 3,
      thresholds: bands.map(({ level }) => level),
      fill: { value: (area: { value: number }) => fillOf.get(area.value), scale: null },
    }),
  ];
}

function pairMarks(map: StabilityMap, s: Scaled, taken: Point[]): unknown[] {
  return map.marks.flatMap((mark, i) => {
    const at = { x: mark.x * s.fx, y: mark.y * s.fy };
    if (at.x < s.frame.x.from || at.x > s.frame.x.to || at.y < s.frame.y.from || at.y > s.frame.y.to) return [];
    const [px, py] = [toPixelX(s.frame, at.x), toPixelY(s.frame, at.y)];
    const left = px > WIDTH - 170;
    taken.push([px, py], [px + (left ? -46 : 46), py]);
    return [
      Plot.dot([at], {
        x: "x",
        y: "y",
        r: 6.5,
        symbol: MARKS[i % MARKS.length]!,
        fill: INK,
        stroke: "white",
        strokeWidth: 1.6,
      }),
      Plot.text([at], {
        x: "x",
        y: "y",
        text: () => fitText(mark.label, 150, 13),
        dx: left ? -13 : 13,
        textAnchor: left ? "end" : "start",
        fontWeight: 700,
        fontSize: 13,
        fill: INK,
        stroke: "white",
        strokeWidth: 4,
      }),
    ];
  });
}

function contourMarks(map: StabilityMap, s: Scaled): unknown[] {
  const taken: Point[] = [];
  const marks = pairMarks(map, s, taken);
  const labels: PlacedLabel[] = [];
  const lines: unknown[] = [];
  for (const boundary of map.boundaries) {
    const own = boundary.lines.map((line) => line.map(([x, y]): Point => [x * s.fx, y * s.fy]));
    const { stroke, dash } = boundaryStyle(boundary.level);
    for (const line of own)
      lines.push(Plot.line(line, { stroke, strokeWidth: 2.4, strokeDasharray: dash, clip: true }));
    labels.push(...labelLine(s.frame, own, `ζ = ${formatShort(boundary.level)}`, true, taken));
  }
  const drawn = new Set(map.boundaries.map((boundary) => boundary.level));
  for (const level of LEVELS.filter((one) => !drawn.has(one))) {
    const own = isolines(s.x, s.y, map.worst, level);
    for (const line of own) lines.push(Plot.line(line, { stroke: SLATE, strokeWidth: 0.8 }));
    labels.push(...labelLine(s.frame, own, formatShort(level), false, taken));
  }
  const text = (bold: boolean) =>
    Plot.text(
      labels.filter((label) => label.bold === bold),
      {
        x: "x",
        y: "y",
        text: "text",
        fontSize: bold ? 12 : 11,
        fontWeight: bold ? 700 : 400,
        fill: INK,
        stroke: "white",
        strokeWidth: 4,
      },
    );
  return [...lines, text(false), text(true), ...marks];
}

/**
 * Map of the least damping ratio of the oscillatory rigid-body-type modes, contours with labels, the unstable side
 * hatched, boundaries at zero and at the criterion, a mark for each variant.
 *
 * @param id        of the figure
 * @param criterion damping ratio to be met; null when there is none
 */
export function stabilityMapFigure(id: string, map: StabilityMap, criterion: number | null, dom: FigureDom): Figure {
  const s = scaled(map);
  const svg = plotFrame(s.frame, [...fills(id, map, s, criterion), ...contourMarks(map, s)], dom);
  const unstable = map.worst.filter((value) => value < 0).length / map.worst.length;
  const enough = criterion === null ? null : map.worst.filter((value) => value >= criterion).length / map.worst.length;
  const legend: LegendItem[] = [
    unstableLegend(id),
    ...(criterion === null
      ? []
      : [
          {
            kind: "area" as const,
            label: `stable, below ζ = ${formatShort(criterion)}`,
            fill: `url(#${id}-marginal)`,
            stroke: SLATE,
          },
          { kind: "area" as const, label: "criterion met; darker, more damping", fill: TINTS[2]!, stroke: SLATE },
        ]),
    { kind: "line", label: "limit of stability ζ = 0", stroke: WARN, width: 2.4 },
    ...(criterion === null ? [] : [{ ...criterionLegend(criterion), dash: "8 4", width: 2.4 }]),
    ...map.marks.map((mark, i) => ({
      kind: "symbol" as const,
      label: fitText(mark.label, 140),
      symbol: MARKS[i % MARKS.length]!,
      fill: INK,
      stroke: INK,
    })),
  ];
  const percent = (part: number) => `${Math.round(part * 100)} %`;
  const where = `${map.plane} plane, condition ${map.condition}, mass ${map.mass}`;
  return composeFigure({
    id,
    title: `${map.title} (${where})`,
    caption:
      `Least damping ratio ζ of the oscillatory rigid-body-type modes; ${where}. A pair in the hatched region diverges; ` +
      `only the plain blue region inside the dashed line meets the criterion. Along a contour the damping stays the same: where contours ` +
      `bend back, more snubber or more stiffness stops helping.`,
    description:
      `Contour map on two logarithmic axes, ${s.frame.x.label} across and ${s.frame.y.label} up. ` +
      `${percent(unstable)} of the grid is unstable${enough === null ? "" : `, ${percent(enough)} meets the criterion`}. ` +
      `Marks: ${map.marks.map((mark) => mark.label).join(", ") || "none"}.`,
    panels: [{ svg, width: WIDTH, height: HEIGHT }],
    legend,
    defs: `${unstablePattern(id)}${pattern(`${id}-marginal`, "dots", "#fbf4e4", "#7a5b13", 0.7)}`,
  });
}
