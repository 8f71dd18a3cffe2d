export type { ReadTable } from "./read.ts";
export { readTable } from "./read.ts";
