export { type LatchedInputs, type PinSettings, readLatched } from "./read-settings.ts";
export { runAttachment } from "./run.ts";
export { modesAt, pinsAt } from "./states.ts";
export type * from "./types.ts";
