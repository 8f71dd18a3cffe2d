export { runCertainty } from "./run.ts";
export type * from "./types.ts";
