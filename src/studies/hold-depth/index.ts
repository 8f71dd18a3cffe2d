export { type HoldDepthContext, partNames, runHoldInDepth } from "./run.ts";
export type * from "./types.ts";
