/** Figure: exact boundaries of hooked stability over two parameters, with curves of constant damping. */
import * as Plot from "@observablehq/plot";
import type { BoundaryAxis, BoundaryCurve, BoundaryMap } from "../../studies/hold-boundary/types.ts";
import { formatFixed, formatShort } from "../numbers/index.ts";
import { unstableLegend, unstablePattern } from "./areas.ts";
import { composeFigure, type LegendItem } from "./compose.ts";
import { type Axis, type Frame, plotFrame, toPixelX, toPixelY } from "./frame.ts";
import { INK, pattern, SLATE, WARN } from "./style.ts";
import { fitText } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const HEIGHT = 384;
const MARGINS = { left: 66, right: 22, top: 8, bottom: 50 };
const TINT = "#dfe9f5";

type Point = readonly [number, number];

function axisOf({ label, unit, scale, from, to }: BoundaryAxis): Axis {
  return { label: `${label} (${unit})`, from, to, log: scale === "log" };
}

/** How a curve is drawn: the limit of stability, the criterion, other levels; inner pieces and structural modes thinner. */
function styleOf(curve: BoundaryCurve, criterion: number) {
  const thin = curve.border ? 1 : 0.6;
  if (curve.kind === "real root") return { stroke: WARN, strokeWidth: 2 * thin, strokeDasharray: "2 3" };
  if (curve.class === "structural") return { stroke: SLATE, strokeWidth: 1.4 * thin, strokeDasharray: "1.5 3.5" };
  if (curve.level === 0)
    return { stroke: WARN, strokeWidth: 2.6 * thin, strokeDasharray: curve.border ? "none" : "3 3" };
  if (curve.level === criterion) return { stroke: INK, strokeWidth: 2.4 * thin, strokeDasharray: "8 4" };
  return { stroke: SLATE, strokeWidth: curve.border ? 1.1 : 0.7, strokeDasharray: curve.border ? "none" : "3 3" };
}

interface Placed {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly bold: boolean;
}

/** Labels of the curves, each on its longest stretch where it is clear of those already there. */
function labelsOf(map: BoundaryMap, frame: Frame, criterion: number, taken: Point[]): Placed[] {
  const sized = map.curves
    .map((curve) => {
      const pixels = curve.x.map((x, i): Point => [toPixelX(frame, x), toPixelY(frame, curve.y[i]!)]);
      const length = pixels.reduce(
        (sum, p, i) => (i === 0 ? 0 : sum + Math.hypot(p[0] - pixels[i - 1]![0], p[1] - pixels[i - 1]![1])),
        0,
      );
      return { curve, pixels, length };
    })
    .filter(({ length }) => length > 60)
    .sort(
      (a, b) => Number(b.curve.border) - Number(a.curve.border) || a.curve.level - b.curve.level || b.length - a.length,
    );
  const seen = new Map<string, number>();
  return sized.flatMap(({ curve, pixels }) => {
    const bold = curve.kind === "oscillation" && (curve.level === 0 || curve.level === criterion) && curve.border;
    const text = curve.kind === "real root" ? "real root" : curve.class === "structural" ? `${formatShort(curve.level)} str.` : bold ? `ζ = ${formatShort(curve.level)}` : formatShort(curve.level); // biome-ignore format: one choice
    if ((seen.get(text) ?? 0) >= 2) return [];
    for (const part of [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88]) {
      const i = Math.round(part * (pixels.length - 1));
      const [px, py] = pixels[i]!;
      const half = bold ? 30 : 20;
      const inside = px > MARGINS.left + half && px < WIDTH - MARGINS.right - half && py > MARGINS.top + 12 && py < HEIGHT - MARGINS.bottom - 12; // biome-ignore format: a box
      if (!inside || taken.some(([x, y]) => Math.abs(x - px) < half + 30 && Math.abs(y - py) < 17)) continue;
      taken.push([px, py]);
      seen.set(text, (seen.get(text) ?? 0) + 1);
      return [{ x: curve.x[i]!, y: curve.y[i]!, text, bold }];
    }
    return [];
  });
}

/** Shading by the grid: hatched where the worst damping is negative, plain where the criterion is met. */
function shading(id: string, map: BoundaryMap, frame: Frame, criterion: number): unknown[] {
  const { grid } = map;
  const points = grid.worst.map((value, i) => ({ x: grid.x[i % grid.x.length]!, y: grid.y[Math.floor(i / grid.x.length)]!, value })); // biome-ignore format: a table
  const fills = new Map<number, string>([
    [0, `url(#${id}-marginal)`],
    [criterion, TINT],
  ]);
  const { x, y } = frame;
  return [
    Plot.rect([{ x1: x.from, x2: x.to, y1: y.from, y2: y.to }], {
      ...{ x1: "x1", x2: "x2", y1: "y1", y2: "y2" },
      fill: `url(#${id}-unstable)`,
    }),
    Plot.contour(points, {
      ...{ x: "x", y: "y", value: "value", interpolate: "barycentric", stroke: "none", pixelSize: 3 },
      thresholds: [0, criterion],
      fill: { value: (area: { value: number }) => fills.get(area.value), scale: null },
    }),
  ];
}

