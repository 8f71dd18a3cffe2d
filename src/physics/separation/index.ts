/** How the carried aircraft leaves: withdrawal from the bore, pins, severance, jettison, the carrier's answer, what falls. */
export { dropWithLift, loadFactorStep, terminalSpeed, withdrawalForce, withdrawalTime } from "./closed-forms.ts";
export { type Fall, type FallAir, type FallingBody, type FallStart, fallToGround } from "./falling-body.ts";
export {
  GatedLink,
  SeparationMotion,
  type SeparationRun,
  type SeparationSettings,
  separationColumn,
} from "./motion.ts";
export {
  looseRoot,
  type ManoeuvringCarrier,
  manoeuvringCarrier,
  type ProximityGrid,
  pullUp,
  SeparationAirloads,
} from "./ports.ts";
export { SEPARATION_COLUMNS, type SeparationColumn, type SeparationStep, type Withdrawal } from "./types.ts";
