/** Names of parts in a drawing: text where it covers least, with a thin line to the part. */
import * as Plot from "@observablehq/plot";
import { type Frame, fromPixelX, fromPixelY, toPixelX, toPixelY } from "./frame.ts";
import type { Point } from "./isolines.ts";
import { INK, SLATE } from "./style.ts";
import { fitText, textWidth } from "./text.ts";

export interface LeaderLabel {
  readonly text: string;
  /** The named point, in data units. */
  readonly at: Point;
  readonly color: string;
  readonly bold?: boolean;
}

export interface LabelBox {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const HEIGHT = 15;
const RADII = [18, 34, 52, 74, 100, 130, 165];
const TURNS = 24;
/** A name that costs more than this has no clear place and is left out; bold ones never are. */
const DEAREST = 420;

function overlap(a: LabelBox, b: LabelBox): number {
  const w = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const h = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return w > 0 && h > 0 ? w * h : 0;
}

const holds = (box: LabelBox, [x, y]: Point) => x > box.left && x < box.right && y > box.top && y < box.bottom;

/** Point of the box nearest to (x, y): where its line ends. */
function nearest(box: LabelBox, [x, y]: Point): Point {
  return [Math.min(box.right, Math.max(box.left, x)), Math.min(box.bottom, Math.max(box.top, y))];
}

interface Placed {
  readonly box: LabelBox;
  readonly from: Point;
  readonly to: Point;
}

function crosses(from: Point, to: Point, box: LabelBox): boolean {
  for (let k = 0; k <= 12; k++) {
    const t = k / 12;
    if (holds(box, [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])])) return true;
  }
  return false;
}

function side(a: Point, b: Point, c: Point): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

function linesCross(a: Placed, from: Point, to: Point): boolean {
  return side(a.from, a.to, from) * side(a.from, a.to, to) < 0 && side(from, to, a.from) * side(from, to, a.to) < 0;
}

/** Places the labels one after the other, each where it costs least. */
function place(
  labels: readonly LeaderLabel[],
  frame: Frame,
  obstacles: readonly Point[],
  reserved: readonly LabelBox[],
): (Placed | null)[] {
  const { width, height, margins } = frame;
  const inside = {
    left: margins.left + 3,
    right: width - margins.right - 3,
    top: margins.top + 3,
    bottom: height - margins.bottom - 3,
  };
  const spots = labels.map(({ at }): Point => [toPixelX(frame, at[0]), toPixelY(frame, at[1])]);
  const placed: Placed[] = [];
  return labels.map((label, i) => {
    const to = spots[i]!;
    const w = textWidth(label.text) * (label.bold === true ? 1.07 : 1) + 4;
    let best: Placed | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (const radius of RADII) {
      for (let k = 0; k < TURNS; k++) {
        const [c, s] = [Math.cos((2 * Math.PI * k) / TURNS), Math.sin((2 * Math.PI * k) / TURNS)];
        const [x, y] = [to[0] + c * (radius + w / 2), to[1] + s * radius];
        const box = { left: x - w / 2, right: x + w / 2, top: y - HEIGHT / 2, bottom: y + HEIGHT / 2 };
        const from = nearest(box, to);
        const cost =
          40 * (w * HEIGHT - overlap(box, inside)) +
          12 * placed.reduce((sum, one) => sum + overlap(box, one.box), 0) +
          12 * reserved.reduce((sum, one) => sum + overlap(box, one), 0) +
          34 * obstacles.filter((point) => holds(box, point)).length +
          400 * spots.filter((spot) => holds(box, spot)).length +
          300 * placed.filter((one) => crosses(from, to, one.box) || crosses(one.from, one.to, box)).length +
          250 * placed.filter((one) => linesCross(one, from, to)).length +
          1.3 * radius;
        if (cost < least) {
          least = cost;
          best = { box, from, to };
        }
      }
    }
    if (best === null || (least > DEAREST && label.bold !== true)) return null;
    placed.push(best);
    return best;
  });
}

/**
 * Marks that name points of a drawing; names that find no clear place are left out unless they are bold.
 *
 * @param obstacles points that text should not cover, in data units
 * @param reserved  boxes [px] that are already taken
 */
export function leaderLabels(
  frame: Frame,
  labels: readonly LeaderLabel[],
  obstacles: readonly Point[],
  reserved: readonly LabelBox[] = [],
): unknown[] {
  const short = labels.map((label) => ({ ...label, text: fitText(label.text, 270) }));
  const pixels = obstacles.map(([x, y]): Point => [toPixelX(frame, x), toPixelY(frame, y)]);
  const data = place(short, frame, pixels, reserved).flatMap((found, i) => {
    if (found === null) return [];
    const { box, from } = found;
    return [
      {
        ...short[i]!,
        x1: fromPixelX(frame, from[0]),
        y1: fromPixelY(frame, from[1]),
        x2: short[i]!.at[0],
        y2: short[i]!.at[1],
        x: fromPixelX(frame, (box.left + box.right) / 2),
        y: fromPixelY(frame, (box.top + box.bottom) / 2),
      },
    ];
  });
  const text = (bold: boolean) =>
    Plot.text(
      data.filter((one) => (one.bold === true) === bold),
      {
        x: "x",
        y: "y",
        text: "text",
        fill: "color",
        fontWeight: bold ? 700 : 500,
        stroke: "white",
        strokeWidth: 4,
      },
    );
  return [
    Plot.link(data, { x1: "x1", y1: "y1", x2: "x2", y2: "y2", stroke: "white", strokeWidth: 2.4, strokeOpacity: 0.7 }),
    Plot.link(data, { x1: "x1", y1: "y1", x2: "x2", y2: "y2", stroke: SLATE, strokeWidth: 0.7 }),
    Plot.dot(data, { x: "x2", y: "y2", r: 1.7, fill: INK }),
    text(false),
    text(true),
  ];
}
