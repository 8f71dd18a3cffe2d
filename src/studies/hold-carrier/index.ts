export { runCarrier } from "./run.ts";
export type * from "./types.ts";
