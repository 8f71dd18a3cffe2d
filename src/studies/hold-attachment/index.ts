export { runAttachment } from "./run.ts";
export type * from "./types.ts";
