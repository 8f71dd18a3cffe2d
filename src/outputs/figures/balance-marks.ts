/** What both figures of the study `balance` share: styles of the courses, their curves and legend. */
import * as Plot from "@observablehq/plot";
import type { BalanceBranch, BalanceResult } from "../../studies/balance/types.ts";
import type { LegendItem } from "./compose.ts";
import { type CurveStyle, curveStyle, WARN } from "./style.ts";

/** Courses with a symbol and a dash of their own. */
const DISTINCT = 6;
const FILLED_DASH = "3 6";
export const LIMIT_WIDTH = 2.6;

export interface DrawnBranch {
  readonly branch: BalanceBranch;
  readonly style: CurveStyle;
  /** Fill of its symbols: open for the first courses, filled for those whose style comes round again. */
  readonly fill: string;
}

export function drawnBranches({ branches }: BalanceResult): DrawnBranch[] {
  return branches.map((branch, i) => {
    const style = curveStyle(i);
    return i < DISTINCT
      ? { branch, style, fill: "#ffffff" }
      : { branch, style: { ...style, dash: FILLED_DASH }, fill: style.stroke };
  });
}

export interface TrackSpot {
  readonly x: number;
  readonly y: number;
}

/** Rows of a track from where it differs from the plan, the row before it included. */
export function ownSpots({ track, from_s }: BalanceBranch, read: (row: number) => TrackSpot): readonly TrackSpot[] {
  return track.time_s.flatMap((time, i) => (time >= from_s ? [read(i)] : []));
}

/**
 * Curve and a few symbols of a course.
 *
 * @param shown  rows that lie in the frame, of which some get a symbol
 * @param offset which of them, so that courses that lie on each other stay apart
 */
export function courseMarks(
  { style, fill }: DrawnBranch,
  spots: readonly TrackSpot[],
  shown: readonly TrackSpot[],
  offset: number,
): unknown[] {
  const every = Math.max(6, Math.ceil(shown.length / 7));
  const marked = shown.filter((_, i) => i % every === offset % every);
  const { stroke, dash, symbol } = style;
  return [
    Plot.line(spots, { x: "x", y: "y", stroke, strokeWidth: 2, strokeDasharray: dash, clip: true }),
    Plot.dot(marked, { x: "x", y: "y", symbol, r: 3.4, fill, stroke, strokeWidth: 1.4 }),
  ];
}

export function courseLegend(drawn: readonly DrawnBranch[]): LegendItem[] {
  return [
    ...drawn.map(({ branch, style, fill }): LegendItem => {
      const { stroke, dash, symbol } = style;
      return { kind: "line", label: branch.title, stroke, dash, width: 2, symbol, fill };
    }),
    { kind: "line", label: "c.g. limit", stroke: WARN, width: LIMIT_WIDTH },
  ];
}

/** The course that comes nearest to a limit, or lies farthest outside. */
export function nearestCourse({ branches }: BalanceResult): BalanceBranch {
  return branches.reduce((a, b) => (b.worst.margin_percentMac < a.worst.margin_percentMac ? b : a));
}
