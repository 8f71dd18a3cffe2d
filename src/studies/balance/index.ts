export { type BalanceContext, runBalance } from "./run.ts";
export type * from "./types.ts";
