export { dampingCriterion, doublingCriterion, meetsCriteria, noPublished } from "./criteria.ts";
export type { CriterionValue, HoldCondition, HoldInputs, MassState, Range } from "./inputs.ts";
export {
  airOf,
  atBoomAngle,
  massBetween,
  type Operating,
  operatingPoint,
  pairAt,
  settingsAt,
  tangentialRates,
} from "./operating.ts";
export { type HoldPartContext, type HoldPartOutcome, OPEN_QUESTIONS, type OpenQuestion } from "./part.ts";
export { type ReadGroups, restsOf } from "./read-groups.ts";
export { type OpenReads, readHoldInputs } from "./read-pair.ts";
export { type HoldBase, type HoldContext, holdBase, runHold } from "./run.ts";
export { PointModel, planeMargin, worstDamping } from "./stability.ts";
export type * from "./types.ts";
