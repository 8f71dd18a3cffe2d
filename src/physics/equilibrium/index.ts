export {
  type Balance,
  type BalanceBranch,
  balanceBranches,
  balancesAt,
  type ElevatorRule,
  foldsOf,
} from "./branches.ts";
export { type LogDeterminant, staticDeterminant } from "./divergence.ts";
export { HookedStatics, type StaticState, type StaticsSettings, staticState } from "./statics.ts";
