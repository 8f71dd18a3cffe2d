export type { ReadColumns } from "./read.ts";
export { readTable } from "./read.ts";
