import { carryPoint, relativePose, requirePose } from "../pose.ts";
import type { Pose } from "../types.ts";
import { windingNumber } from "../winding.ts";
import type { DistanceQuery } from "./query.ts";
import type { DistanceTree } from "./tree.ts";

/** Which body has a part inside the other. */
export type Enclosure = "none" | "a part of A lies in B" | "a part of B lies in A";

/**
 * Does a part of one body lie inside the other? Only where the surfaces do not touch: there one corner of each connected
 * part tells.
 *
 * A body counts as solid where its winding number is beyond ½ (README eq. 2); a sheet or an open surface encloses little or
 * nothing.
 *
 * @param treeA  body A
 * @param poseA  x_parent = R·x_A + p
 * @param treeB  body B
 * @param poseB  x_parent = R·x_B + p
 * @param query  room; its last nearest pair and result stay
 * @throws {DomainError} for a pose that is none
 * @source own derivation: a connected surface that does not cross another lies wholly inside or wholly outside
 * @verified minimum-distance.test.ts: box in box, both ways, and outside
 */
export function enclosure(
  treeA: DistanceTree,
  poseA: Pose,
  treeB: DistanceTree,
  poseB: Pose,
  query: DistanceQuery,
): Enclosure {
  requirePose("A", poseA);
  requirePose("B", poseB);
  if (holdsSeed(treeA, poseA, treeB, poseB, query)) return "a part of B lies in A";
  if (holdsSeed(treeB, poseB, treeA, poseA, query)) return "a part of A lies in B";
  return "none";
}

/** Is a seed of `inner` inside the surface of `outer`? */
function holdsSeed(
  outer: DistanceTree,
  poseOuter: Pose,
  inner: DistanceTree,
  poseInner: Pose,
  query: DistanceQuery,
): boolean {
  const { relative, moved } = query;
  relativePose(poseOuter, poseInner, relative);
  for (let i = 0; i < inner.seeds.length; i += 3) {
    carryPoint(relative, inner.seeds, i, moved, 0);
    if (!insideRootBox(outer.nodes, moved)) continue;
    if (Math.abs(windingNumber(outer.mesh, moved)) > 0.5) return true;
  }
  return false;
}

function insideRootBox(nodes: Float64Array, point: Float64Array): boolean {
  const x = point[0]! - nodes[0]!;
  const y = point[1]! - nodes[1]!;
  const z = point[2]! - nodes[2]!;
  for (let k = 0; k < 3; k++) {
    const along = nodes[7 + 3 * k]! * x + nodes[8 + 3 * k]! * y + nodes[9 + 3 * k]! * z;
    if (Math.abs(along) > nodes[4 + k]!) return false;
  }
  return true;
}
