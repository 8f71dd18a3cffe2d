import { requirePositive, requireSize } from "../require.ts";

/** The lowest point found in a box. */
export interface BoxMinimum {
  readonly value: number;
  /** shape (n), every coordinate within ± the half width. */
  readonly point: Float64Array;
  /** Index of the start that led there. */
  readonly start: number;
  readonly evaluations: number;
  /** Starts that ended within 1e-6 of the lowest value: the search is as good as they agree. */
  readonly agreeing: number;
}

const MOST_PASSES = 12;
/** Gains below this share count as none, so that rounding decides nothing. */
const GAIN = 1e-9;

/**
 * Lowest value of a function within ±k of the origin, by coordinate search over the ends and the middle from several starts.
 *
 *     min f(x),  |x_j| ≤ k                                                              (1)
 *
 * Each pass tries −k, 0 and +k in every coordinate and keeps the lowest; it ends when a pass changes nothing. A function
 * that is monotone or bends downwards in each coordinate has its minimum at a corner, which the search can reach; for others
 * the result is an upper bound of the minimum. NaN counts as no value and is never taken.
 *
 * @param f          the function; shape (n)
 * @param halfWidth  k, above zero
 * @param starts     at least one point, shape (n); clipped to the box, not changed
 * @throws {DomainError} for a half width that is not positive, or no start
 * @source coordinate search, elementary
 * @verified reliability.test.ts: corners of monotone functions, interaction of two coordinates, middle, several starts
 * @cost about (2 n) evaluations a pass, two to four passes a start
 */
export function boxMinimum(
  f: (x: Float64Array) => number,
  halfWidth: number,
  starts: readonly Float64Array[],
): BoxMinimum {
  requirePositive("half width of the box", halfWidth);
  requireSize("number of starts", starts.length, 1);
  let evaluations = 0;
  const evaluate = (x: Float64Array): number => {
    evaluations++;
    const value = f(x);
    return Number.isNaN(value) ? Number.POSITIVE_INFINITY : value;
  };
  const ends = starts.map((start) => {
    const x = start.map((value) => Math.max(-halfWidth, Math.min(halfWidth, value)));
    let value = evaluate(x);
    for (let pass = 0; pass < MOST_PASSES; pass++) {
      let changed = false;
      for (let j = 0; j < x.length; j++) {
        const kept = x[j]!;
        let best = kept;
        for (const trial of [-halfWidth, 0, halfWidth]) {
          if (trial === kept) continue;
          x[j] = trial;
          const found = evaluate(x);
          if (found < value - GAIN * Math.max(1, Math.abs(value))) {
            value = found;
            best = trial;
            changed = true;
          }
        }
        x[j] = best;
      }
      if (!changed) break;
    }
    return { x, value };
  });
  let start = 0;
  ends.forEach(({ value }, i) => {
    if (value < ends[start]!.value - GAIN * Math.max(1, Math.abs(value))) start = i;
  });
  const { x: point, value } = ends[start]!;
  const agreeing = ends.filter((end) => Math.abs(end.value - value) <= 1e-6 * Math.max(1, Math.abs(value))).length;
  return { value, point, start, evaluations, agreeing };
}
