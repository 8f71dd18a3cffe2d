import { circleShare } from "../../math/circle-share/index.ts";
import {
  attemptsNeeded,
  betaQuantile,
  clopperPearson,
  fisherExact,
  lowerBound,
  upperBound,
  wilson,
} from "../../math/distributions/index.ts";
import type { Attempt } from "./settings.ts";
import type {
  AttemptsToCarry,
  ClaimGrouping,
  ClaimVerdict,
  LearningCheck,
  MissScatter,
  PredictionCheck,
  ShareEstimate,
  SimulatedShare,
} from "./types.ts";

/** Captures among attempts. */
export interface Count {
  readonly hits: number;
  readonly of: number;
}

export function countOf(attempts: readonly Attempt[]): Count {
  return { hits: attempts.filter(({ captured }) => captured).length, of: attempts.length };
}

/**
 * Everything that may be said about a share from its count: point, exact and score intervals, posterior.
 *
 *     posterior: Beta(a + k, b + n − k), central interval from (1 − c)/2 to (1 + c)/2           (1)
 *
 * @param confidence  c, of each one-sided bound and of the two-sided intervals
 * @param prior       a captures and b failures known before
 * @source Clopper–Pearson, Wilson and conjugate prior, README eq. 1
 * @verified estimate.test.ts; generated/claims-scipy by math/distributions
 */
export function estimateShare(
  { hits, of }: Count,
  confidence: number,
  prior: { readonly hits: number; readonly misses: number },
): ShareEstimate {
  const [a, b] = [prior.hits + hits, prior.misses + of - hits];
  const posterior = {
    mean_1: a / (a + b),
    lower_1: betaQuantile((1 - confidence) / 2, a, b),
    upper_1: betaQuantile((1 + confidence) / 2, a, b),
  };
  const open = { lower_1: 0, upper_1: 1 };
  if (of === 0) return { hits, of, share_1: null, ...open, exact: open, score: open, posterior };
  const named = ({ lower, upper }: { lower: number; upper: number }) => ({ lower_1: lower, upper_1: upper });
  return {
    ...{ hits, of, share_1: hits / of },
    lower_1: lowerBound(hits, of, confidence),
    upper_1: upperBound(hits, of, confidence),
    exact: named(clopperPearson(hits, of, confidence)),
    score: named(wilson(hits, of, confidence)),
    posterior,
  };
}

/** What a count says about a target: shown, shown to be missed, or neither. */
export function claimVerdict({ of, lower_1, upper_1 }: ShareEstimate, target: number): ClaimVerdict {
  if (of === 0) return "no attempts";
  if (lower_1 >= target) return "demonstrated";
  return upper_1 < target ? "shown to fall short" : "not demonstrated";
}

/** Attempts to carry fuel for at the share seen and at both of its bounds (math/distributions eq. 14). */
export function attemptsToCarry({ share_1, lower_1, upper_1 }: ShareEstimate, recovery: number): AttemptsToCarry {
  return {
    atShare: share_1 === null ? null : attemptsNeeded(share_1, recovery),
    atLower: attemptsNeeded(lower_1, recovery),
    atUpper: attemptsNeeded(upper_1, recovery),
  };
}

/**
 * Is the log of a class consistent with the simulated share?
 *
 * Fisher's exact test, which counts the scatter of the simulation too; and the counts of the log that would have shown a difference.
 *
 * @source math/distributions eq. 11
 * @verified estimate.test.ts: the stated counts are the first to differ
 */
export function checkPrediction(count: Count, simulated: SimulatedShare, confidence: number): PredictionCheck {
  const p = (hits: number): number =>
    fisherExact({ hits: [hits, simulated.hits], of: [count.of, simulated.of] }).twoSided;
  const risk = 1 - confidence;
  const share = simulated.hits / simulated.of;
  const middle = Math.round(share * count.of);
  let [showsBelow, showsAbove] = [middle, middle];
  while (showsBelow >= 0 && p(showsBelow) >= risk) showsBelow--;
  while (showsAbove <= count.of && p(showsAbove) >= risk) showsAbove++;
  const own = p(count.hits);
  const { title, hits, of } = simulated;
  return { title, hits, of, share_1: share, p_1: own, differs: own < risk, showsBelow, showsAbove };
}

/** Attempts by the words of a column, each against all others; `null` where fewer than two words stand. */
export function groupingOf(
  by: ClaimGrouping["by"],
  attempts: readonly Attempt[],
  confidence: number,
): ClaimGrouping | null {
  const known = attempts.filter((each) => each[by] !== null);
  const names = [...new Set(known.map((each) => each[by]!))].sort();
  if (names.length < 2) return null;
  const whole = countOf(known);
  const groups = names.map((name) => {
    const { hits, of } = countOf(known.filter((each) => each[by] === name));
    const { lower, upper } = clopperPearson(hits, of, confidence);
    const p = fisherExact({ hits: [hits, whole.hits - hits], of: [of, whole.of - of] }).twoSided;
    return { name, hits, of, lower_1: lower, upper_1: upper, p_1: p };
  });
  const tests = names.length === 2 ? 1 : names.length;
  return { by, groups, least_1: Math.min(1, tests * Math.min(...groups.map(({ p_1 }) => p_1))) };
}

/** First against second half of the attempts; `null` for fewer than two. */
export function learningOf(attempts: readonly Attempt[]): LearningCheck | null {
  if (attempts.length < 2) return null;
  const half = Math.floor(attempts.length / 2);
  const [first, second] = [countOf(attempts.slice(0, half)), countOf(attempts.slice(half))];
  const p = fisherExact({ hits: [first.hits, second.hits], of: [first.of, second.of] }).twoSided;
  return { first, second, p_1: p };
}

/** Fewest misses that give a scatter in two directions. */
const LEAST_MISSES = 3;

/**
 * Mean and scatter of the misses, and what a normal distribution of that kind puts inside the capture radius.
 *
 * @param radius  [m], or `null`
 * @returns `null` for fewer than three misses, or where they do not scatter in both directions
 * @source sample moments; math/circle-share eq. 4
 * @verified estimate.test.ts
 */
export function missScatter(attempts: readonly Attempt[], radius: number | null): MissScatter | null {
  const misses = attempts.flatMap(({ miss }) => (miss === null ? [] : [miss]));
  const count = misses.length;
  if (count < LEAST_MISSES) return null;
  const mean = [0, 1].map((i) => misses.reduce((sum, miss) => sum + miss[i]!, 0) / count);
  const product = (i: number, j: number): number =>
    misses.reduce((sum, miss) => sum + (miss[i]! - mean[i]!) * (miss[j]! - mean[j]!), 0) / (count - 1);
  const [right, down] = [Math.sqrt(product(0, 0)), Math.sqrt(product(1, 1))];
  if (!(right > 0 && down > 0)) return null;
  const correlation = product(0, 1) / (right * down);
  if (!(Math.abs(correlation) < 1 - 1e-9)) return null;
  const scatter = { mean: [mean[0]!, mean[1]!], sigma: [right, down], correlation } as const;
  return {
    ...{ count, meanRight_m: mean[0]!, meanDown_m: mean[1]!, sigmaRight_m: right, sigmaDown_m: down },
    correlation_1: correlation,
    inCircle_1: radius === null ? null : circleShare(radius, scatter),
    counted_1: radius === null ? null : misses.filter(([y, z]) => Math.hypot(y, z) <= radius).length / count,
  };
}
