export { type ClaimsContext, type ClaimsOutcome, runClaims } from "./run.ts";
export type * from "./types.ts";
