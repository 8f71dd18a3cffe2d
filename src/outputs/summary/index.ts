/** Findings and inputs condensed for the first page. */
export { isMeasured, isQuantity } from "./inputs.ts";
export {
  overallVerdict,
  relativeMargin,
  type Subject,
  subjectOf,
  summariseVerdicts,
  type VerdictRow,
} from "./verdicts.ts";
