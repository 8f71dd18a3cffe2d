export { QUANTITIES, titleOf } from "./quantities.ts";
export { runRoughAir } from "./run.ts";
export type * from "./types.ts";
