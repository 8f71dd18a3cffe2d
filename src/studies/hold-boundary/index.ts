export { runBoundary } from "./run.ts";
export type * from "./types.ts";
