import { type VarianceShares, varianceShares } from "../../math/variance-shares/index.ts";
import { normalPoints, USE } from "./points.ts";
import type { SampledModel } from "./sampled-model.ts";
import type { Settings } from "./settings.ts";
import type { Driver } from "./types.ts";

/** Pairs of points for each so many samples; between 64 and 1024. */
const SAMPLES_PER_PAIR = 16;

export function pairsFor(samples: number): number {
  return Math.max(64, Math.min(1024, Math.round(samples / SAMPLES_PER_PAIR)));
}

/** Variance shares of all groups of values in the worst ζ of both planes, from points of twice the inputs. */
export function driverShares(
  model: SampledModel,
  settings: Settings,
  seed: number,
  step: (done: number) => void,
): VarianceShares {
  const { groups, paths } = model.variables;
  const n = paths.length;
  const count = pairsFor(settings.samples);
  const points = normalPoints(settings.method, 2 * n, count, seed, USE.drivers);
  const both = new Float64Array(2 * n);
  return varianceShares({
    dimensions: n,
    outputs: 2,
    groups,
    count,
    pair: (i, a, b) => {
      if (i % 16 === 0) step(i);
      points.point(i, both);
      a.set(both.subarray(0, n));
      b.set(both.subarray(n));
    },
    evaluate: (u, out) => {
      if (model.evaluate(u) !== "modes") return false;
      // a plane without an oscillation has no share; the other keeps its own
      for (let p = 0; p < 2; p++) out[p] = Number.isNaN(model.zeta[p]!) ? 0 : model.zeta[p]!;
      return true;
    },
  });
}

/** Variance of the linear model, sᵀRs, over the indices of one group or of all. */
function linearVariance(slopes: Float64Array, correlation: Float64Array, indices: readonly number[]): number {
  const n = slopes.length;
  let sum = 0;
  for (const i of indices) for (const j of indices) sum += slopes[i]! * correlation[i * n + j]! * slopes[j]!;
  return Math.max(0, sum);
}

/** A total share below this is rounding: the group does not enter the motion. */
const ROUNDING = 1e-9;
const NOTHING = { first: 0, firstError: 0, total: 0, totalError: 0 };

/** Drivers of one plane by falling total share, with the linear standard deviation. */
export function rankDrivers(
  model: SampledModel,
  shares: VarianceShares["shares"][number],
  slopes: Float64Array | null,
): { readonly drivers: Driver[]; readonly linearDeviation_1: number | null } {
  const { groups, paths, correlation } = model.variables;
  const all = Array.from(paths.keys());
  const linear = slopes === null ? 0 : linearVariance(slopes, correlation, all);
  const drivers = groups.map((group, g): Driver => {
    const { first, firstError, total, totalError } = shares[g]!.total < ROUNDING ? NOTHING : shares[g]!;
    return {
      paths: group.map((j) => paths[j]!),
      firstOrder_1: first,
      firstOrderError_1: firstError,
      total_1: total,
      totalError_1: totalError,
      linear_1: slopes === null || !(linear > 0) ? 0 : linearVariance(slopes, correlation, group) / linear,
      slopes_1: group.map((j) => slopes?.[j] ?? 0),
    };
  });
  drivers.sort((a, b) => b.total_1 - a.total_1 || (a.paths[0]! < b.paths[0]! ? -1 : 1));
  return { drivers, linearDeviation_1: slopes === null ? null : Math.sqrt(linear) };
}
