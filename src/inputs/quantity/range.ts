import type { Problem, Uncertainty } from "./types.ts";

/** Allowed range of a value in SI, with the words that say so. */
export interface Range {
  readonly above?: number;
  readonly atLeast?: number;
  readonly below?: number;
  readonly atMost?: number;
  readonly words: string;
}

export const POSITIVE: Range = { above: 0, words: "larger than zero" };
export const NOT_NEGATIVE: Range = { atLeast: 0, words: "zero or larger" };

function inside(si: number, range: Range): boolean {
  return (
    (range.above === undefined || si > range.above) &&
    (range.atLeast === undefined || si >= range.atLeast) &&
    (range.below === undefined || si < range.below) &&
    (range.atMost === undefined || si <= range.atMost)
  );
}

/** A problem when the value, or a hard bound of its uncertainty, lies outside the range. */
export function outside(si: number, uncertainty: Uncertainty | undefined, range: Range): Problem | undefined {
  if (!inside(si, range)) return { message: "is out of range", allowed: range.words };
  const half = uncertainty?.halfWidth;
  if (half !== undefined && !(inside(si - half, range) && inside(si + half, range))) {
    return { message: "is in range, but its uncertainty reaches outside", allowed: range.words };
  }
  return undefined;
}
