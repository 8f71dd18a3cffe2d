import { createPose } from "../pose.ts";
import type { Pose } from "../types.ts";
import type { GapScratch } from "./box-gap.ts";
import type { DistanceTree } from "./tree.ts";
import { createTriangleScratch, type TriangleScratch } from "./triangles.ts";

/** The nearest pair of points of two surfaces. */
export interface DistanceResult {
  /** "found": a pair nearer than the upper bound; "beyond": there is none, and points and triangles say nothing. */
  outcome: "found" | "beyond";
  /** Distance of the two points [m], zero for contact; the upper bound when beyond. */
  distance: number;
  /** The surfaces are nowhere nearer than this [m]: `distance` less the tolerance. */
  lowerBound: number;
  /** Nearest point of A and of B [m], parent axes, shape (3). */
  readonly pointA: Float64Array;
  readonly pointB: Float64Array;
  /** Triangles of these points, indices in the meshes; −1 when beyond. */
  triangleA: number;
  triangleB: number;
  /** Pairs of nodes and of triangles that were looked at. */
  nodePairs: number;
  trianglePairs: number;
}

/** Result and memory of distance queries; one per pair of bodies, reused from pose to pose. */
export interface DistanceQuery {
  readonly result: DistanceResult;
  /** The last nearest pair, from which the next query may start. */
  warmTreeA: DistanceTree | undefined;
  warmTreeB: DistanceTree | undefined;
  warmSlotA: number;
  warmSlotB: number;
  readonly relative: Pose;
  readonly stack: Int32Array;
  readonly stackGap: Float64Array;
  readonly gaps: GapScratch;
  readonly triangles: TriangleScratch;
  /** Nearest so far: squared distance, points in the axes of A. */
  readonly nearest: Float64Array;
  /** One triangle of B in the axes of A. */
  readonly moved: Float64Array;
}

/**
 * Room for distance queries.
 *
 * The two trees are at most 33 levels deep each (a mesh has fewer than 2³² triangles), and the search keeps at most one
 * pair for each level: 128 places always suffice.
 *
 * @returns a query without a nearest pair
 */
export function createDistanceQuery(): DistanceQuery {
  return {
    result: {
      outcome: "beyond",
      distance: Infinity,
      lowerBound: 0,
      pointA: new Float64Array(3),
      pointB: new Float64Array(3),
      triangleA: -1,
      triangleB: -1,
      nodePairs: 0,
      trianglePairs: 0,
    },
    warmTreeA: undefined,
    warmTreeB: undefined,
    warmSlotA: 0,
    warmSlotB: 0,
    relative: createPose(),
    stack: new Int32Array(256),
    stackGap: new Float64Array(128),
    gaps: { gap: new Float64Array(1), cut: new Float64Array(1), direction: new Float64Array(6) },
    triangles: createTriangleScratch(),
    nearest: new Float64Array(7),
    moved: new Float64Array(9),
  };
}