function marks(id: string, map: BoundaryMap, frame: Frame, criterion: number, variant: string): unknown[] {
  const at = { x: map.at.x, y: map.at.y };
  const inside = at.x >= frame.x.from && at.x <= frame.x.to && at.y >= frame.y.from && at.y <= frame.y.to;
  const [px, py] = [toPixelX(frame, at.x), toPixelY(frame, at.y)];
  const left = px > WIDTH - 170;
  const taken: Point[] = inside ? [[px, py], [px + (left ? -46 : 46), py]] : []; // biome-ignore format: two points
  const labels = labelsOf(map, frame, criterion, taken);
  const text = (bold: boolean) =>
    Plot.text(
      labels.filter((label) => label.bold === bold),
      { x: "x", y: "y", text: "text", fontSize: bold ? 12 : 11, fontWeight: bold ? 700 : 400, fill: INK, stroke: "white", strokeWidth: 4 }, // biome-ignore format: options
    );
  const lines = map.curves.map((curve) =>
    Plot.line(
      curve.x.map((x, i): Point => [x, curve.y[i]!]),
      { ...styleOf(curve, criterion), clip: true },
    ),
  );
  const own = inside
    ? [
        Plot.dot([at], { x: "x", y: "y", r: 6.5, symbol: "square", fill: INK, stroke: "white", strokeWidth: 1.6 }),
        Plot.text([at], {
          ...{ x: "x", y: "y", text: () => fitText(variant, 150, 13), dx: left ? -13 : 13 },
          ...{ textAnchor: left ? "end" : "start", fontWeight: 700, fontSize: 13, fill: INK, stroke: "white" },
          strokeWidth: 4,
        }),
      ]
    : [];
  return [...shading(id, map, frame, criterion), ...lines, text(false), text(true), ...own];
}

/** First letter small, for the middle of a sentence. */
function lowered(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

function spoken(map: BoundaryMap): string {
  const parts = (["x", "y"] as const).flatMap((along) => {
    const found = map.crossings.find((each) => each.along === along && each.level === 0);
    const values = [found?.below, found?.above].filter((value) => value !== null && value !== undefined);
    const axis = map[along];
    if (values.length === 0) return [];
    const each = values.map((value) => `${formatShort(Number(value.toPrecision(4)))} ${axis.unit}`);
    return [`${lowered(axis.label)} ${each.join(" and ")}`];
  });
  return parts.length === 0
    ? "No limit of stability is met along either axis through the pair's own values."
    : `Through the pair's own values the limit of stability is met at ${parts.join("; ")}.`;
}

/**
 * Map of two parameters with the exact limit of stability, the exact curve of the criterion and exact curves of other damping
 * ratios, shaded by a grid; the pair marked.
 *
 * @param criterion damping ratio that rigid-body-type oscillations must have
 */
export function boundaryFigure(
  id: string,
  map: BoundaryMap,
  criterion: number,
  variant: string,
  dom: FigureDom,
): Figure {
  const frame: Frame = { width: WIDTH, height: HEIGHT, margins: MARGINS, x: axisOf(map.x), y: axisOf(map.y) };
  const svg = plotFrame(frame, marks(id, map, frame, criterion, variant), dom);
  const legend: LegendItem[] = [
    unstableLegend(id),
    { kind: "area", label: `stable, below ζ = ${formatShort(criterion)}`, fill: `url(#${id}-marginal)`, stroke: SLATE },
    { kind: "area", label: "criterion met", fill: TINT, stroke: SLATE },
    { kind: "line", label: "limit of stability ζ = 0, exact", stroke: WARN, width: 2.6 },
    { kind: "line", label: `criterion ζ = ${formatShort(criterion)}, exact`, stroke: INK, dash: "8 4", width: 2.4 },
    { kind: "line", label: "other ζ, exact", stroke: SLATE, width: 1.1 },
    ...(map.curves.some((curve) => curve.class === "structural")
      ? [{ kind: "line" as const, label: "ζ of a structural mode", stroke: SLATE, dash: "1.5 3.5", width: 1.4 }]
      : []),
    ...(map.curves.some((curve) => curve.kind === "real root")
      ? [{ kind: "line" as const, label: "real root", stroke: WARN, dash: "2 3", width: 2 }]
      : []),
  ];
  const where = `condition ${map.condition}, mass ${map.mass}`;
  const check =
    map.check === null
      ? ""
      : ` Checked at ${map.check.places} places: within ${formatFixed(100 * map.check.largestMiss_1, 3)} % of the exact zero.`;
  return composeFigure({
    id,
    title: `Exact boundaries: ${lowered(map.title)} (${where})`,
    caption:
      `Lines are exact, by ${map.method}; the shading comes from a grid of ${map.grid.x.length} × ${map.grid.y.length} and follows the rigid-body-type modes. ` +
      `Thin dashed pieces are crossed by a second root where another is already worse. ${spoken(map)}${check}`,
    description:
      `Map of ${frame.x.label} across and ${frame.y.label} up with ${map.curves.length} exact curves. ` +
      `The pair lies on the ${map.at.worst < 0 ? "unstable" : "stable"} side. ${spoken(map)}`,
    panels: [{ svg, width: WIDTH, height: HEIGHT }],
    legend,
    defs: `${unstablePattern(id)}${pattern(`${id}-marginal`, "dots", "#fbf4e4", "#7a5b13", 0.7)}`,
  });
}
