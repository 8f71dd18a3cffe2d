import { BugError } from "../../math/errors.ts";
import { rotationMatrix } from "../../math/rotation/index.ts";
import { type LinkagePose, type NodePoses, nodePoses, poseBetween } from "../../physics/linkage/index.ts";
import type { Pose } from "../../physics/shapes/index.ts";
import type { Axes3 } from "./frames.ts";

/** Way and turn of one body along the stroke, between solved poses. */
export interface BodyTable {
  /**
   * Pose at a share of the stroke, 0 stowed to 1 extended.
   * @param share  0 … 1
   * @param out    written
   */
  poseAt(share: number, out: Pose): void;
  /** Way of the reference point and turn of the body from share 0 [m, rad]; both never fall. */
  wayAt(share: number): number;
  turnAt(share: number): number;
  /** Reference point, body axes. */
  readonly reference: Axes3;
  /** What is interpolated. */
  readonly nodes: NodePoses;
}

/**
 * Table of one body's poses: between two solved nodes the reference point moves straight and the body turns evenly about one axis.
 *
 *     p(t) = p₀ + t·Δp,   R(t) = R₀·exp(t·φ),   φ = log(R₀ᵀ·R₁)                 (README eq. 4)
 *
 * How far that is from the linkage is what `provenDeviation` bounds.
 *
 * @param poses      solved at equal steps of the boom angle, the nodes; at least two
 * @param index      of the body in the linkage
 * @param reference  point of the body [m], body axes
 * @source own derivation, README eq. 4
 * @verified stroke.test.ts: corners of the body between nodes against solved poses
 */
export function bodyTable(poses: readonly LinkagePose[], index: number, reference: Axes3): BodyTable {
  if (poses.length < 2) throw new BugError(`${poses.length} poses make no stroke table`);
  const nodes = nodePoses(poses, { index, reference });
  const { points, turns } = nodes;
  const segments = poses.length - 1;
  const ways = new Float64Array(segments + 1);
  const angles = new Float64Array(segments + 1);
  for (let i = 0; i < segments; i++) {
    const p = 3 * i;
    ways[i + 1] =
      ways[i] + Math.hypot(points[p + 3] - points[p], points[p + 4] - points[p + 1], points[p + 5] - points[p + 2]);
    angles[i + 1] = angles[i] + Math.hypot(turns[p], turns[p + 1], turns[p + 2]);
  }
  const pose = new Float64Array(7);
  const along = (sums: Float64Array, share: number): number => {
    const x = Math.min(1, Math.max(0, share)) * segments;
    const i = Math.min(segments - 1, Math.floor(x));
    return sums[i] + (x - i) * (sums[i + 1] - sums[i]);
  };
  return {
    reference,
    nodes,
    poseAt(share, out) {
      const along = Math.min(1, Math.max(0, share)) * segments;
      const i = Math.min(segments - 1, Math.floor(along));
      poseBetween(nodes, i, along - i, pose);
      rotationMatrix(pose, 3, out.rotation);
      const r = out.rotation;
      const [x, y, z] = reference;
      for (let k = 0; k < 3; k++) {
        out.translation[k] = pose[k] - (r[3 * k] * x + r[3 * k + 1] * y + r[3 * k + 2] * z);
      }
    },
    wayAt: (share) => along(ways, share),
    turnAt: (share) => along(angles, share),
  };
}
