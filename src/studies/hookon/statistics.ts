import { circleShare, type PlaneScatter, rayleighShare } from "../../math/circle-share/index.ts";
import { clopperPearson, wilson } from "../../math/distributions/index.ts";
import type { MissDistribution, OutcomeShare, SampledQuantity } from "./types.ts";

/**
 * Share of hits with its exact and score intervals.
 *
 * @param hits       number of hits, a whole number 0 … `of`
 * @param of         number of approaches, above 0
 * @param confidence two-sided, e.g. 0.95
 * @throws {DomainError} for counts out of range
 * @source `math/distributions`, eq. 5 and 6
 * @verified summarise.test.ts
 */
export function outcomeShare(hits: number, of: number, confidence: number): OutcomeShare {
  return {
    count: hits,
    of,
    share_1: hits / of,
    exact_1: { ...clopperPearson(hits, of, confidence) },
    score_1: { ...wilson(hits, of, confidence) },
  };
}

/**
 * Value below which a share of sorted values lies, straight lines between the values.
 *
 *     x_p = x_(k) + (h − k)·(x_(k+1) − x_(k)),  h = (n − 1)·p                                       (README eq. 1)
 *
 * @param sorted rising, shape (n), n at least 1
 * @param share  p, 0 … 1
 * @source definition 7 of Hyndman and Fan, The American Statistician 50 (1996) 361
 * @verified summarise.test.ts
 */
export function percentile(sorted: Float64Array, share: number): number {
  const place = (sorted.length - 1) * share;
  const k = Math.min(sorted.length - 1, Math.floor(place));
  const next = Math.min(sorted.length - 1, k + 1);
  return sorted[k] + (place - k) * (sorted[next] - sorted[k]);
}

function meanOf(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum / values.length;
}

/** Σ (a − ā)(b − b̄)/(n − 1); 0 for one value. */
function covariance(a: Float64Array, b: Float64Array): number {
  if (a.length < 2) return 0;
  const [meanA, meanB] = [meanOf(a), meanOf(b)];
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] - meanA) * (b[i] - meanB);
  return sum / (a.length - 1);
}

/**
 * Moments and percentiles of values; NaN stands for "did not happen" and is left out.
 *
 * @returns `null` when nothing is left
 * @source README eq. 1
 * @verified summarise.test.ts
 */
export function quantityOf(
  column: { readonly key: string; readonly title: string; readonly unit: string },
  values: Float64Array,
): SampledQuantity | null {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort();
  if (sorted.length === 0) return null;
  const mean = meanOf(sorted);
  return {
    ...column,
    count: sorted.length,
    mean,
    p05: percentile(sorted, 0.05),
    p50: percentile(sorted, 0.5),
    p95: percentile(sorted, 0.95),
    p99: percentile(sorted, 0.99),
    largest: sorted[sorted.length - 1],
    mean3Sigma: mean + 3 * Math.sqrt(covariance(sorted, sorted)),
  };
}

/** Fewest passages of the plane of the mouth from which a distribution is stated. */
const FEWEST = 3;

/**
 * Distribution of the misses in the plane of the mouth, with the share inside the circle that captures: counted, of normal scatter
 * with the same mean and covariance, and of equal scatter about the centre (Rayleigh) with the same mean square.
 *
 * @param right  right of the mouth's centre [m], shape (n); NaN where the head did not come to the mouth
 * @param down   below it [m], shape (n)
 * @param radius largest distance at which the head still enters [m]
 * @returns `null` for fewer than three passages
 * @source `math/circle-share`; README eq. 2
 * @verified summarise.test.ts: normal samples against their own distribution
 */
export function missOf(right: Float64Array, down: Float64Array, radius: number): MissDistribution | null {
  const came = (_: number, i: number): boolean => !Number.isNaN(right[i]) && !Number.isNaN(down[i]);
  const [x, y] = [right.filter(came), down.filter(came)];
  if (x.length < FEWEST) return null;
  const radii = x.map((value, i) => Math.hypot(value, y[i])).sort();
  const mean = [meanOf(x), meanOf(y)] as const;
  const [xx, xy, yy] = [covariance(x, x), covariance(x, y), covariance(y, y)];
  const sigma = [Math.sqrt(xx), Math.sqrt(yy)] as const;
  const correlation = xx > 0 && yy > 0 ? Math.max(-1, Math.min(1, xy / (sigma[0] * sigma[1]))) : 0;
  let inside = 0;
  let square = 0;
  for (const each of radii) {
    if (each <= radius) inside++;
    square += each * each;
  }
  const equal = Math.sqrt(square / radii.length / 2);
  return {
    count: x.length,
    ...{ meanRight_m: mean[0], meanDown_m: mean[1], sigmaRight_m: sigma[0], sigmaDown_m: sigma[1] },
    correlation_1: correlation,
    radius_m: {
      p50: percentile(radii, 0.5),
      p90: percentile(radii, 0.9),
      p95: percentile(radii, 0.95),
      p99: percentile(radii, 0.99),
    },
    captureRadius_m: radius,
    inside_1: inside / x.length,
    normal_1: normalShare(radius, { mean, sigma, correlation }),
    rayleigh_1: equal > 0 ? rayleighShare(radius, equal) : 1,
  };
}

/** Share of normal scatter inside the circle; scatter so narrow that it is a point or a line counts by its widest axis alone. */
function normalShare(radius: number, scatter: Required<PlaneScatter>): number {
  const { mean, sigma, correlation } = scatter;
  const widest = Math.max(...sigma);
  if (!(widest > 1e-9)) return Math.hypot(...mean) <= radius ? 1 : 0;
  const least = 1e-6 * widest;
  const safe = { mean, sigma: [Math.max(sigma[0], least), Math.max(sigma[1], least)] as const };
  return circleShare(radius, { ...safe, correlation: Math.max(-0.999999, Math.min(0.999999, correlation)) });
}

/** More attempts than these are no plan. */
export const MOST_ATTEMPTS = 1000;

/**
 * Attempts that give at least one success with a stated probability, attempts independent.
 *
 *     N = ⌈ln(1 − P)/ln(1 − p)⌉                                                                     (README eq. 3)
 *
 * @param share       p, of one attempt, 0 … 1
 * @param probability P, asked for, above 0 and below 1
 * @returns `null` when it takes more than a thousand
 * @source own derivation, README eq. 3
 * @verified summarise.test.ts: by multiplying out
 */
export function attemptsFor(share: number, probability: number): number | null {
  if (share >= 1) return 1;
  if (share <= 0) return null;
  const needed = Math.max(1, Math.ceil(Math.log1p(-probability) / Math.log1p(-share) - 1e-9));
  return needed > MOST_ATTEMPTS ? null : needed;
}
