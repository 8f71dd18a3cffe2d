/** Pictures in stations: equal scales on both axes, outlines cut to the frame, each owner with its own hatch. */
import * as Plot from "@observablehq/plot";
import type { Line2, PartOwner, Silhouette } from "../../studies/fit/types.ts";
import { formatShort } from "../numbers/index.ts";
import type { LegendItem } from "./compose.ts";
import { type Axis, type Frame, type Margins, toPixelX, toPixelY } from "./frame.ts";
import type { Point } from "./isolines.ts";
import { INK, pattern, SLATE, WARN } from "./style.ts";

export type View = "elevation" | "plan" | "section";

export interface Bounds {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
}

/** Axis titles of the views: FS grows aft and is drawn to the right. */
const TITLES: Readonly<Record<View, readonly [string, string]>> = {
  elevation: ["FS (m), aft →", "WL (m), up"],
  plan: ["FS (m), aft →", "BL (m), right wing up"],
  section: ["BL (m), right →, seen from behind", "WL (m), up"],
};

/** Bounds of points; null of none. */
export function boundsOf(points: Iterable<readonly [number, number]>): Bounds | null {
  let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of points) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    low = Math.min(low, y);
    high = Math.max(high, y);
  }
  return left <= right && low <= high ? { x: [left, right], y: [low, high] } : null;
}

/** Smallest bounds that hold both; either may be missing. */
export function joined(a: Bounds | null, b: Bounds | null): Bounds | null {
  if (a === null || b === null) return a ?? b;
  return {
    x: [Math.min(a.x[0], b.x[0]), Math.max(a.x[1], b.x[1])],
    y: [Math.min(a.y[0], b.y[0]), Math.max(a.y[1], b.y[1])],
  };
}

/** Bounds with room [m] on every side. */
export function roomier({ x, y }: Bounds, room: number): Bounds {
  return { x: [x[0] - room, x[1] + room], y: [y[0] - room, y[1] + room] };
}

function axis(label: string, [from, to]: readonly [number, number]): Axis {
  return { label, from, to, log: false, format: (value) => formatShort(value) };
}

/**
 * Frame of a view with one scale for both axes.
 *
 * @param width   of the frame [px]
 * @param highest most height of the plotted area [px]; the narrower direction gets the room that is left over
 */
export function stationFrame(view: View, bounds: Bounds, width: number, highest: number, margins: Margins): Frame {
  const inner = width - margins.left - margins.right;
  const size = [Math.max(bounds.x[1] - bounds.x[0], 0.1), Math.max(bounds.y[1] - bounds.y[0], 0.1)] as const;
  const scale = Math.min(inner / size[0], highest / size[1]);
  const height = Math.round(size[1] * scale);
  const grown = (range: readonly [number, number], pixels: number): readonly [number, number] => {
    const middle = (range[0] + range[1]) / 2;
    return [middle - pixels / scale / 2, middle + pixels / scale / 2];
  };
  const [xTitle, yTitle] = TITLES[view];
  return {
    width,
    height: height + margins.top + margins.bottom,
    margins,
    x: axis(xTitle, grown(bounds.x, inner)),
    y: axis(yTitle, grown(bounds.y, height)),
  };
}

/** The part of a closed outline on the kept side of one edge of the frame (Sutherland–Hodgman). */
function cutAtEdge(outline: readonly Point[], coordinate: 0 | 1, limit: number, keepAbove: boolean): Point[] {
  const inside = (point: Point) => (keepAbove ? point[coordinate] >= limit : point[coordinate] <= limit);
  const result: Point[] = [];
  outline.forEach((point, i) => {
    const before = outline[(i + outline.length - 1) % outline.length]!;
    if (inside(point) !== inside(before)) {
      const t = (limit - before[coordinate]) / (point[coordinate] - before[coordinate]);
      result.push([before[0] + t * (point[0] - before[0]), before[1] + t * (point[1] - before[1])]);
    }
    if (inside(point)) result.push(point);
  });
  return result;
}

/** A closed outline cut to the frame; empty when it lies outside. */
export function cutToFrame(outline: Line2, { x, y }: Frame): Point[] {
  let points: Point[] = outline.map(([a, b]) => [a, b]);
  points = cutAtEdge(points, 0, x.from, true);
  points = cutAtEdge(points, 0, x.to, false);
  points = cutAtEdge(points, 1, y.from, true);
  points = cutAtEdge(points, 1, y.to, false);
  return points.length < 3 ? [] : points;
}

