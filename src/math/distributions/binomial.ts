import { DomainError } from "../errors.ts";
import { incompleteBeta, logGamma } from "./beta.ts";

function requireBinomial(hits: number, of: number, share: number): void {
  if (!(Number.isInteger(of) && of >= 0)) throw new DomainError("number of trials", of, "a whole number, 0 or more");
  if (!Number.isInteger(hits)) throw new DomainError("number of hits", hits, "a whole number");
  if (!(share >= 0 && share <= 1)) throw new DomainError("probability", share, "0 to 1");
}

/** ln of n over k. */
function logWays(of: number, hits: number): number {
  return logGamma(of + 1) - logGamma(hits + 1) - logGamma(of - hits + 1);
}

/**
 * Probability of exactly k hits in n independent trials.
 *
 *     P(k) = n!/(k!(n − k)!)·p^k·(1 − p)^(n−k)                                            (8)
 *
 * @param hits   k; outside 0 … n the probability is 0
 * @param of     n
 * @param share  p
 * @throws {DomainError} for counts that are not whole or a probability outside 0 … 1
 * @source elementary
 * @verified binomial.test.ts: generated/claims-scipy (rtol 1e-11), sum 1
 */
export function binomialProbability(hits: number, of: number, share: number): number {
  requireBinomial(hits, of, share);
  if (hits < 0 || hits > of) return 0;
  if (share === 0) return hits === 0 ? 1 : 0;
  if (share === 1) return hits === of ? 1 : 0;
  return Math.exp(logWays(of, hits) + hits * Math.log(share) + (of - hits) * Math.log1p(-share));
}

/**
 * Probability of k or more hits in n independent trials.
 *
 *     P(≥ k) = I_p(k, n − k + 1)                                                          (9)
 *
 * @throws {DomainError} as `binomialProbability`
 * @source Abramowitz and Stegun 26.5.24
 * @verified binomial.test.ts: generated/claims-scipy (rtol 1e-10), sums of eq. 8
 */
export function binomialAtLeast(hits: number, of: number, share: number): number {
  requireBinomial(hits, of, share);
  if (hits <= 0) return 1;
  return hits > of ? 0 : incompleteBeta(share, hits, of - hits + 1);
}

/**
 * Probability of k or fewer hits in n independent trials, small values to full relative accuracy: P(≤ k) = P(≥ n − k misses).
 *
 * @throws {DomainError} as `binomialProbability`
 * @source Abramowitz and Stegun 26.5.24, mirrored
 * @verified binomial.test.ts: generated/claims-scipy (rtol 1e-10)
 */
export function binomialAtMost(hits: number, of: number, share: number): number {
  requireBinomial(hits, of, share);
  if (hits >= of) return 1;
  return hits < 0 ? 0 : incompleteBeta(1 - share, of - hits, hits + 1);
}

/** Two counts are equally likely when their probabilities agree to rounding. */
const EQUAL = 1 + 1e-7;

/**
 * Exact two-sided probability, under a stated share, of a count that is as unlikely as the one seen, or more so.
 *
 *     p = Σ P(j) over all j with P(j) ≤ P(k)                                              (10)
 *
 * @param hits   k, 0 … n
 * @param of     n
 * @param share  the share that is put to the test
 * @throws {DomainError} for counts or a probability out of range
 * @source common practice of exact binomial tests, no source
 * @verified binomial.test.ts: generated/claims-scipy (rtol 1e-9), symmetry
 */
export function binomialTest(hits: number, of: number, share: number): number {
  const seen = binomialProbability(hits, of, share);
  if (hits < 0 || hits > of) throw new DomainError("number of hits", hits, `0 to ${of}`);
  let sum = 0;
  for (let j = 0; j <= of; j++) {
    const each = binomialProbability(j, of, share);
    if (each <= seen * EQUAL) sum += each;
  }
  return Math.min(1, sum);
}

/** Hits and misses of two groups of trials. */
export interface TwoGroups {
  readonly hits: readonly [number, number];
  readonly of: readonly [number, number];
}

/** Exact probabilities of a division of hits between two groups of equal share. */
export interface GroupTest {
  /** Of a division as unlikely as the one seen, or more so. */
  readonly twoSided: number;
  /** Of as many hits in the first group as seen, or fewer. */
  readonly firstLower: number;
  /** Of as many hits in the first group as seen, or more. */
  readonly firstHigher: number;
}

/**
 * Do two groups of independent trials have the same share of hits? All totals are held as seen.
 *
 *     P(a) = C(n₁, a)·C(n₂, K − a)/C(n₁ + n₂, K),   K hits together                       (11)
 *
 * A large probability is no proof that the shares are equal: few trials cannot show a difference.
 *
 * @throws {DomainError} for counts that are not whole or more hits than trials
 * @source Fisher, The Design of Experiments (1935), chapter 2: the lady tasting tea, 17/70
 * @verified binomial.test.ts: 17/70 by counting, generated/claims-scipy (rtol 1e-9)
 */
export function fisherExact({ hits, of }: TwoGroups): GroupTest {
  hits.forEach((k, i) => {
    requireBinomial(k, of[i]!, 0);
    if (k < 0 || k > of[i]!) throw new DomainError("number of hits", k, `0 to ${of[i]!}`);
  });
  const [first, second] = of;
  const together = hits[0] + hits[1];
  const whole = logWays(first + second, together);
  const chance = (a: number): number => Math.exp(logWays(first, a) + logWays(second, together - a) - whole);
  const seen = chance(hits[0]);
  let [twoSided, firstLower, firstHigher] = [0, 0, 0];
  for (let a = Math.max(0, together - second); a <= Math.min(first, together); a++) {
    const each = chance(a);
    if (each <= seen * EQUAL) twoSided += each;
    if (a <= hits[0]) firstLower += each;
    if (a >= hits[0]) firstHigher += each;
  }
  return {
    twoSided: Math.min(1, twoSided),
    firstLower: Math.min(1, firstLower),
    firstHigher: Math.min(1, firstHigher),
  };
}
