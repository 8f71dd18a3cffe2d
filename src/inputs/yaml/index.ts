export type { Files, FileUsed, ReadFile } from "./files.ts";
export { openFiles } from "./files.ts";
export type { Assembled } from "./include.ts";
export { assemble } from "./include.ts";
export { LIMITS, spellBytes } from "./limits.ts";
export type { ReadYaml } from "./read.ts";
export { readYaml } from "./read.ts";
