export { checkLength, inStations, LENGTH_SLACK, longestSide, METRES } from "./place.ts";
export type { MeshEffects } from "./read.ts";
export { readMesh, STEP_UNREADABLE } from "./read.ts";
export type { ImportStep, MeshProblem, MeshRead, RawMesh, ReadSibling } from "./types.ts";
