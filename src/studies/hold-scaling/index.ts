export { runScaling } from "./run.ts";
export type * from "./types.ts";
