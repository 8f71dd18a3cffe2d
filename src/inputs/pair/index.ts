export type { ImportStep } from "../meshes/index.ts";
export type { LoadedPair, LoadOptions } from "./load.ts";
export { loadPair } from "./load.ts";
