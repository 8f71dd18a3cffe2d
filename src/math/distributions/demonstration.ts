import { DomainError } from "../errors.ts";
import { binomialAtMost } from "./binomial.ts";
import { lowerBound } from "./intervals.ts";

/** Above it a demonstration by counting is out of reach, and the search ends. */
export const MOST_TRIALS = 10_000_000;

function requireShare(what: string, share: number): void {
  if (!(share > 0 && share < 1)) throw new DomainError(what, share, "above 0, below 1");
}

/**
 * Least number of independent trials that demonstrate a share when at most r of them fail.
 *
 *     smallest n with Σ_{j ≤ r} C(n, j)·(1 − s)^j·s^(n−j) ≤ 1 − c;   r = 0: n = ⌈ln(1 − c)/ln s⌉   (12)
 *
 * Known as 59 of 59 for 95 % with 95 % confidence. The number of failures is stated before the first trial.
 *
 * @param share       s, to be demonstrated
 * @param confidence  c
 * @param failures    r, 0 or more
 * @returns           n, or `null` beyond ten million
 * @throws {DomainError} for arguments out of range
 * @source Wilks, Ann. Math. Statist. 13 (1942) 400; success-run formula for r = 0
 * @verified demonstration.test.ts: published/demonstration-runs, generated/claims-scipy (equal)
 */
export function trialsNeeded(share: number, confidence: number, failures = 0): number | null {
  requireShare("share", share);
  requireShare("confidence", confidence);
  if (!(Number.isInteger(failures) && failures >= 0))
    throw new DomainError("failures", failures, "a whole number, 0 or more");
  const shown = (n: number): boolean => binomialAtMost(failures, n, 1 - share) <= (1 - confidence) * (1 + 1e-12);
  return smallest(failures + 1, shown);
}

/**
 * How many further successes without a failure lift the lower bound to a share.
 *
 *     smallest m ≥ 0 with lowerBound(k + m, n + m, c) ≥ s                                  (13)
 *
 * A plan, not a claim: who stops when the bound is reached and else goes on claims more than c supports.
 *
 * @param done        hits k of n so far; n may be 0
 * @param share       s, to be demonstrated
 * @param confidence  c, one-sided
 * @returns           m, or `null` beyond ten million
 * @throws {DomainError} for arguments out of range
 * @source own derivation, README eq. 13
 * @verified demonstration.test.ts: bounds on both sides of m; 0 of 0 gives eq. 12
 */
export function furtherSuccesses(
  done: { readonly hits: number; readonly of: number },
  share: number,
  confidence: number,
): number | null {
  requireShare("share", share);
  requireShare("confidence", confidence);
  const { hits, of } = done;
  if (of > 0 && lowerBound(hits, of, confidence) >= share) return 0;
  const failures = of - hits;
  const shown = (n: number): boolean => binomialAtMost(failures, n, 1 - share) <= (1 - confidence) * (1 + 1e-12);
  const whole = smallest(Math.max(of, 1), shown);
  return whole === null ? null : whole - of;
}

/** Smallest whole number of at least `from` for which a property holds that never ends once it holds. */
function smallest(from: number, holds: (n: number) => boolean): number | null {
  let step = 1;
  let low = from - 1;
  let high = from;
  while (!holds(high)) {
    if (high >= MOST_TRIALS) return null;
    low = high;
    high = Math.min(MOST_TRIALS, high + step);
    step *= 2;
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/**
 * Trials that must be allowed for so that at least one succeeds with a stated probability.
 *
 *     N = ⌈ln(1 − P)/ln(1 − p)⌉                                                            (14)
 *
 * Falls with p: the lower bound of p gives the larger, safe number.
 *
 * @param share   p of one trial
 * @param wanted  P
 * @returns       N of at least 1, or `null` where p is 0 or so small that N passes ten million
 * @throws {DomainError} for p outside 0 … 1 or P not inside it
 * @source own derivation: (1 − p)^N ≤ 1 − P
 * @verified demonstration.test.ts: both sides of N; 22 at p = 0.9 mirrored
 */
export function attemptsNeeded(share: number, wanted: number): number | null {
  if (!(share >= 0 && share <= 1)) throw new DomainError("share", share, "0 to 1");
  requireShare("wanted probability", wanted);
  if (share === 1) return 1;
  if (share === 0) return null;
  const exact = Math.log1p(-wanted) / Math.log1p(-share);
  // a quotient that is whole but for rounding is taken as whole
  const needed = Math.max(1, Math.ceil(exact * (1 - 1e-12)));
  return needed > MOST_TRIALS ? null : needed;
}
