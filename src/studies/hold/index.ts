export { type HoldContext, runHold } from "./run.ts";
export type * from "./types.ts";
