/** Air: the U.S. Standard Atmosphere 1976 with an ISA offset, and the kinds of airspeed. */
export {
  type Airspeed,
  type CalibratedAirspeed,
  calibratedAirspeed,
  dynamicPressure,
  type EquivalentAirspeed,
  equivalentAirspeed,
  type MachNumber,
  machNumber,
  type TrueAirspeed,
  trueAirspeed,
} from "./airspeed.ts";
export { geometricFromGeopotential, geopotentialFromGeometric } from "./altitude.ts";
export {
  type Atmosphere,
  type MutableAtmosphere,
  pressureAltitude,
  standardAtmosphere,
  standardAtmosphereAtGeometric,
  writeStandardAtmosphere,
} from "./standard-atmosphere.ts";
