export { integrate } from "./integrate.ts";
export { createRk4Workspace, type Rk4Workspace, rk4Step } from "./rk4.ts";
export type {
  Derivative,
  EventHit,
  EventSpec,
  IntegrateOptions,
  Integration,
  IntegrationOutcome,
  Step,
} from "./types.ts";
