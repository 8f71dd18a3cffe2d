import { DomainError } from "../errors.ts";
import type { SequentialPlan } from "./plan.ts";

/** What a plan does when the true share is known. */
export interface Operation {
  readonly share: number;
  /** Probability that it accepts; it refuses with the rest. */
  readonly accept: number;
  readonly expectedTrials: number;
  /** Probability that it decides only at the cut. */
  readonly reachesEnd: number;
  /** Fewest trials within which it has decided with 90 %. */
  readonly trials90: number;
}

/**
 * Exact probability of acceptance and number of trials of a plan, by the probabilities of all counts that are still open.
 *
 *     w(n, d) = (1 − q)·w(n − 1, d) + q·w(n − 1, d − 1) over open d;  what falls on a line leaves the sum      (3)
 *     E(N) = Σ_{n ≥ 0} Σ_d w(n, d)                                                                         (4)
 *
 * @param share  true share of successes, 0 … 1; q = 1 − share
 * @throws {DomainError} for another share
 * @source own derivation, README eq. 3, 4
 * @verified sequential.test.ts: enumeration, both probabilities add to 1, generated/claims-scipy (rtol 1e-11)
 */
export function operatingCharacteristic(plan: SequentialPlan, share: number): Operation {
  if (!(share >= 0 && share <= 1)) throw new DomainError("share", share, "0 to 1");
  const q = 1 - share;
  const open = new Float64Array(plan.most + 2);
  open[0] = 1;
  let [accept, expectedTrials, left, reachesEnd, trials90] = [0, 0, 1, 0, plan.most];
  let most = 0;
  let decided90 = false;
  for (let n = 1; n <= plan.most && left > 0; n++) {
    expectedTrials += left;
    if (n === plan.most) reachesEnd = left;
    const [low, high] = [plan.acceptAt[n]!, plan.refuseAt[n]!];
    most = Math.min(n, most + 1);
    left = 0;
    for (let d = most; d >= 0; d--) {
      const here = share * open[d]! + (d > 0 ? q * open[d - 1]! : 0);
      open[d] = d <= low || d >= high ? 0 : here;
      if (d <= low) accept += here;
      left += open[d]!;
    }
    most = Math.min(most, high - 1);
    if (!decided90 && left <= 0.1) {
      trials90 = n;
      decided90 = true;
    }
  }
  return { share, accept: Math.min(1, accept), expectedTrials, reachesEnd, trials90 };
}
