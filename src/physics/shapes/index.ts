export { type Enclosure, enclosure } from "./distance/enclosure.ts";
export { closerThan, type DistanceOptions, minimumDistance } from "./distance/minimum-distance.ts";
export { createDistanceQuery, type DistanceQuery, type DistanceResult } from "./distance/query.ts";
export { createTree, type DistanceTree } from "./distance/tree.ts";
export { type InspectOptions, inspectMesh, type MeshFault, type MeshInspection, type MeshProblem } from "./inspect.ts";
export { createMesh, joinedMesh, type MeshProperties, meshProperties, mirroredMesh, movedMesh } from "./mesh.ts";
export type { MotionClearance, MotionClearanceOptions, MotionSpan } from "./motion/clearance.ts";
export { type MovingBody, motionClearance } from "./motion/clearance.ts";
export { type BodyPath, hingePath, meshRadius, restingPath, rigidTravelBound, slidePath } from "./motion/paths.ts";
export { carryPoint, createPose, relativePose } from "./pose.ts";
export { type BoxShape, bay, box } from "./stand-ins/box.ts";
export { type PanelShape, panel } from "./stand-ins/panel.ts";
export type { WheelShape } from "./stand-ins/round.ts";
export {
  type FuselageStation,
  fuselage,
  type JetShape,
  jetCone,
  propellerDisc,
  strut,
  wheel,
} from "./stand-ins/round.ts";
export type { Mesh, Pose, StandIn } from "./types.ts";
export { type WeldedMesh, weldMesh } from "./weld.ts";
export { windingNumber } from "./winding.ts";
