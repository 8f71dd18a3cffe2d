import { DomainError } from "../../../math/errors.ts";
import { carryPoint, relativePose, requirePose } from "../pose.ts";
import type { Pose } from "../types.ts";
import { nodeGap } from "./box-gap.ts";
import type { DistanceQuery, DistanceResult } from "./query.ts";
import { type DistanceTree, NODE } from "./tree.ts";
import { triangleTriangle } from "./triangles.ts";

/** How far a query has to go; keep one object for many queries. */
export interface DistanceOptions {
  /** Pairs this far apart or more are not looked for [m], > 0; default ∞. */
  readonly upperBound?: number;
  /** The distance found may exceed the true one by this much [m], ≥ 0; default 0. */
  readonly tolerance?: number;
  /** Start from the nearest pair of this query's last call with the same trees; default true. Changes time, not the distance. */
  readonly warmStart?: boolean;
}

const DEFAULTS: DistanceOptions = {};

/**
 * Minimum distance of two surfaces, with their nearest points; zero when they touch or cross.
 *
 *     d = min over all pairs of triangles (README eq. 7), found by branch and bound over the trees (eq. 8)
 *
 * It is the distance of surfaces: a body wholly inside another has a distance; `enclosure` finds that case. Exact to a few units of rounding
 * of the largest coordinate in the axes of either body. No memory is taken.
 *
 * @param treeA    body A
 * @param poseA    x_parent = R·x_A + p
 * @param treeB    body B
 * @param poseB    x_parent = R·x_B + p
 * @param query    room and result
 * @param options  upper bound, tolerance, warm start
 * @returns `query.result`, overwritten by the next call
 * @throws {DomainError} for a pose that is none, an upper bound that is not above zero or a negative tolerance
 * @source own derivation, README section "Distance"
 * @verified minimum-distance.test.ts: published/collision-library-distance-cases (atol 1e-12), all pairs of triangles on small meshes
 *           (rtol 1e-12), symmetry, rigid invariance
 */
export function minimumDistance(
  treeA: DistanceTree,
  poseA: Pose,
  treeB: DistanceTree,
  poseB: Pose,
  query: DistanceQuery,
  options: DistanceOptions = DEFAULTS,
): DistanceResult {
  const upperBound = options.upperBound ?? Infinity;
  const tolerance = options.tolerance ?? 0;
  if (!(upperBound > 0)) throw new DomainError("upper bound of a distance", upperBound, "above 0");
  if (!(tolerance >= 0)) throw new DomainError("tolerance of a distance", tolerance, "at least 0");
  begin(treeA, poseA, treeB, poseB, query, upperBound);
  if (options.warmStart !== false && query.warmTreeA === treeA && query.warmTreeB === treeB) {
    trySlots(treeA, query.warmSlotA, treeB, query.warmSlotB, query, tolerance);
  }
  search(treeA, treeB, query, tolerance, false);
  return finish(treeA, treeB, poseA, query, upperBound, tolerance);
}

/**
 * Are two surfaces anywhere closer than a distance?
 *
 * Stops at the first pair that is; `query.result` then holds that pair, which need not be the nearest.
 *
 * @param treeA   body A
 * @param poseA   x_parent = R·x_A + p
 * @param treeB   body B
 * @param poseB   x_parent = R·x_B + p
 * @param distance  [m], > 0
 * @param query   room; it starts from the last pair of the same trees
 * @throws {DomainError} for a pose that is none or a distance that is not above zero
 * @source as `minimumDistance`
 * @verified minimum-distance.test.ts: against `minimumDistance`
 */
export function closerThan(
  treeA: DistanceTree,
  poseA: Pose,
  treeB: DistanceTree,
  poseB: Pose,
  distance: number,
  query: DistanceQuery,
): boolean {
  if (!(distance > 0)) throw new DomainError("distance to be closer than", distance, "above 0");
  begin(treeA, poseA, treeB, poseB, query, distance);
  let found = false;
  if (query.warmTreeA === treeA && query.warmTreeB === treeB) {
    found = trySlots(treeA, query.warmSlotA, treeB, query.warmSlotB, query, 0);
  }
  if (!found) search(treeA, treeB, query, 0, true);
  const result = finish(treeA, treeB, poseA, query, distance, 0);
  if (result.outcome === "found") result.lowerBound = 0;
  return result.outcome === "found";
}

function begin(
  treeA: DistanceTree,
  poseA: Pose,
  treeB: DistanceTree,
  poseB: Pose,
  query: DistanceQuery,
  upperBound: number,
): void {
  requirePose("A", poseA);
  requirePose("B", poseB);
  relativePose(poseA, poseB, query.relative);
  query.nearest[0] = upperBound * upperBound;
  query.gaps.cut[0] = query.nearest[0]!;
  query.gaps.direction.fill(0);
  if (query.warmTreeA !== treeA || query.warmTreeB !== treeB) query.warmTreeA = undefined;
  query.result.triangleA = -1;
  query.result.triangleB = -1;
  query.result.nodePairs = 0;
  query.result.trianglePairs = 0;
}

