import type { Pair } from "../../inputs/index.ts";
import { type Marginal, toNormalScore } from "../../math/distributions/index.ts";
import { BugError } from "../../math/errors.ts";
import { choleskyFactor } from "../../math/symmetric-eigen/index.ts";
import type { ReadGroups } from "../hold/index.ts";
import type { Uncertain } from "./patched-pair.ts";

/** The uncertain values that the modes of one condition rest on, with how they hang together. */
export interface Variables {
  readonly paths: readonly string[];
  readonly values: readonly Uncertain[];
  readonly marginals: readonly Marginal[];
  /** Indices of values that are correlated with one another, directly or by way of others; every value in one group. */
  readonly groups: readonly (readonly number[])[];
  /** Correlation of the normal scores, row-major, shape (n, n). */
  readonly correlation: Float64Array;
  /** Lower triangle L with L·Lᵀ = correlation, shape (n, n). */
  readonly factor: Float64Array;
  /** Number of coefficients that the pair declares among these values. */
  readonly correlations: number;
  /** For each value the mass states whose modes it changes. */
  readonly massesOf: readonly ReadonlySet<string>[];
}

/** Added to the diagonal before the factorisation: declared coefficients are rounded figures (as `inputs/checks` allows). */
const SLACK = 1e-9;

/**
 * Uncertain values behind the modes of a condition, in the order of their paths.
 *
 * @param uncertain every uncertain value of the pair
 * @param rests     paths that the modes of the condition rest on
 */
export function variablesOf(
  uncertain: ReadonlyMap<string, Uncertain>,
  rests: readonly string[],
  groups: ReadGroups,
  masses: readonly string[],
  declared: NonNullable<Pair["correlations"]>,
): Variables {
  const paths = [...new Set(rests)].filter((path) => uncertain.has(path)).sort();
  const values = paths.map((path) => uncertain.get(path)!);
  const n = paths.length;
  const correlation = new Float64Array(n * n);
  for (let i = 0; i < n; i++) correlation[i * n + i] = 1;
  let correlations = 0;
  for (const { between, coefficient } of declared) {
    const [i, j] = [paths.indexOf(between[0]!), paths.indexOf(between[1]!)];
    if (i < 0 || j < 0) continue;
    correlation[i * n + j] = coefficient.si;
    correlation[j * n + i] = coefficient.si;
    correlations++;
  }
  return {
    ...{ paths, values, correlation, correlations },
    marginals: values.map(marginalOf),
    groups: connected(correlation, n),
    factor: factorOf(correlation, n),
    massesOf: paths.map((path) => massesOf(path, groups, masses)),
  };
}

/** Form of a value's distribution about its nominal. */
export function marginalOf({ si, uncertainty }: Uncertain): Marginal {
  const { distribution, sigma, halfWidth, logSigma } = uncertainty;
  if (distribution === "normal") return { kind: "normal", centre: si, sigma };
  if (distribution === "lognormal") {
    if (logSigma === undefined) throw new BugError("a lognormal value without a standard deviation of its logarithm");
    return { kind: "lognormal", median: si, logSigma };
  }
  if (halfWidth === undefined) throw new BugError(`a ${distribution} value without a half width`);
  return { kind: distribution, centre: si, halfWidth };
}

/**
 * Standard deviation of a measurement in normal scores, for an accuracy that is a share of the value.
 *
 *     v = accuracy·|x|/(dx/dz at z = 0), the slope taken over ± ½ σ                       (README eq. 7)
 */
export function measurementScore(value: Uncertain, marginal: Marginal, accuracy: number): number {
  const half = 0.5 * value.uncertainty.sigma;
  const slope = (2 * half) / (toNormalScore(marginal, value.si + half) - toNormalScore(marginal, value.si - half));
  return (accuracy * Math.abs(value.si)) / slope;
}

/**
 * Lower triangle of a correlation matrix.
 *
 * @throws {BugError} if it is not positive semidefinite, which the checks of the pair exclude
 */
export function factorOf(correlation: Float64Array, n: number): Float64Array {
  const factor = correlation.slice();
  for (let i = 0; i < n; i++) factor[i * n + i] = factor[i * n + i]! + SLACK;
  if (!choleskyFactor(factor, n, SLACK / 10))
    throw new BugError("the correlations passed the checks but have no factor");
  return factor;
}

/** Sets of indices that hang together by coefficients other than zero. */
function connected(correlation: Float64Array, n: number): number[][] {
  const groupOf = Array.from({ length: n }, (_, i) => i);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) {
      if (correlation[i * n + j] === 0 || groupOf[i] === groupOf[j]) continue;
      const [keep, drop] = [Math.min(groupOf[i]!, groupOf[j]!), Math.max(groupOf[i]!, groupOf[j]!)];
      for (let k = 0; k < n; k++) if (groupOf[k] === drop) groupOf[k] = keep;
    }
  }
  return [...new Set(groupOf)].map((group) => Array.from(groupOf.keys()).filter((i) => groupOf[i] === group));
}

/** Mass states that a value changes: those that alone read it, or all. */
function massesOf(path: string, groups: ReadGroups, masses: readonly string[]): ReadonlySet<string> {
  const readers = masses.filter((mass) => groups.masses.get(mass)?.includes(path));
  const { masses: _, conditions, ...others } = groups;
  const elsewhere = [...Object.values(others), ...conditions.values()].some((paths: readonly string[]) =>
    paths.includes(path),
  );
  return new Set(elsewhere || readers.length === 0 ? masses : readers);
}
