import type { Problem, Uncertainty } from "./types.ts";

/** Allowed range of a value in SI, with the words that say so. */
export interface Range {
  readonly above?: number;
  readonly atLeast?: number;
  readonly below?: number;
  readonly atMost?: number;
  readonly words: string;
}

function inside(si: number, range: Range): boolean {
  return (
    (range.above === undefined || si > range.above) &&
    (range.atLeast === undefined || si >= range.atLeast) &&
    (range.below === undefined || si < range.below) &&
    (range.atMost === undefined || si <= range.atMost)
  );
}

/**
 * Ends of what an uncertainty states: the value ± the stated figure, or the hard bounds where those are wider.
 *
 *     normal, uniform, triangular: v ± max(p, h);   lognormal: v²/(v + p) to v + p                (5)
 */
function ends(si: number, { plusMinus, halfWidth, distribution }: Uncertainty): readonly [number, number] {
  if (distribution === "lognormal") return [si / (1 + plusMinus / si), si + plusMinus];
  const reach = Math.max(plusMinus, halfWidth ?? 0);
  return [si - reach, si + reach];
}

/** A problem when the value, or an end of what its uncertainty states, lies outside the range. */
export function outside(si: number, uncertainty: Uncertainty | undefined, range: Range): Problem | undefined {
  if (!inside(si, range)) return { message: "is out of range", allowed: range.words };
  if (uncertainty === undefined) return undefined;
  const [low, high] = ends(si, uncertainty);
  if (inside(low, range) && inside(high, range)) return undefined;
  const normal = uncertainty.distribution === "normal";
  const positive = normal && si > 0 && (range.atLeast ?? range.above ?? -1) >= 0;
  const hint = positive && !inside(low, range) ? "; less than ± 100 %, or distribution: lognormal" : "";
  return { message: "is in range, but its uncertainty reaches outside", allowed: `${range.words}${hint}` };
}
