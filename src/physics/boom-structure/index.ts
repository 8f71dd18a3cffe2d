export { type Freedom, type HeldBoom, holdBoom, holdMesh } from "./held-boom.ts";
export { withLength } from "./length.ts";
export { seriesStiffness } from "./links.ts";
export { type BoomMesh, meshBoom } from "./mesh.ts";
export { reduceToTip, type TipReduction } from "./reduction.ts";
export { forcesAlong, type SectionForces, type SectionStress, sectionForces } from "./section-forces.ts";
export { type BoomEquilibrium, type BoomLoading, type NotHeld, solveBoom } from "./statics.ts";
export { type TipCompliance, tipCompliance } from "./tip.ts";
export { type JackAtTip, type TipEquivalent, tipEquivalent } from "./tip-equivalent.ts";
export { type TipVibration, tipVibration } from "./tip-vibration.ts";
export type {
  BeamTheory,
  BoomAttachment,
  BoomLoad,
  BoomSection,
  BoomStructureSettings,
  BoomVector,
  PointMass,
} from "./types.ts";
export { type BoomMode, boomModes, type MotionKind, type Vibration } from "./vibration.ts";
