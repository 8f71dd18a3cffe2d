export type { Context, Value } from "./context.ts";
export { crossCheck } from "./cross-check.ts";
export { notesOn } from "./notes.ts";
