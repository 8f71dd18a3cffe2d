import { luFactor, luSolve } from "../../math/dense/index.ts";
import { normalCdf, normalQuantile } from "../../math/distributions/index.ts";
import { moments, runSamples, type Samples } from "./distribution.ts";
import type { NormalPoints } from "./points.ts";
import type { SampledModel } from "./sampled-model.ts";
import type { GroundTest, TestGain } from "./types.ts";
import { factorOf, measurementScore, type Variables } from "./variables.ts";

/** Samples that a test is judged by. */
const MOST_SAMPLES = 256;

/**
 * Correlation of the normal scores after measurements with independent normal errors.
 *
 *     R' = R − R Hᵀ(H R Hᵀ + V)⁻¹H R,   V = diag(v²)                                       (README eq. 6)
 *
 * @param correlation R, row-major, shape (n, n)
 * @param measured    index and standard deviation v of each measured score
 * @returns R', whose diagonal is the variance that is left
 */
export function afterMeasurement(
  correlation: Float64Array,
  n: number,
  measured: readonly { readonly index: number; readonly deviation: number }[],
): Float64Array {
  const m = measured.length;
  const S = new Float64Array(m * m);
  const gain = new Float64Array(m * n);
  measured.forEach(({ index, deviation }, a) => {
    measured.forEach((other, b) => {
      S[a * m + b] = correlation[index * n + other.index]! + (a === b ? deviation ** 2 : 0);
    });
    for (let j = 0; j < n; j++) gain[a * n + j] = correlation[index * n + j]!;
  });
  const left = correlation.slice();
  const pivots = new Int32Array(m);
  // a coefficient of one between two values measured without error: the second measurement adds nothing
  if (!luFactor(S, m, pivots)) return afterMeasurement(correlation, n, measured.slice(0, -1));
  luSolve(S, m, pivots, gain, n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      let taken = 0;
      measured.forEach(({ index }, a) => {
        taken += correlation[i * n + index]! * gain[a * n + j]!;
      });
      left[i * n + j] = correlation[i * n + j]! - taken;
    }
  }
  // equal halves, against rounding
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) {
      const both = 0.5 * (left[i * n + j]! + left[j * n + i]!);
      left[i * n + j] = both;
      left[j * n + i] = both;
    }
  }
  return left;
}

/** Measured values of a test among the variables. */
function measuredBy(test: GroundTest, { paths, values, marginals }: Variables) {
  return test.measures
    .map((path) => paths.indexOf(path))
    .filter((index) => index >= 0)
    .map((index) => ({ index, deviation: measurementScore(values[index]!, marginals[index]!, test.accuracy_1) }));
}

/**
 * What each test would change, by plane: the samples are repeated with the uncertainty that the test leaves, about the nominal values.
 *
 * @param samples those of the pair as it is, from the same points
 * @returns by plane, then by test that measures something; by falling variance bought
 */
export function testGains(
  model: SampledModel,
  points: NormalPoints,
  samples: Samples,
  tests: readonly GroundTest[],
  criteria: readonly number[],
  confidence: number,
  step: (what: string) => void,
): TestGain[][] {
  const { variables } = model;
  const n = variables.paths.length;
  const count = Math.min(samples.count, MOST_SAMPLES);
  const before = [0, 1].map((p) => moments(samples.zeta[p]!.subarray(0, count)));
  const gains: TestGain[][] = [[], []];
  for (const test of tests) {
    const measured = measuredBy(test, variables);
    if (measured.length === 0) continue;
    step(`ground test ${test.name}`);
    const factor = factorOf(afterMeasurement(variables.correlation, n, measured), n);
    const after = runSamples(model, points, count, () => {}, factor);
    for (let p = 0; p < 2; p++) {
      const own = moments(after.zeta[p]!);
      if (own.n === 0 || !(before[p]!.deviation > 0)) continue;
      gains[p]!.push({ test: test.name, ...gainOf(before[p]!, own, after.margin[p]!, criteria[p]!, confidence) });
    }
  }
  for (const list of gains) {
    list.sort((a, b) => b.varianceBought_1 - a.varianceBought_1 || (a.test < b.test ? -1 : 1));
  }
  return gains;
}

/**
 * Gain of a test in one plane.
 *
 *     bought = 1 − s'²/s²;   decides = Φ((μ − ζ_c − k s')/s_t) + Φ((ζ_c − μ − k s')/s_t),  s_t² = s² − s'²      (README eq. 8)
 *
 * μ, s before the test and s' after it; k the normal score of the confidence. What the test will find is spread by s_t.
 */
export function gainOf(
  before: { readonly mean: number; readonly deviation: number },
  after: { readonly deviation: number },
  margin: Float64Array,
  criterion: number,
  confidence: number,
): Omit<TestGain, "test"> {
  const left = Math.min(after.deviation, before.deviation);
  const share = 1 - (left / before.deviation) ** 2;
  const bought = share < 1e-9 ? 0 : share;
  const spread = Math.sqrt(bought) * before.deviation;
  const k = normalQuantile(confidence);
  const clear = before.mean - criterion - k * left;
  const reject = criterion - before.mean - k * left;
  const chance = (x: number): number => (spread > 0 ? normalCdf(x / spread) : x > 0 ? 1 : 0);
  let failing = 0;
  let of = 0;
  for (const value of margin) {
    if (Number.isNaN(value)) continue;
    of++;
    if (value < 0) failing++;
  }
  return {
    varianceBought_1: bought,
    standardDeviation_1: left,
    failing_1: of > 0 ? failing / of : 0,
    decides_1: Math.min(1, chance(clear) + chance(reject)),
  };
}
