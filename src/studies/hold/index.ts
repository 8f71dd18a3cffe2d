export { dampingCriterion, doublingCriterion, meetsCriteria, noPublished } from "./criteria.ts";
export {
  allowedGrowth,
  type BoundaryPiece,
  CHORD_DEVIATION,
  type Judge,
  ownMode,
  pathBoundary,
  piecesOf,
} from "./exact-boundary.ts";
export { isSymmetric } from "./findings.ts";
export type { CriterionValue, HoldCondition, HoldInputs, MassState, Range } from "./inputs.ts";
export { type JackSign, jackSignShareOf } from "./jack-sign.ts";
export * from "./operating.ts";
export { type HoldPartContext, type HoldPartOutcome, OPEN_QUESTIONS, type OpenQuestion } from "./part.ts";
export { describeModes } from "./points.ts";
export { type ReadGroups, restsOf } from "./read-groups.ts";
export { type OpenReads, readHoldInputs } from "./read-pair.ts";
export { type HoldBase, type HoldContext, holdBase, runHold } from "./run.ts";
export { PointModel, planeMargin, planeModes, worstDamping } from "./stability.ts";
export { stationPoint } from "./station.ts";
export { equivalentAt } from "./sweeps.ts";
export type * from "./types.ts";
