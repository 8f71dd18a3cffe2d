export type { CarrierEnergy } from "./carrier-energy.ts";
export { dominantMotion, type EnergyModel, ModeAnalysis, modesOf, type VibrationEnergy } from "./modes.ts";
export {
  CARRIER_MOTIONS,
  MOTIONS,
  type ModeClass,
  type ModePlane,
  type Motion,
  type PairMode,
  SPRINGS,
  type Spring,
} from "./types.ts";
