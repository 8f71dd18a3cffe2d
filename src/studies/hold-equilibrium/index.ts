export { runEquilibrium } from "./run.ts";
export type * from "./types.ts";
