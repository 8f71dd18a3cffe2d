export { incompleteBeta, logGamma } from "./beta.ts";
export {
  binomialAtLeast,
  binomialAtMost,
  binomialProbability,
  binomialTest,
  fisherExact,
  type GroupTest,
  type TwoGroups,
} from "./binomial.ts";
export { attemptsNeeded, furtherSuccesses, MOST_TRIALS, trialsNeeded } from "./demonstration.ts";
export { betaQuantile, clopperPearson, lowerBound, type ShareInterval, upperBound, wilson } from "./intervals.ts";
export { fromNormalScore, type Marginal, toNormalScore } from "./marginal.ts";
export { normalCdf, normalDensity, normalQuantile, normalUpper } from "./normal.ts";
