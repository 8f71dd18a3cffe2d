/** Dimensions in a drawing: two extension lines, a line with ticks at its ends, the value. */
import * as Plot from "@observablehq/plot";
import { type Frame, fromPixelX, fromPixelY, toPixelX, toPixelY } from "./frame.ts";
import type { Point } from "./isolines.ts";
import type { LabelBox } from "./leader-labels.ts";
import { INK } from "./style.ts";
import { textWidth } from "./text.ts";

export interface Dimension {
  readonly from: Point;
  readonly to: Point;
  /** The direction that is measured. */
  readonly along: "x" | "y";
  /** Place of the line across that direction, in data units. */
  readonly at: number;
  readonly text: string;
}

interface Drawn {
  /** Ends of the dimension line [px]. */
  readonly ends: readonly [Point, Point];
  readonly points: readonly [Point, Point];
  readonly text: string;
  readonly middle: Point;
  readonly box: LabelBox;
}

const TICK = 4;

function layOut(frame: Frame, { from, to, along, at, text }: Dimension): Drawn {
  const pixel = ([x, y]: Point): Point => [toPixelX(frame, x), toPixelY(frame, y)];
  const points = [pixel(from), pixel(to)] as const;
  const line = along === "x" ? toPixelY(frame, at) : toPixelX(frame, at);
  const ends = points.map((point): Point => (along === "x" ? [point[0], line] : [line, point[1]]));
  const width = textWidth(text) + 4;
  const room = line + 8 + width <= frame.width - frame.margins.right;
  const beside = room ? line + 5 + width / 2 : line - 6 - width / 2;
  const middle: Point =
    along === "x" ? [(points[0][0] + points[1][0]) / 2, line + 10] : [beside, 0.3 * points[0][1] + 0.7 * points[1][1]];
  const box = {
    left: middle[0] - width / 2,
    right: middle[0] + width / 2,
    top: middle[1] - 8,
    bottom: middle[1] + 8,
  };
  return { ends: [ends[0]!, ends[1]!], points, text, middle, box };
}

/** Marks of dimensions, and the boxes [px] that their texts take. */
export function dimensionMarks(
  frame: Frame,
  dimensions: readonly Dimension[],
): { readonly marks: unknown[]; readonly boxes: LabelBox[] } {
  const drawn = dimensions.map((one) => layOut(frame, one));
  const segment = ([x1, y1]: Point, [x2, y2]: Point) => ({
    x1: fromPixelX(frame, x1),
    y1: fromPixelY(frame, y1),
    x2: fromPixelX(frame, x2),
    y2: fromPixelY(frame, y2),
  });
  const extensions = drawn.flatMap(({ ends, points }) => ends.map((end, i) => segment(points[i]!, end)));
  const lines = drawn.map(({ ends }) => segment(ends[0], ends[1]));
  const ticks = drawn.flatMap(({ ends }) => ends.map(([x, y]) => segment([x - TICK, y + TICK], [x + TICK, y - TICK])));
  const texts = drawn.map(({ middle, text }) => ({
    x: fromPixelX(frame, middle[0]),
    y: fromPixelY(frame, middle[1]),
    text,
  }));
  const ends = { x1: "x1", y1: "y1", x2: "x2", y2: "y2", stroke: INK } as const;
  return {
    marks: [
      Plot.link(extensions, { ...ends, strokeWidth: 0.5 }),
      Plot.link(lines, { ...ends, strokeWidth: 0.9 }),
      Plot.link(ticks, { ...ends, strokeWidth: 1.6 }),
      Plot.text(texts, { x: "x", y: "y", text: "text", fill: INK, fontWeight: 700, stroke: "white", strokeWidth: 4 }),
    ],
    boxes: drawn.map(({ box }) => box),
  };
}
