import { normalUpper } from "../../math/distributions/index.ts";
import { RandomStream } from "../../math/random/index.ts";
import { boxMinimum, nearestFailure } from "../../math/reliability/index.ts";
import type { Samples } from "./distribution.ts";
import { type NormalPoints, USE } from "./points.ts";
import type { SampledModel } from "./sampled-model.ts";
import type { PlaneCertainty, ValueAt } from "./types.ts";

/** Corners drawn at random as starts, beside the linear corner and the worst sample. */
const RANDOM_STARTS = 2;
/** Scores smaller than this are not listed [standard deviations]. */
const LISTED = 0.05;

function listed(paths: readonly string[], scores: Float64Array): ValueAt[] {
  return paths
    .map((path, j) => ({ path, score_1: scores[j]! }))
    .filter(({ score_1 }) => Math.abs(score_1) >= LISTED)
    .sort((a, b) => Math.abs(b.score_1) - Math.abs(a.score_1) || (a.path < b.path ? -1 : 1));
}

/**
 * Lowest worst ζ of a plane with every value within ± k standard deviations, correlations left aside: the corner that no
 * declared bound excludes. `null` without an oscillation.
 *
 * Starts: the corner to which the slopes point, the worst sample, corners at random.
 */
export function worstCase(
  model: SampledModel,
  plane: number,
  bound: number,
  slopes: Float64Array | null,
  worstSample: Float64Array | null,
  seed: number,
): PlaneCertainty["worstCase"] {
  const n = model.variables.paths.length;
  const starts: Float64Array[] = [new Float64Array(n)];
  if (slopes !== null) starts.push(slopes.map((slope) => -bound * Math.sign(slope)));
  if (worstSample !== null) starts.push(worstSample);
  for (let k = 0; k < RANDOM_STARTS; k++) {
    const stream = new RandomStream(seed, k, USE.starts);
    starts.push(Float64Array.from({ length: n }, () => (stream.uniform() < 0.5 ? -bound : bound)));
  }
  const lowest = (z: Float64Array): number => {
    const status = model.evaluateScores(z);
    return status === "modes" ? model.zeta[plane]! : Number.NaN;
  };
  const found = boxMinimum(lowest, bound, starts);
  if (!Number.isFinite(found.value)) return null;
  return {
    dampingRatio_1: found.value,
    values: thatMatter(model.variables.paths, found.point, found.value, lowest),
    starts: starts.length,
    agreeing: found.agreeing,
    evaluations: found.evaluations,
  };
}

/** Values of the worst corner by what each adds alone; those that add less than a hundredth of the largest are left out. */
function thatMatter(
  paths: readonly string[],
  point: Float64Array,
  value: number,
  lowest: (z: Float64Array) => number,
): NonNullable<PlaneCertainty["worstCase"]>["values"] {
  const z = point.slice();
  const all = listed(paths, point).map((one) => {
    const j = paths.indexOf(one.path);
    z[j] = 0;
    const without = lowest(z);
    z[j] = point[j]!;
    return { ...one, adds_1: Number.isNaN(without) ? 0 : without - value };
  });
  const least = 0.01 * Math.max(...all.map(({ adds_1 }) => adds_1), 0);
  return all
    .filter(({ adds_1 }) => adds_1 > 0 && adds_1 >= least)
    .sort((a, b) => b.adds_1 - a.adds_1 || (a.path < b.path ? -1 : 1));
}

/** A search that ends at an angle of 0.01 rad has no more digits than these; further ones would differ between machines. */
const rounded = (value: number): number => Math.round(value * 1e6) / 1e6;

/**
 * Distance of the nearest failure of a plane from the nominal values, in standard deviations, correlations counted.
 *
 * @param rays directions of u in which failures are feared
 */
export function distanceToLimit(
  model: SampledModel,
  plane: number,
  rays: readonly Float64Array[] = [],
): PlaneCertainty["distance"] {
  const { paths, factor } = model.variables;
  const n = paths.length;
  const margin = (u: Float64Array): number => {
    model.evaluate(u);
    return model.margin[plane]!;
  };
  const found = nearestFailure(margin, n, { rays });
  const scores = new Float64Array(n);
  for (let i = 0; i < n; i++) for (let j = 0; j <= i; j++) scores[i]! += factor[i * n + j]! * found.point[j]!;
  const distance = rounded(found.distance);
  return {
    outcome: found.outcome,
    sigma_1: distance,
    values: listed(paths, scores.map(rounded)),
    probability_1: normalUpper(distance),
  };
}

/** Normal scores of the sample with the lowest worst ζ of a plane; `null` without one. */
export function worstSampleOf(
  model: SampledModel,
  samples: Samples,
  points: NormalPoints,
  plane: number,
): Float64Array | null {
  let worst = -1;
  samples.zeta[plane]!.forEach((value, i) => {
    if (value < (worst < 0 ? Number.POSITIVE_INFINITY : samples.zeta[plane]![worst]!)) worst = i;
  });
  if (worst < 0) return null;
  const { factor, paths } = model.variables;
  const n = paths.length;
  const u = new Float64Array(n);
  points.point(worst, u);
  const z = new Float64Array(n);
  for (let i = 0; i < n; i++) for (let j = 0; j <= i; j++) z[i]! += factor[i * n + j]! * u[j]!;
  return z;
}
