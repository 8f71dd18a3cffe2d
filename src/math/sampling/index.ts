export { haltonPoint } from "./halton.ts";
export { latinHypercube } from "./latin-hypercube.ts";
export { SOBOL_DIMENSIONS, sobolPoint, sobolSampler } from "./sobol.ts";
export type { UnitSampler } from "./types.ts";
