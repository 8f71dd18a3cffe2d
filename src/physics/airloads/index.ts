/** Load on the aircraft by the air and its engine: coefficient build-up, or a linear model about a trim. */
export { alphaRateSpeedFloor, DerivativeModel, derivativeModel, loadPerThrust } from "./derivative-model.ts";
export type {
  BodyVector,
  DerivativeSet,
  DragLaw,
  LateralDerivatives,
  MomentAxes,
  PlaneDerivatives,
  SideForceAxes,
} from "./derivative-set.ts";
export { DimensionalModel, dimensionalModel } from "./dimensional-model.ts";
export {
  type DimensionalSet,
  type LateralAccelerations,
  type LongitudinalAccelerations,
  momentsFromPrimed,
  normalToFlow,
} from "./dimensional-set.ts";
export { type LocalDerivatives, localDerivatives } from "./extract.ts";
export { type CoefficientTables, type GridTable, type TableFrame, TableModel, tableModel } from "./table-model.ts";
export type { AirLoad, AirloadModel, AirState, Controls } from "./types.ts";
