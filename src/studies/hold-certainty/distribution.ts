import { clopperPearson, incompleteBeta } from "../../math/distributions/index.ts";
import type { NormalPoints } from "./points.ts";
import type { SampledModel } from "./sampled-model.ts";
import type { PlaneCertainty } from "./types.ts";

/** What all samples of a condition came to. */
export interface Samples {
  readonly count: number;
  /** By plane, in order of the samples: worst ζ; NaN without an oscillation or a trim, and where the pair cannot exist. */
  readonly zeta: readonly Float64Array[];
  /** By plane: smallest margin; NaN where the pair cannot exist. */
  readonly margin: readonly Float64Array[];
  readonly worstMass: readonly Int32Array[];
  readonly impossible: number;
  readonly noTrim: number;
}

/** Samples between two lines of progress. */
const STRIDE = 256;

/** Evaluates the first `count` points; `step` is called now and then with how many are done. */
export function runSamples(
  model: SampledModel,
  points: NormalPoints,
  count: number,
  step: (done: number) => void,
  factor?: Float64Array,
): Samples {
  const u = new Float64Array(model.variables.paths.length);
  const two = <T>(make: () => T): T[] => [make(), make()];
  const zeta = two(() => new Float64Array(count));
  const margin = two(() => new Float64Array(count));
  const worstMass = two(() => new Int32Array(count));
  let impossible = 0;
  let noTrim = 0;
  for (let i = 0; i < count; i++) {
    if (i % STRIDE === 0) step(i);
    points.point(i, u);
    const status = model.evaluate(u, factor);
    if (status === "impossible") impossible++;
    if (status === "no trim") noTrim++;
    for (let p = 0; p < 2; p++) {
      zeta[p]![i] = model.zeta[p]!;
      margin[p]![i] = model.margin[p]!;
      worstMass[p]![i] = model.worstMass[p]!;
    }
  }
  return { count, zeta, margin, worstMass, impossible, noTrim };
}

/** Mean and standard deviation of what is a number. */
export function moments(values: Float64Array): {
  readonly mean: number;
  readonly deviation: number;
  readonly n: number;
} {
  let n = 0;
  let sum = 0;
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    n++;
    sum += value;
  }
  const mean = n > 0 ? sum / n : 0;
  let squares = 0;
  for (const value of values) if (!Number.isNaN(value)) squares += (value - mean) ** 2;
  return { mean, deviation: Math.sqrt(squares / Math.max(1, n - 1)), n };
}

const PROBABILITIES = [0.01, 0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95, 0.99];
const BINS = 36;

type Summary = Pick<
  PlaneCertainty,
  "samples" | "mean_1" | "standardDeviation_1" | "quantiles" | "histogram" | "failing" | "lowerBound_1" | "worstMass"
>;

/** Distribution of the worst ζ of one plane and how often a criterion is missed; `null` when no sample has an oscillation. */
export function summarise(
  samples: Samples,
  plane: number,
  masses: readonly string[],
  criterion: number,
  confidence: number,
): Summary | null {
  const zeta = samples.zeta[plane]!;
  const margin = samples.margin[plane]!;
  const sorted = zeta.filter((value) => !Number.isNaN(value)).sort();
  if (sorted.length === 0) return null;
  const { mean, deviation } = moments(zeta);
  let failing = 0;
  let otherwise = 0;
  let of = 0;
  margin.forEach((value, i) => {
    if (Number.isNaN(value)) return;
    of++;
    if (!(value < 0)) return;
    failing++;
    if (!(zeta[i]! < criterion)) otherwise++;
  });
  const { lower, upper } = clopperPearson(failing, of, confidence);
  const worst = masses.map((mass, m) => ({
    mass,
    share_1: samples.worstMass[plane]!.filter((index) => index === m).length / sorted.length,
  }));
  return {
    samples: sorted.length,
    mean_1: mean,
    standardDeviation_1: deviation,
    quantiles: PROBABILITIES.map((probability) => ({
      probability_1: probability,
      dampingRatio_1: quantile(sorted, probability),
    })),
    histogram: histogramOf(sorted),
    failing: { count: failing, of, probability_1: failing / of, lower_1: lower, upper_1: upper, otherwise },
    lowerBound_1: sorted[lowerRank(sorted.length, 0.05, confidence)]!,
    worstMass: worst,
  };
}

/** Value below which a share p of sorted values lies, straight between neighbours. */
export function quantile(sorted: ArrayLike<number>, p: number): number {
  const at = Math.max(0, Math.min(sorted.length - 1, p * sorted.length - 0.5));
  const below = Math.floor(at);
  const above = Math.min(sorted.length - 1, below + 1);
  return sorted[below]! + (at - below) * (sorted[above]! - sorted[below]!);
}

/**
 * Index of the sorted value that lies below the p-quantile with the stated confidence.
 *
 *     largest k with P(at least k of n below the quantile) = I_p(k, n − k + 1) ≥ c             (README eq. 4)
 *
 * The smallest value, index 0, where not even that is sure.
 */
export function lowerRank(n: number, p: number, confidence: number): number {
  let rank = 0;
  for (let k = 1; k <= n && incompleteBeta(p, k, n - k + 1) >= confidence; k++) rank = k - 1;
  return rank;
}

/** Equal bins over all values. */
function histogramOf(sorted: Float64Array): PlaneCertainty["histogram"] {
  const low = sorted[0]!;
  const high = sorted[sorted.length - 1]!;
  const width = (high - low) / BINS || 1e-9;
  const counts = new Array<number>(BINS).fill(0);
  for (const value of sorted) {
    const bin = Math.min(BINS - 1, Math.floor((value - low) / width));
    counts[bin] = counts[bin]! + 1;
  }
  return { from_1: low, width_1: width, counts };
}
