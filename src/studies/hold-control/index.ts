export { runControl } from "./run.ts";
export type * from "./types.ts";
