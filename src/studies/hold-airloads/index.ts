export { runAirloads } from "./run.ts";
export type * from "./types.ts";
