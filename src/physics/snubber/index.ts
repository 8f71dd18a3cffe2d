export { describingRate, type RatedSpeed, speedsWithRate } from "./describing.ts";
export { plainLaw, reliefSpeed, type SnubberForceLaw, travelRate, valveForce } from "./force-law.ts";
export { type Balance, balanceHarmonics, type ComplexOfFrequency } from "./harmonic-balance.ts";
export { NonlinearPath, type NonlinearSnubber } from "./nonlinear-path.ts";
export { equivalentSnubberRate, referToTip, type SnubberLaw } from "./snubber.ts";
export {
  createTangentialPath,
  dynamicStiffness,
  type TangentialPath,
  type TangentialRates,
} from "./tangential-path.ts";
