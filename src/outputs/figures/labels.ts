/** Names of curves beside their ends, pushed apart so that none covers another. */
import * as Plot from "@observablehq/plot";
import { type Frame, fromPixelX, fromPixelY, toPixelX, toPixelY } from "./frame.ts";
import { FONT_SIZE, SLATE } from "./style.ts";
import { fitText } from "./text.ts";

export interface EndLabel {
  readonly text: string;
  /** Where the curve ends, in data units. */
  readonly x: number;
  readonly y: number;
  readonly color: string;
}

const GAP = 14.5;

/**
 * Positions [px] nearest to `wanted` that keep `gap` between neighbours and stay between `low` and `high`.
 *
 * When there is not enough room for all of them, they share the room evenly. Returned in the order given.
 */
export function spread(wanted: readonly number[], low: number, high: number, gap: number): number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
  const step = order.length > 1 ? Math.min(gap, (high - low) / (order.length - 1)) : gap;
  const placed = order.map((i) => Math.min(high, Math.max(low, wanted[i]!)));
  for (let i = 1; i < placed.length; i++) placed[i] = Math.max(placed[i]!, placed[i - 1]! + step);
  let ceiling = high;
  for (let i = placed.length - 1; i >= 0; i--) {
    placed[i] = Math.min(placed[i]!, ceiling);
    ceiling = placed[i]! - step;
  }
  const result = new Array<number>(wanted.length);
  order.forEach((index, i) => {
    result[index] = placed[i]!;
  });
  return result;
}

/** Marks that print the labels in the right margin, with a thin leader from each curve's end. */
export function endLabels(frame: Frame, labels: readonly EndLabel[]): unknown[] {
  const { width, height, margins } = frame;
  const edge = width - margins.right;
  const clampY = (y: number) => Math.min(height - margins.bottom, Math.max(margins.top, y));
  const ends = labels.map((label) => ({
    px: Math.min(edge, Math.max(margins.left, toPixelX(frame, label.x))),
    py: clampY(toPixelY(frame, label.y)),
  }));
  const rows = spread(
    ends.map((end) => end.py),
    margins.top + 5,
    height - margins.bottom - 5,
    GAP,
  );
  const data = labels.map((label, i) => ({
    text: fitText(label.text, margins.right - 22, FONT_SIZE),
    color: label.color,
    x1: fromPixelX(frame, ends[i]!.px),
    y1: fromPixelY(frame, ends[i]!.py),
    x2: fromPixelX(frame, edge + 14),
    y2: fromPixelY(frame, rows[i]!),
    xText: fromPixelX(frame, edge + 18),
  }));
  return [
    Plot.link(data, { x1: "x1", y1: "y1", x2: "x2", y2: "y2", stroke: SLATE, strokeWidth: 0.6, strokeOpacity: 0.8 }),
    Plot.text(data, {
      x: "xText",
      y: "y2",
      text: "text",
      fill: "color",
      textAnchor: "start",
      fontWeight: 600,
      stroke: "white",
      strokeWidth: 3,
    }),
  ];
}
