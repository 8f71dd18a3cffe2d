export type { LoadedPair, LoadOptions } from "./load.ts";
export { loadPair } from "./load.ts";