/** Looks at one pair of triangles; a nearer one becomes the nearest, lowers the cut and turns the direction. */
function trySlots(
  treeA: DistanceTree,
  slotA: number,
  treeB: DistanceTree,
  slotB: number,
  query: DistanceQuery,
  tolerance: number,
): boolean {
  const { nearest, moved, gaps, relative } = query;
  const at = 9 * slotB;
  for (let k = 0; k < 9; k += 3) carryPoint(relative, treeB.corners, at + k, moved, k);
  query.result.trianglePairs += 1;
  if (!triangleTriangle(treeA.corners, 9 * slotA, moved, 0, query.triangles, nearest)) return false;
  query.warmTreeA = treeA;
  query.warmTreeB = treeB;
  query.warmSlotA = slotA;
  query.warmSlotB = slotB;
  query.result.triangleA = treeA.triangleOfSlot[slotA]!;
  query.result.triangleB = treeB.triangleOfSlot[slotB]!;
  const distance = Math.sqrt(nearest[0]!);
  const cut = distance - tolerance;
  gaps.cut[0] = cut > 0 ? cut * cut : 0;
  const r = relative.rotation;
  const u = gaps.direction;
  const scale = distance > 0 ? 1 / distance : 0;
  for (let k = 0; k < 3; k++) u[k] = scale * (nearest[4 + k]! - nearest[1 + k]!);
  for (let k = 0; k < 3; k++) u[3 + k] = r[k]! * u[0]! + r[3 + k]! * u[1]! + r[6 + k]! * u[2]!;
  return true;
}

/** Branch and bound, the nearer child first; the larger of the two nodes is split. */
function search(
  treeA: DistanceTree,
  treeB: DistanceTree,
  query: DistanceQuery,
  tolerance: number,
  stopAtFirst: boolean,
): void {
  const { stack, stackGap, gaps, relative, result } = query;
  const { nodes: a, children: childrenA } = treeA;
  const { nodes: b, children: childrenB } = treeB;
  const { gap, cut } = gaps;
  nodeGap(a, 0, b, 0, relative, gaps);
  stack[0] = 0;
  stack[1] = 0;
  stackGap[0] = gap[0]!;
  let depth = 1;
  while (depth > 0) {
    depth -= 1;
    if (stackGap[depth]! >= cut[0]!) continue;
    const nodeA = stack[2 * depth]!;
    const nodeB = stack[2 * depth + 1]!;
    const downA = childrenA[nodeA]!;
    const downB = childrenB[nodeB]!;
    if (downA < 0 && downB < 0) {
      if (trySlots(treeA, -1 - downA, treeB, -1 - downB, query, tolerance) && stopAtFirst) return;
      continue;
    }
    const splitA = downB < 0 || (downA >= 0 && a[NODE * nodeA + 3]! >= b[NODE * nodeB + 3]!);
    const firstA = splitA ? downA : nodeA;
    const firstB = splitA ? nodeB : downB;
    const secondA = splitA ? downA + 1 : nodeA;
    const secondB = splitA ? nodeB : downB + 1;
    nodeGap(a, NODE * firstA, b, NODE * firstB, relative, gaps);
    const first = gap[0]!;
    nodeGap(a, NODE * secondA, b, NODE * secondB, relative, gaps);
    const second = gap[0]!;
    result.nodePairs += 2;
    const swap = second < first;
    const far = swap ? first : second;
    const near = swap ? second : first;
    if (far < cut[0]!) {
      stack[2 * depth] = swap ? firstA : secondA;
      stack[2 * depth + 1] = swap ? firstB : secondB;
      stackGap[depth] = far;
      depth += 1;
    }
    if (near < cut[0]!) {
      stack[2 * depth] = swap ? secondA : firstA;
      stack[2 * depth + 1] = swap ? secondB : firstB;
      stackGap[depth] = near;
      depth += 1;
    }
  }
}

function finish(
  treeA: DistanceTree,
  treeB: DistanceTree,
  poseA: Pose,
  query: DistanceQuery,
  upperBound: number,
  tolerance: number,
): DistanceResult {
  const { result, nearest } = query;
  if (result.triangleA < 0) {
    result.outcome = "beyond";
    result.distance = upperBound;
    result.lowerBound = upperBound;
    return result;
  }
  query.warmTreeA = treeA;
  query.warmTreeB = treeB;
  result.outcome = "found";
  result.distance = Math.sqrt(nearest[0]!);
  result.lowerBound = Math.max(0, result.distance - tolerance);
  carryPoint(poseA, nearest, 1, result.pointA, 0);
  carryPoint(poseA, nearest, 4, result.pointB, 0);
  return result;
}
