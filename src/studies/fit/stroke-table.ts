import { BugError } from "../../math/errors.ts";
import { quaternionFromRotationVector, quaternionMultiply, rotationMatrix } from "../../math/rotation/index.ts";
import type { LinkagePose } from "../../physics/linkage/index.ts";
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
  /** Largest distance seen, and turn, between interpolated and solved poses half-way between the nodes, doubled [m, rad]. */
  readonly deviation: { readonly way: number; readonly turn: number };
}

/**
 * Table of one body's poses: between two solved nodes the reference point moves straight and the body turns evenly about one axis.
 *
 *     p(t) = p₀ + t·Δp,   R(t) = R₀·exp(t·φ),   φ = log(R₀ᵀ·R₁)                 (README eq. 4)
 *
 * The solved poses half-way give how far that is from the linkage; twice the largest is taken off every clearance.
 *
 * @param poses      solved at equal steps of the boom angle, an odd number, at least three; every second one becomes a node
 * @param index      of the body in the linkage
 * @param reference  point of the body [m], body axes
 * @source own derivation, README eq. 4
 * @verified stroke.test.ts: corners of the body between nodes against solved poses
 */
export function bodyTable(poses: readonly LinkagePose[], index: number, reference: Axes3): BodyTable {
  if (poses.length < 3 || poses.length % 2 === 0) throw new BugError(`${poses.length} poses make no stroke table`);
  const segments = (poses.length - 1) / 2;
  const points = new Float64Array(3 * (segments + 1));
  const attitudes = new Float64Array(4 * (segments + 1));
  for (let i = 0; i <= segments; i++) place(poses[2 * i], index, reference, points, 3 * i, attitudes, 4 * i);
  const turns = new Float64Array(3 * segments);
  const ways = new Float64Array(segments + 1);
  const angles = new Float64Array(segments + 1);
  for (let i = 0; i < segments; i++) {
    rotationVector(attitudes, 4 * i, attitudes, 4 * i + 4, turns, 3 * i);
    ways[i + 1] = ways[i] + gap(points, 3 * i, points, 3 * i + 3);
    angles[i + 1] = angles[i] + Math.hypot(turns[3 * i], turns[3 * i + 1], turns[3 * i + 2]);
  }
  const q = new Float64Array(8);
  const p = new Float64Array(3);
  const at = (share: number): void => {
    const x = Math.min(1, Math.max(0, share)) * segments;
    const i = Math.min(segments - 1, Math.floor(x));
    const t = x - i;
    for (let k = 0; k < 3; k++) p[k] = points[3 * i + k] + t * (points[3 * i + 3 + k] - points[3 * i + k]);
    quaternionFromRotationVector(t * turns[3 * i], t * turns[3 * i + 1], t * turns[3 * i + 2], q, 4);
    quaternionMultiply(attitudes, 4 * i, q, 4, q, 0);
  };
  const along = (sums: Float64Array, share: number): number => {
    const x = Math.min(1, Math.max(0, share)) * segments;
    const i = Math.min(segments - 1, Math.floor(x));
    return sums[i] + (x - i) * (sums[i + 1] - sums[i]);
  };
  return {
    reference,
    poseAt(share, out) {
      at(share);
      rotationMatrix(q, 0, out.rotation);
      const r = out.rotation;
      const [x, y, z] = reference;
      for (let k = 0; k < 3; k++) {
        out.translation[k] = p[k] - (r[3 * k] * x + r[3 * k + 1] * y + r[3 * k + 2] * z);
      }
    },
    wayAt: (share) => along(ways, share),
    turnAt: (share) => along(angles, share),
    deviation: deviationOf(poses, index, reference, segments, at, p, q),
  };
}

function deviationOf(
  poses: readonly LinkagePose[],
  index: number,
  reference: Axes3,
  segments: number,
  at: (share: number) => void,
  p: Float64Array,
  q: Float64Array,
): BodyTable["deviation"] {
  const solved = new Float64Array(7);
  const turn = new Float64Array(3);
  let [way, angle] = [0, 0];
  for (let i = 0; i < segments; i++) {
    place(poses[2 * i + 1], index, reference, solved, 0, solved, 3);
    at((i + 0.5) / segments);
    way = Math.max(way, gap(p, 0, solved, 0));
    rotationVector(q, 0, solved, 3, turn, 0);
    angle = Math.max(angle, Math.hypot(turn[0], turn[1], turn[2]));
  }
  return { way: 2 * way, turn: 2 * angle };
}

/** Reference point in carrier axes and attitude of a body. */
function place(
  pose: LinkagePose,
  index: number,
  reference: Axes3,
  point: Float64Array,
  p: number,
  attitude: Float64Array,
  a: number,
): void {
  const rotation = new Float64Array(9);
  rotationMatrix(pose.attitudes, 4 * index, rotation);
  for (let k = 0; k < 4; k++) attitude[a + k] = pose.attitudes[4 * index + k];
  for (let k = 0; k < 3; k++) {
    point[p + k] = pose.positions[3 * index + k];
    for (let j = 0; j < 3; j++) point[p + k] += rotation[3 * k + j] * reference[j];
  }
}

function gap(a: Float64Array, i: number, b: Float64Array, j: number): number {
  return Math.hypot(b[j] - a[i], b[j + 1] - a[i + 1], b[j + 2] - a[i + 2]);
}

const difference = new Float64Array(8);

/** Rotation vector that carries attitude a to attitude b, in the axes of a. */
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
