/** Does the carried aircraft leave cleanly? */
export { type ReleaseContext, runRelease } from "./run.ts";
export { releaseSamples } from "./samples.ts";
export type * from "./types.ts";
