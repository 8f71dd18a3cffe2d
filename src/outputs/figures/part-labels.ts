/** Where in a drawing a part is named. */
import type { Silhouette } from "../../studies/fit/types.ts";
import { sidelessName } from "../names/index.ts";
import { type Frame, fromPixelX, fromPixelY, toPixelX, toPixelY } from "./frame.ts";
import type { Point } from "./isolines.ts";
import type { LeaderLabel } from "./leader-labels.ts";
import { cutToFrame, OWNER_STYLES, OWNERS, type View } from "./station-view.ts";
import { WARN } from "./style.ts";

/** Probes along each side of an outline's bounds. */
const PROBES = 11;
/** Outlines smaller than this [px²] get no name. */
const SMALLEST = 60;

function areaOf(outline: readonly Point[]): number {
  return Math.abs(
    outline.reduce((sum, [x, y], i) => {
      const [nx, ny] = outline[(i + 1) % outline.length]!;
      return sum + (x * ny - nx * y) / 2;
    }, 0),
  );
}

function insideOf(outline: readonly Point[], [x, y]: Point): boolean {
  let inside = false;
  outline.forEach(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    if (ay > y !== by > y && x < ax + ((y - ay) * (bx - ax)) / (by - ay)) inside = !inside;
  });
  return inside;
}

function distanceToEdges(outline: readonly Point[], [x, y]: Point): number {
  let least = Number.POSITIVE_INFINITY;
  outline.forEach(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    const [dx, dy] = [bx - ax, by - ay];
    const length = dx * dx + dy * dy;
    const t = length === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / length));
    least = Math.min(least, Math.hypot(x - ax - t * dx, y - ay - t * dy));
  });
  return least;
}

/** A point well inside an outline and, where there is a choice, outside of the others. */
function anchorOf(outline: readonly Point[], others: readonly (readonly Point[])[]): Point {
  const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)];
  const [left, low] = [Math.min(...xs), Math.min(...ys)];
  const [w, h] = [Math.max(...xs) - left, Math.max(...ys) - low];
  let best: Point = outline[0]!;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 1; i < PROBES; i++) {
    for (let k = 1; k < PROBES; k++) {
      const probe: Point = [left + (w * i) / PROBES, low + (h * k) / PROBES];
      if (!insideOf(outline, probe)) continue;
      const covered = others.some((other) => insideOf(other, probe));
      const score = Math.min(14, distanceToEdges(outline, probe)) - (covered ? 40 : 0);
      if (score > most) {
        most = score;
        best = probe;
      }
    }
  }
  return best;
}

/** Whose parts are named first: what moves tells more than what it hangs on. */
const FIRST: readonly Silhouette["owner"][] = ["carried", "mechanism", "gear", "carrier"];

/**
 * One label for each part, mirrored parts together, on the largest visible outline.
 *
 * @param most labels; the largest parts of the carried aircraft come first, those of the carrier and zones last
 */
export function partLabels(parts: readonly Silhouette[], view: View, frame: Frame, most: number): LeaderLabel[] {
  const cut = parts.flatMap((part) =>
    part[view].map((line) => ({
      part,
      outline: cutToFrame(line, frame).map(([x, y]): Point => [toPixelX(frame, x), toPixelY(frame, y)]),
    })),
  );
  const drawn = cut.filter(({ outline }) => outline.length > 2 && areaOf(outline) > SMALLEST);
  const named = new Map<string, (typeof drawn)[number]>();
  for (const one of drawn) {
    const name = sidelessName(one.part.part);
    const other = named.get(name);
    if (other === undefined || areaOf(one.outline) > areaOf(other.outline) * 1.001) named.set(name, one);
  }
  const rank = (one: (typeof drawn)[number]) => OWNERS.indexOf(one.part.owner);
  const order = (one: (typeof drawn)[number]) => FIRST.indexOf(one.part.owner) + (one.part.zone ? FIRST.length : 0);
  const chosen = [...named].sort(([, a], [, b]) => order(a) - order(b) || areaOf(b.outline) - areaOf(a.outline));
  return chosen.slice(0, most).map(([text, one]): LeaderLabel => {
    const above = drawn.filter((other) => !other.part.zone && rank(other) > rank(one)).map(({ outline }) => outline);
    const [px, py] = anchorOf(one.outline, above);
    return {
      text,
      at: [fromPixelX(frame, px), fromPixelY(frame, py)],
      color: one.part.zone ? WARN : OWNER_STYLES[one.part.owner].stroke,
    };
  });
}

/** Points every few pixels along the outlines of some parts, for labels to keep clear of. */
export function outlinePoints(parts: readonly Silhouette[], view: View, frame: Frame): Point[] {
  const points: Point[] = [];
  for (const part of parts) {
    for (const line of part[view]) {
      const outline = cutToFrame(line, frame);
      outline.forEach(([x, y], i) => {
        const [nx, ny] = outline[(i + 1) % outline.length]!;
        const gap = Math.hypot(toPixelX(frame, nx) - toPixelX(frame, x), toPixelY(frame, ny) - toPixelY(frame, y));
        const count = Math.max(1, Math.min(80, Math.ceil(gap / 7)));
        for (let k = 0; k < count; k++) points.push([x + ((nx - x) * k) / count, y + ((ny - y) * k) / count]);
      });
    }
  }
  return points;
}
