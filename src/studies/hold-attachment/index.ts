export { statePoint } from "./points.ts";
export { type LatchedInputs, type PinSettings, readLatched } from "./read-settings.ts";
export { runAttachment } from "./run.ts";
export { modesAt, pinsAt, type StateInputs } from "./states.ts";
export type * from "./types.ts";
