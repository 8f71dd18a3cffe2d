import { DomainError } from "../errors.ts";
import { requireSize } from "../require.ts";

/** What a sequential plan is asked to tell apart, and at which risks. */
export interface SequentialAim {
  /** Share of successes that should be accepted, p₀. */
  readonly acceptable: number;
  /** Smaller share that should be refused, p₁. */
  readonly unacceptable: number;
  /** Accepted probability of refusing although the share is p₀, α. */
  readonly refusingGood: number;
  /** Accepted probability of accepting although the share is p₁, β. */
  readonly acceptingBad: number;
  /** The plan decides at the latest after this many trials. */
  readonly most: number;
}

/** Counts of failures at which a plan ends, by number of trials. */
export interface SequentialPlan extends SequentialAim {
  /** Most failures with which it accepts after n trials, shape (most + 1); −1 where it cannot accept yet. */
  readonly acceptAt: Int32Array;
  /** Fewest failures with which it refuses after n trials, shape (most + 1); n + 1 where it cannot refuse yet. */
  readonly refuseAt: Int32Array;
  /** Failures per trial along both lines, and the distance of the lines from the origin [failures]. */
  readonly slope: number;
  readonly acceptIntercept: number;
  readonly refuseIntercept: number;
}

const LARGEST = 20_000;

/**
 * Wald's sequential test of a share of successes, cut off after a stated number of trials.
 *
 *     accept once d ≤ s·n − hₐ, refuse once d ≥ s·n + hᵣ                                    (1)
 *     g = ln(q₁/q₀) + ln(p₀/p₁),  s = ln(p₀/p₁)/g,  hₐ = ln((1 − α)/β)/g,  hᵣ = ln((1 − β)/α)/g
 *     after the last trial accept if d ≤ s·n, else refuse                                   (2)
 *
 * d: failures among n trials, q = 1 − p. The cut and the whole numbers change the risks; `operatingCharacteristic` has the true ones.
 *
 * @throws {DomainError} for shares not 0 < p₁ < p₀ < 1, risks not above 0 with α + β < 1, or more than 20 000 trials
 * @source Wald, Ann. Math. Statist. 16 (1945) 117, section on the binomial distribution
 * @verified sequential.test.ts: every sequence of a small plan enumerated, Wald's inequalities, generated/claims-scipy
 */
export function sequentialPlan(aim: SequentialAim): SequentialPlan {
  const { acceptable: p0, unacceptable: p1, refusingGood: alpha, acceptingBad: beta, most } = aim;
  if (!(p1 > 0 && p1 < p0 && p0 < 1)) throw new DomainError("shares", [p1, p0], "0 < unacceptable < acceptable < 1");
  if (!(alpha > 0 && beta > 0 && alpha + beta < 1))
    throw new DomainError("risks", [alpha, beta], "above 0, together below 1");
  requireSize("trials of a plan", most, 1);
  if (most > LARGEST) throw new DomainError("trials of a plan", most, `at most ${LARGEST}`);
  const better = Math.log(p0 / p1);
  const g = better + Math.log((1 - p1) / (1 - p0));
  const slope = better / g;
  const acceptIntercept = Math.log((1 - alpha) / beta) / g;
  const refuseIntercept = Math.log((1 - beta) / alpha) / g;
  const acceptAt = new Int32Array(most + 1).fill(-1);
  const refuseAt = new Int32Array(most + 1);
  for (let n = 0; n <= most; n++) {
    if (n > 0) acceptAt[n] = Math.max(-1, Math.floor(slope * n - acceptIntercept + 1e-12));
    refuseAt[n] = Math.min(n + 1, Math.ceil(slope * n + refuseIntercept - 1e-12));
  }
  acceptAt[most] = Math.floor(slope * most + 1e-12);
  refuseAt[most] = acceptAt[most]! + 1;
  return { ...aim, acceptAt, refuseAt, slope, acceptIntercept, refuseIntercept };
}

/** Where a row of trials stands in a plan. */
export interface PlanState {
  readonly outcome: "accepted" | "refused" | "go on";
  /** Trials that counted: up to the decision. */
  readonly trials: number;
  readonly failures: number;
}

/**
 * Follows a plan along trials in the order in which they were made; trials after the decision do not count.
 *
 * @param successes  of each trial in order
 * @source eq. 1, 2
 * @verified sequential.test.ts
 */
export function followPlan(plan: SequentialPlan, successes: readonly boolean[]): PlanState {
  let failures = 0;
  for (let n = 1; n <= Math.min(plan.most, successes.length); n++) {
    if (!successes[n - 1]!) failures++;
    if (failures <= plan.acceptAt[n]!) return { outcome: "accepted", trials: n, failures };
    if (failures >= plan.refuseAt[n]!) return { outcome: "refused", trials: n, failures };
  }
  return { outcome: "go on", trials: successes.length, failures };
}
