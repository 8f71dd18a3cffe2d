/** Findings and inputs condensed for the first page. */
export { dampingCriterion } from "./criterion.ts";
export { isMeasured, isQuantity } from "./inputs.ts";
export { limitMeaning, limitRange, type RangeStyle } from "./limits.ts";
export {
  overallVerdict,
  relativeMargin,
  type Subject,
  subjectOf,
  summariseVerdicts,
  type VerdictRow,
} from "./verdicts.ts";
