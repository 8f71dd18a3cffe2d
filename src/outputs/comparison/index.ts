/** Variants of one pair beside each other. */

export { balanceNumbers } from "./balance-numbers.ts";
export { hookonNumbers } from "./hookon-numbers.ts";
export { countVerdicts, holdNumbers } from "./key-numbers.ts";
export { releaseNumbers } from "./release-numbers.ts";
export { type ComparisonRow, comparisonRows } from "./rows.ts";
export {
  COMPARISON_SCHEMA,
  type HoldNumbers,
  type VariantComparison,
  type VariantNumbers,
  type VerdictCount,
  type WorstMode,
} from "./types.ts";
