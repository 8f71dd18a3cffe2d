export {
  type AircraftMotion,
  type ControlLaw,
  controlsFixed,
  noMotion,
  type RollHoldSettings,
  rollHold,
  SIGNALS,
  type Signal,
} from "./control-law.ts";
export {
  type ActuatorSettings,
  actuatorLag,
  type Channels,
  type ControlSystem,
  closedSystem,
  controlSystem,
  cutLoop,
  type Fault,
  handOver,
  type Loops,
} from "./control-system.ts";
export * from "./functions.ts";
export { type PilotSettings, type TunedPilot, tunePilot } from "./pilot-model.ts";
