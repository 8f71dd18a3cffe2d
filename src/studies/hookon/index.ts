/** The study `hookon`: approach, contact and capture. */
export { conditionsOf, type HookonCondition } from "./conditions.ts";
export type { HookonInputs } from "./inputs.ts";
export { readHookonInputs } from "./read-pair.ts";
export { computeHookon, type HookonContext, runHookon, summarySettings } from "./run.ts";
export { drawTable, hookonSamples, studyOf } from "./sampler.ts";
export { summariseCase } from "./summarise.ts";
export type * from "./types.ts";
