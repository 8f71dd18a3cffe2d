/** Names of curves beside a point of each, where they cover least. */
import * as Plot from "@observablehq/plot";
import { type Frame, fromPixelX, fromPixelY, toPixelX, toPixelY } from "./frame.ts";
import type { Point } from "./isolines.ts";
import { fitText, textWidth } from "./text.ts";

/** A reader's font may be this much wider than the estimate; a label at the edge must not leave the frame in it. */
const WIDEST = 1.12;

export interface NearLabel {
  readonly text: string;
  /** The point that is named, in data units. */
  readonly x: number;
  readonly y: number;
  readonly color: string;
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const HEIGHT = 15;

function overlap(a: Box, b: Box): number {
  const w = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const h = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return w > 0 && h > 0 ? w * h : 0;
}

function contains(box: Box, [x, y]: Point): boolean {
  return x > box.left && x < box.right && y > box.top && y < box.bottom;
}

/** Boxes round about a point, the nearest first. */
function candidates(px: number, py: number, width: number): Box[] {
  const boxes: Box[] = [];
  for (const [dx, dy] of [
    [12, -13],
    [12, 13],
    [-12, -13],
    [-12, 13],
    [14, 0],
    [-14, 0],
    [0, -20],
    [0, 20],
    [20, -30],
    [-20, -30],
    [20, 30],
    [-20, 30],
    [0, -34],
    [0, 34],
    [30, -46],
    [-30, -46],
  ] as const) {
    const left = dx > 0 ? px + dx : dx < 0 ? px + dx - width : px - width / 2;
    boxes.push({ left, right: left + width, top: py + dy - HEIGHT / 2, bottom: py + dy + HEIGHT / 2 });
  }
  return boxes;
}

function cost(box: Box, inside: Box, taken: readonly Box[], obstacles: readonly Point[]): number {
  const area = (box.right - box.left) * HEIGHT;
  const outside = area - overlap(box, inside);
  const covered = taken.reduce((sum, other) => sum + overlap(box, other), 0);
  return 20 * outside + 8 * covered + 60 * obstacles.filter((point) => contains(box, point)).length;
}

/**
 * Marks that print each label near its point, clear of the frame's edge, of the other labels and of the obstacles.
 *
 * @param obstacles points of curves and symbols, in data units
 */
export function nearLabels(frame: Frame, labels: readonly NearLabel[], obstacles: readonly Point[]): unknown[] {
  const { width, height, margins } = frame;
  const inside = {
    left: margins.left + 3,
    right: width - margins.right - 3,
    top: margins.top + 2,
    bottom: height - margins.bottom - 2,
  };
  const points = obstacles.map(([x, y]): Point => [toPixelX(frame, x), toPixelY(frame, y)]);
  const taken: Box[] = [];
  const placed = labels.map((label) => {
    const text = fitText(label.text, 190);
    const boxes = candidates(toPixelX(frame, label.x), toPixelY(frame, label.y), WIDEST * textWidth(text));
    const costs = boxes.map((box, i) => cost(box, inside, taken, points) + i);
    const best = boxes[costs.indexOf(Math.min(...costs))]!;
    taken.push(best);
    return {
      text,
      color: label.color,
      x: fromPixelX(frame, (best.left + best.right) / 2),
      y: fromPixelY(frame, (best.top + best.bottom) / 2),
    };
  });
  return [
    Plot.text(placed, {
      x: "x",
      y: "y",
      text: "text",
      fill: "color",
      fontWeight: 600,
      stroke: "white",
      strokeWidth: 4,
    }),
  ];
}

/** Points every few pixels along a polyline, so that a label cannot lie between two samples unseen. */
export function densify(frame: Frame, line: readonly Point[]): Point[] {
  const dense: Point[] = [];
  for (let i = 0; i < line.length; i++) {
    const [x, y] = line[i]!;
    const next = line[i + 1];
    dense.push([x, y]);
    if (next === undefined) continue;
    const gap = Math.hypot(
      toPixelX(frame, next[0]) - toPixelX(frame, x),
      toPixelY(frame, next[1]) - toPixelY(frame, y),
    );
    const parts = Math.min(60, Math.ceil(gap / 6));
    for (let k = 1; k < parts; k++) dense.push([x + ((next[0] - x) * k) / parts, y + ((next[1] - y) * k) / parts]);
  }
  return dense;
}
