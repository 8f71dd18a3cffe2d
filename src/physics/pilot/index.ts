export { type AircraftMotion, type ControlLaw, controlsFixed, type RollHoldSettings, rollHold } from "./control-law.ts";
