/** Axes of one drawing area: mapping between data and pixels, ticks, the plotted frame. */
import * as Plot from "@observablehq/plot";
import { formatShort } from "../numbers/index.ts";
import { GRID, INK } from "./style.ts";
import type { FigureDom } from "./types.ts";

export interface Axis {
  /** With its unit in parentheses. */
  readonly label: string;
  readonly from: number;
  readonly to: number;
  readonly log: boolean;
  /** Explicit ticks; chosen from the range when absent. */
  readonly ticks?: readonly number[];
  readonly format?: (value: number) => string;
}

export interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly margins: Margins;
  readonly x: Axis;
  readonly y: Axis;
}

function fraction(axis: Axis, value: number): number {
  return axis.log
    ? Math.log(value / axis.from) / Math.log(axis.to / axis.from)
    : (value - axis.from) / (axis.to - axis.from);
}

function valueAt(axis: Axis, t: number): number {
  return axis.log ? axis.from * (axis.to / axis.from) ** t : axis.from + (axis.to - axis.from) * t;
}

export function toPixelX(frame: Frame, value: number): number {
  const { left, right } = frame.margins;
  return left + fraction(frame.x, value) * (frame.width - left - right);
}

export function toPixelY(frame: Frame, value: number): number {
  const { top, bottom } = frame.margins;
  return frame.height - bottom - fraction(frame.y, value) * (frame.height - top - bottom);
}

/** Data coordinate of a pixel; also outside the frame. */
export function fromPixelX(frame: Frame, pixel: number): number {
  const { left, right } = frame.margins;
  return valueAt(frame.x, (pixel - left) / (frame.width - left - right));
}

export function fromPixelY(frame: Frame, pixel: number): number {
  const { top, bottom } = frame.margins;
  return valueAt(frame.y, (frame.height - bottom - pixel) / (frame.height - top - bottom));
}

/** Ticks at 1, 2, 5 × 10ⁿ: every decade on long logarithmic axes, a step that gives four to nine on linear ones. */
export function ticksOf(axis: Axis, wanted = 6): number[] {
  if (axis.ticks !== undefined) return [...axis.ticks];
  const ticks: number[] = [];
  if (axis.log) {
    const decades = Math.log10(axis.to / axis.from);
    const steps = decades > 3.5 ? [1] : decades > 1.2 ? [1, 3] : [1, 2, 5];
    for (let e = Math.floor(Math.log10(axis.from)); e <= Math.ceil(Math.log10(axis.to)); e++) {
      for (const step of steps) ticks.push(Number(`${step}e${e}`));
    }
  } else {
    const raw = (axis.to - axis.from) / wanted;
    const size = 10 ** Math.floor(Math.log10(raw));
    const step = [1, 2, 5, 10].map((m) => m * size).find((s) => s >= raw * 0.72)!;
    for (let i = Math.ceil(axis.from / step); i <= Math.floor(axis.to / step + 1e-9); i++) {
      ticks.push(Number((i * step).toPrecision(12)));
    }
  }
  const slack = 1e-9 * Math.abs(axis.to - axis.from);
  return ticks.filter((tick) => tick >= axis.from - slack && tick <= axis.to + slack);
}

/** Range that holds all `values` with `pad` parts of its length on both sides. */
export function padded(values: readonly number[], pad = 0.06): readonly [number, number] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  if (!(high > low)) {
    const middle = Number.isFinite(low) ? low : 0;
    return [middle - 1, middle + 1];
  }
  return [low - pad * (high - low), high + pad * (high - low)];
}

/** Draws grid, marks, axes and border; returns the `<svg>` text of the drawing area. */
export function plotFrame(frame: Frame, marks: readonly unknown[], dom: FigureDom): string {
  const { width, height, margins, x, y } = frame;
  const xTicks = ticksOf(x, Math.max(3, Math.round((width - margins.left - margins.right) / 75)));
  const yTicks = ticksOf(y, Math.max(3, Math.round((height - margins.top - margins.bottom) / 38)));
  const shared = { labelArrow: "none", labelAnchor: "center", tickSize: 4, color: INK } as const;
  const svg = Plot.plot({
    document: dom.document as never,
    className: "davit-plot",
    width,
    height,
    marginLeft: margins.left,
    marginRight: margins.right,
    marginTop: margins.top,
    marginBottom: margins.bottom,
    x: { type: x.log ? "log" : "linear", domain: [x.from, x.to] },
    y: { type: y.log ? "log" : "linear", domain: [y.from, y.to] },
    marks: [
      Plot.gridX({ ticks: xTicks, stroke: GRID, strokeOpacity: 1 }),
      Plot.gridY({ ticks: yTicks, stroke: GRID, strokeOpacity: 1 }),
      ...(marks as Plot.Markish[]),
      Plot.axisX({
        ...shared,
        ticks: xTicks,
        tickFormat: x.format ?? ((value: number) => formatShort(value)),
        label: x.label === "" ? null : x.label,
        labelOffset: Math.min(margins.bottom - 4, 37),
      }),
      Plot.axisY({
        ...shared,
        ticks: yTicks,
        tickFormat: y.format ?? ((value: number) => formatShort(value)),
        label: y.label === "" ? null : y.label,
        labelOffset: margins.left - 4,
      }),
      Plot.frame({ stroke: INK, strokeWidth: 0.9 }),
    ],
  }) as unknown as { readonly outerHTML: string };
  return svg.outerHTML;
}
