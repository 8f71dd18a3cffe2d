/** Marks shared by the figures: hatched unstable side, criterion and zero lines, the pair's own value. */

import * as Plot from "@observablehq/plot";
import { formatShort } from "../numbers/index.ts";
import type { LegendItem } from "./compose.ts";
import type { Frame } from "./frame.ts";
import { INK, pattern, WARN } from "./style.ts";

export const UNSTABLE_TINT = "#f1ecec";

/** `<pattern>` of the unstable side, id `<figure>-unstable`. */
export function unstablePattern(id: string): string {
  return pattern(`${id}-unstable`, "rising", UNSTABLE_TINT, WARN, 0.5);
}

export function unstableLegend(id: string): LegendItem {
  return { kind: "area", label: "unstable", fill: `url(#${id}-unstable)`, stroke: WARN };
}

export function criterionLegend(criterion: number): LegendItem {
  return { kind: "line", label: `criterion ζ = ${formatShort(criterion)}`, stroke: INK, dash: "7 4", width: 1.6 };
}

/** Below zero damping hatched, zero line, criterion line. */
export function dampingGround(id: string, frame: Frame, criterion: number | null): unknown[] {
  const marks: unknown[] = [];
  const { x, y } = frame;
  if (y.from < 0) {
    const area = [{ x1: x.from, x2: x.to, y1: y.from, y2: Math.min(0, y.to) }];
    marks.push(Plot.rect(area, { x1: "x1", x2: "x2", y1: "y1", y2: "y2", fill: `url(#${id}-unstable)`, inset: 0 }));
    marks.push(Plot.ruleY([0], { stroke: WARN, strokeWidth: 1.2 }));
  }
  if (criterion !== null && criterion >= y.from && criterion <= y.to) {
    marks.push(Plot.ruleY([criterion], { stroke: INK, strokeWidth: 1.6, strokeDasharray: "7 4" }));
  }
  return marks;
}

/** Vertical line at the pair's own value with its label at the top of the frame. */
export function ownValue(at: number, label: string, frame: Frame): unknown[] {
  if (at < frame.x.from || at > frame.x.to) return [];
  const middle = frame.x.log ? Math.sqrt(frame.x.from * frame.x.to) : (frame.x.from + frame.x.to) / 2;
  return [
    Plot.ruleX([at], { stroke: INK, strokeWidth: 1, strokeDasharray: "2 2.5" }),
    Plot.text([at], {
      x: (value: number) => value,
      frameAnchor: "top",
      text: () => label,
      textAnchor: at > middle ? "end" : "start",
      dx: at > middle ? -5 : 5,
      dy: 5,
      stroke: "white",
      strokeWidth: 4,
      fill: INK,
    }),
  ];
}
