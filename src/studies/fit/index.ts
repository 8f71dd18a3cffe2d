export { type AttitudeAlongStroke, attitudeAlongStroke } from "./attitude.ts";
export { type PosedBodies, type PosedPart, posedBodies } from "./posed-bodies.ts";
export { type RatioAlongStroke, ratioAlongStroke } from "./ratio.ts";
export { type FitContext, runFit } from "./run.ts";
export { hull } from "./silhouettes.ts";
export type * from "./types.ts";
