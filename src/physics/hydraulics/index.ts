export {
  type Accumulator,
  type AccumulatorState,
  accumulatorState,
  pistonPressure,
  trappedOilStiffness,
} from "./accumulator.ts";
export {
  ATMOSPHERE,
  bulkModulusAt,
  densityAt,
  dynamicViscosity,
  type Fluid,
  kinematicViscosity,
  type ViscosityPoint,
} from "./fluid.ts";
export {
  type Bleed,
  bleedCoefficient,
  LAMINAR_REYNOLDS,
  laminarResistance,
  type Orifice,
  orificeCoefficient,
  reynoldsNumber,
} from "./passages.ts";