/** Drops points that lie within half a pixel of the one before; no eye can tell. */
function thinned(outline: readonly Point[], frame: Frame): Point[] {
  const kept: Point[] = [];
  let last: Point | null = null;
  for (const point of outline) {
    const pixel: Point = [toPixelX(frame, point[0]), toPixelY(frame, point[1])];
    if (last !== null && Math.hypot(pixel[0] - last[0], pixel[1] - last[1]) < 0.5) continue;
    kept.push(point);
    last = pixel;
  }
  return kept.length < 3 ? [...outline] : kept;
}

interface OwnerStyle {
  readonly name: string;
  readonly stroke: string;
  readonly tint: string;
  readonly hatch: "none" | "rising" | "dots" | "upright";
  readonly ink: string;
}

/** Drawn in this order, so that the mechanism stays visible. */
export const OWNERS: readonly PartOwner[] = ["carrier", "gear", "carried", "mechanism"];

export const OWNER_STYLES: Readonly<Record<PartOwner, OwnerStyle>> = {
  carrier: { name: "carrier", stroke: SLATE, tint: "#f0f2f5", hatch: "none", ink: SLATE },
  gear: { name: "gear and doors", stroke: "#7d3a08", tint: "#f8e0cb", hatch: "rising", ink: "#b9530e" },
  carried: { name: "carried aircraft", stroke: "#16386b", tint: "#d3e0f2", hatch: "dots", ink: "#2459a8" },
  mechanism: { name: "mechanism", stroke: INK, tint: "#a9b0ba", hatch: "upright", ink: INK },
};

/** `<pattern>` of every owner, id `<figure>-<owner>`. */
export function ownerPatterns(id: string): string {
  return OWNERS.map((owner) => {
    const { hatch, tint, ink } = OWNER_STYLES[owner];
    return pattern(`${id}-${owner}`, hatch, tint, ink, 0.6);
  }).join("");
}

export function ownerLegend(id: string, parts: readonly Silhouette[]): LegendItem[] {
  const items: LegendItem[] = OWNERS.filter((owner) => parts.some((one) => one.owner === owner && !one.zone)).map(
    (owner) => ({
      kind: "area",
      label: OWNER_STYLES[owner].name,
      fill: `url(#${id}-${owner})`,
      stroke: OWNER_STYLES[owner].stroke,
    }),
  );
  if (parts.some((one) => one.zone)) items.push({ kind: "line", label: "zone", stroke: WARN, dash: "6 4", width: 1.2 });
  return items;
}

interface Spot {
  readonly x: number;
  readonly y: number;
  readonly outline: string;
}

/** Outlines as one series each, cut to the frame. */
function spots(parts: readonly Silhouette[], view: View, frame: Frame): Spot[] {
  return parts.flatMap((part) =>
    part[view].flatMap((line, k) =>
      thinned(cutToFrame(line, frame), frame).map(([x, y]): Spot => ({ x, y, outline: `${part.part} ${k}` })),
    ),
  );
}

/** Marks of all outlines of a view: carrier first, mechanism last, the carrier's lines once more over the others. */
export function outlineMarks(id: string, parts: readonly Silhouette[], view: View, frame: Frame): unknown[] {
  const shared = { x: "x", y: "y", z: "outline", curve: "linear-closed" } as const;
  const solid = parts.filter((part) => !part.zone);
  const carrier = spots(
    solid.filter((part) => part.owner === "carrier"),
    view,
    frame,
  );
  const zones = spots(
    parts.filter((part) => part.zone),
    view,
    frame,
  );
  return [
    ...OWNERS.map((owner) => {
      const own = solid.filter((part) => part.owner === owner);
      const { stroke } = OWNER_STYLES[owner];
      const fill = `url(#${id}-${owner})`;
      return Plot.line(spots(own, view, frame), { ...shared, fill, stroke, strokeWidth: 1.1 });
    }),
    Plot.line(carrier, { ...shared, stroke: SLATE, strokeWidth: 0.8, strokeDasharray: "2 2.5" }),
    Plot.line(zones, { ...shared, stroke: WARN, strokeWidth: 1.2, strokeDasharray: "6 4" }),
  ];
}
