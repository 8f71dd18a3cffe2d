export * from "./attached-pair.ts";
export { carrierAlone } from "./carrier-alone.ts";
export { controlPlant, FIRST_LOAD, LOAD_OUTPUTS, loadFactor, surfaceInputs } from "./control-plant.ts";
export { type FreeAircraft, freeAircraft } from "./free-aircraft.ts";
export { type HookedPair, type HookedPairSettings, hookedMass, hookedPair, pairOnTrim } from "./hooked-pair.ts";
export { IndependentMotion } from "./independent-motion.ts";
export { type Linearisation, linearise, perturb } from "./linearise.ts";
export { armFromStation, inertiaMatrix, type MassProperties, type StationPoint } from "./mass-properties.ts";
export { type Attachment, PairMotion, type PairMotionSettings } from "./pair-motion.ts";
export {
  airNearCarrier,
  type CarrierFlow,
  type CarrierPort,
  type Environment,
  emptySurroundings,
  freeMassCarrier,
  STANDARD_GRAVITY,
  type Surroundings,
  steadyCarrier,
  uniformAir,
} from "./ports.ts";
export { relativeToCarrier } from "./relative-motion.ts";
export { carrierAtTrim, RIGID_CARRIER_STATES, type RigidCarrierSettings, rigidCarrier } from "./rigid-carrier.ts";
export { TangentialModel } from "./tangential-model.ts";
export { type FreeTrim, type HookedTrim, trimFree, trimHooked } from "./trim.ts";
