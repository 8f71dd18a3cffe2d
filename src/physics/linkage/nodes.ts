import {
  quaternionFromRotationVector,
  quaternionMultiply,
  rotateToParent,
  rotationMatrix,
} from "../../math/rotation/index.ts";
import type { LinkagePose, Vector3 } from "./types.ts";

/**
 * How one body is taken to move between solved poses, the nodes: its reference point straight, its attitude evenly about one axis.
 *
 *     p̂(t) = p₀ + t·(p₁ − p₀),   R̂(t) = R₀·exp(t·φ),   φ = log(R₀ᵀ·R₁)           (README eq. 18)
 */
export interface NodePoses {
  /** Reference point [m], body axes. */
  readonly reference: Vector3;
  /** Reference point at each node [m], carrier axes, shape (nodes, 3). */
  readonly points: Float64Array;
  /** Attitude at each node, [w, x, y, z], shape (nodes, 4). */
  readonly attitudes: Float64Array;
  /** Rotation vector φ from each node to the next [rad], body axes, shape (nodes − 1, 3). */
  readonly turns: Float64Array;
}

/**
 * Nodes of one body from poses of its linkage.
 *
 * @param poses  at least two; turns from one to the next below half a circle
 * @param body   its index in the linkage, and its reference point [m], body axes
 * @source own derivation, README eq. 18
 * @verified enclosure.test.ts; `studies/fit/stroke.test.ts`
 */
export function nodePoses(
  poses: readonly LinkagePose[],
  body: { readonly index: number; readonly reference: Vector3 },
): NodePoses {
  const { index, reference } = body;
  const rotation = new Float64Array(9);
  const points = new Float64Array(3 * poses.length);
  const attitudes = new Float64Array(4 * poses.length);
  const arm = Float64Array.from(reference);
  poses.forEach((pose, node) => {
    rotationMatrix(pose.attitudes, 4 * index, rotation);
    attitudes.set(pose.attitudes.subarray(4 * index, 4 * index + 4), 4 * node);
    rotateToParent(rotation, arm, 0, points, 3 * node);
    for (let k = 0; k < 3; k++) points[3 * node + k] += pose.positions[3 * index + k];
  });
  return withTurns(reference, points, attitudes);
}

/** Nodes from reference points and attitudes. */
export function withTurns(reference: Vector3, points: Float64Array, attitudes: Float64Array): NodePoses {
  const stretches = points.length / 3 - 1;
  const turns = new Float64Array(3 * stretches);
  for (let node = 0; node < stretches; node++) {
    rotationVector(attitudes, 4 * node, attitudes, 4 * node + 4, turns, 3 * node);
  }
  return { reference, points, attitudes, turns };
}

const turn = new Float64Array(4);

/**
 * Interpolated pose of one body.
 *
 * @param nodes  of the body
 * @param node   from which the stretch begins
 * @param share  t, 0 … 1
 * @param out    reference point [m], carrier axes, and attitude [w, x, y, z], shape (7), written
 * @source README eq. 18
 * @verified enclosure.test.ts
 * @cost no allocation
 */
export function poseBetween(nodes: NodePoses, node: number, share: number, out: Float64Array): void {
  const { points, attitudes, turns } = nodes;
  const at = 3 * node;
  for (let k = 0; k < 3; k++) out[k] = points[at + k] + share * (points[at + 3 + k] - points[at + k]);
  quaternionFromRotationVector(share * turns[at], share * turns[at + 1], share * turns[at + 2], turn, 0);
  quaternionMultiply(attitudes, 4 * node, turn, 0, out, 3);
}

const difference = new Float64Array(8);

/** Rotation vector that carries attitude a to attitude b [rad], in the axes of a. */
function rotationVector(
  a: Float64Array,
  i: number,
  b: Float64Array,
  j: number,
  out: Float64Array,
  offset: number,
): void {
  const d = difference;
  d[4] = a[i];
  for (let k = 1; k < 4; k++) d[4 + k] = -a[i + k];
  quaternionMultiply(d, 4, b, j, d, 0);
  const sign = d[0] < 0 ? -1 : 1;
  const sine = Math.hypot(d[1], d[2], d[3]);
  const scale = sine > 0 ? (2 * Math.atan2(sine, sign * d[0])) / sine : 2;
  for (let k = 0; k < 3; k++) out[offset + k] = sign * scale * d[1 + k];
}
