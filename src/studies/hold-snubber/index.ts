export { runSnubber } from "./run.ts";
export type * from "./types.ts";
