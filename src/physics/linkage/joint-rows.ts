import {
  AXES_FIRST,
  AXES_SECOND,
  GEOMETRY,
  type Joint,
  type Linkage,
  POINT_FIRST,
  POINT_SECOND,
  ROWS,
  STATE,
} from "./linkage.ts";
import { cross, dot } from "./vectors.ts";

/**
 * Numbers kept for each row: its gradients with respect to the first's point, a turn of the first's axes, the second's
 * point and a turn of the second's axes, all in carrier axes.
 */
export const PARTIALS = 12;
const POINT_A = 0;
const TURN_A = 3;
const POINT_B = 6;
const TURN_B = 9;

/** Rows of a linkage with some drives: residuals in metres and their partials, written by `evaluateRows`. */
export interface Rows {
  readonly count: number;
  /** Index of the joint of each row; the drives stand last. */
  readonly joints: Int32Array;
  readonly residual: Float64Array;
  /** Shape (rows, 12). */
  readonly partials: Float64Array;
  /** Joints of the drives and their values, and what a unit of each value is worth in its row [m]: 1 or ℓ. */
  readonly driven: Int32Array;
  readonly values: Float64Array;
  readonly weights: Float64Array;
}

/**
 * Rows of all joints, then one for each drive.
 * @param linkage  the linkage
 * @param driven   indices of the driven joints
 */
export function createRows(linkage: Linkage, driven: readonly number[]): Rows {
  const joints: number[] = [];
  linkage.joints.forEach((joint, at) => {
    for (let row = 0; row < ROWS[joint.kind]; row++) joints.push(at);
  });
  joints.push(...driven);
  return {
    count: joints.length,
    joints: Int32Array.from(joints),
    residual: new Float64Array(joints.length),
    partials: new Float64Array(PARTIALS * joints.length),
    driven: Int32Array.from(driven),
    values: new Float64Array(driven.length),
    weights: Float64Array.from(driven, (at) => (linkage.joints[at].kind === "hinge" ? linkage.size : 1)),
  };
}

/**
 * Residual of every row and its partials.
 *
 * Rows, in metres (README eq. 3): b − a; ℓ e₁·u′ and ℓ e₂·u′; ℓ·angle; e₁·(b − a) and e₂·(b − a); u·(b − a); |b − a| − L.
 * A drive is its coordinate less its value.
 *
 * @param linkage  the linkage
 * @param placed   points and axes in carrier axes, shape (joints, 24)
 * @param rows     `values` read; `residual` and `partials` written
 * @cost no allocation
 */
export function evaluateRows(linkage: Linkage, placed: Float64Array, rows: Rows): void {
  const { joints, size } = linkage;
  rows.partials.fill(0);
  let row = 0;
  for (let at = 0; at < joints.length; at++) {
    const g = GEOMETRY * at;
    switch (joints[at].kind) {
      case "ball":
        row = pointRows(placed, g, rows, row);
        break;
      case "hinge":
        row = pointRows(placed, g, rows, row);
        row = parallelRows(placed, g, rows, row, size);
        break;
      case "cylindrical":
        row = offsetRows(placed, g, rows, row);
        row = parallelRows(placed, g, rows, row, size);
        break;
      case "slider":
        row = offsetRows(placed, g, rows, row);
        row = parallelRows(placed, g, rows, row, size);
        row = angleRow(placed, g, rows, row, size);
        break;
      case "planar":
        row = parallelRows(placed, g, rows, row, size);
        row = alongRow(placed, g, AXES_FIRST, rows, row);
        break;
      case "fixed":
        row = pointRows(placed, g, rows, row);
        row = parallelRows(placed, g, rows, row, size);
        row = angleRow(placed, g, rows, row, size);
        break;
      case "attitude":
        row = parallelRows(placed, g, rows, row, size);
        row = angleRow(placed, g, rows, row, size);
        break;
      case "rod":
        rows.residual[row] =
          coordinate(linkage.joints[at], at, placed, rows.partials, PARTIALS * row) - linkage.lengths[at];
        row++;
        break;
      case "jack":
        break;
    }
  }
  for (let drive = 0; drive < rows.driven.length; drive++, row++) {
    const at = rows.driven[drive];
    const weight = rows.weights[drive];
    const value = coordinate(joints[at], at, placed, rows.partials, PARTIALS * row);
    let error = value - rows.values[drive];
    if (joints[at].kind === "hinge") error -= 2 * Math.PI * Math.round(error / (2 * Math.PI));
    rows.residual[row] = weight * error;
    for (let k = 0; k < PARTIALS; k++) rows.partials[PARTIALS * row + k] *= weight;
  }
}

function pointRows(g: Float64Array, at: number, rows: Rows, row: number): number {
  for (let k = 0; k < 3; k++) {
    const p = PARTIALS * (row + k);
    rows.residual[row + k] = g[at + POINT_SECOND + k] - g[at + POINT_FIRST + k];
    rows.partials[p + POINT_A + k] = -1;
    rows.partials[p + POINT_B + k] = 1;
  }
  return row + 3;
}

/** The second's axis has no part along the first's side and third. */
function parallelRows(g: Float64Array, at: number, rows: Rows, row: number, size: number): number {
  turnRow(g, at, AXES_FIRST + 3, AXES_SECOND, rows, row, size);
  return turnRow(g, at, AXES_FIRST + 6, AXES_SECOND, rows, row + 1, size);
}

/** ℓ·(vector of the first)·(vector of the second). */
function turnRow(
  g: Float64Array,
  at: number,
  onFirst: number,
  onSecond: number,
  rows: Rows,
  row: number,
  size: number,
): number {
  const p = PARTIALS * row;
  rows.residual[row] = size * dot(g, at + onFirst, g, at + onSecond);
  cross(g, at + onFirst, g, at + onSecond, rows.partials, p + TURN_A);
  for (let k = 0; k < 3; k++) {
    rows.partials[p + TURN_A + k] *= size;
    rows.partials[p + TURN_B + k] = -rows.partials[p + TURN_A + k];
  }
  return row + 1;
}

/** The second's point has no offset from the first's along the first's side and third. */
function offsetRows(g: Float64Array, at: number, rows: Rows, row: number): number {
  alongRow(g, at, AXES_FIRST + 3, rows, row);
  return alongRow(g, at, AXES_FIRST + 6, rows, row + 1);
}

function alongRow(g: Float64Array, at: number, onFirst: number, rows: Rows, row: number): number {
  rows.residual[row] = offsetAlong(g, at, onFirst, rows.partials, PARTIALS * row);
  return row + 1;
}

const offset = new Float64Array(3);

/** (vector of the first)·(b − a) and its partials. */
function offsetAlong(g: Float64Array, at: number, onFirst: number, partials: Float64Array, p: number): number {
  for (let k = 0; k < 3; k++) {
    offset[k] = g[at + POINT_SECOND + k] - g[at + POINT_FIRST + k];
    partials[p + POINT_A + k] = -g[at + onFirst + k];
    partials[p + POINT_B + k] = g[at + onFirst + k];
  }
  cross(g, at + onFirst, offset, 0, partials, p + TURN_A);
  return dot(g, at + onFirst, offset, 0);
}

/** ℓ times the angle between the sides. */
function angleRow(g: Float64Array, at: number, rows: Rows, row: number, size: number): number {
  const p = PARTIALS * row;
  rows.residual[row] = size * angleAboutAxis(g, at, rows.partials, p);
  for (let k = 0; k < PARTIALS; k++) rows.partials[p + k] *= size;
  return row + 1;
}

const sine = new Float64Array(3);
const cosine = new Float64Array(3);

/** Angle that turns the first's side into the second's about the axis, and its partials. */
function angleAboutAxis(g: Float64Array, at: number, partials: Float64Array, p: number): number {
  const y = dot(g, at + AXES_FIRST + 6, g, at + AXES_SECOND + 3);
  const x = dot(g, at + AXES_FIRST + 3, g, at + AXES_SECOND + 3);
  cross(g, at + AXES_SECOND + 3, g, at + AXES_FIRST + 6, sine, 0);
  cross(g, at + AXES_SECOND + 3, g, at + AXES_FIRST + 3, cosine, 0);
  const square = x * x + y * y;
  for (let k = 0; k < 3; k++) {
    // Sides at right angles to the plane of the angle have none; the row is then zero and its rank shows it.
    const gradient = square > 0 ? (x * sine[k] - y * cosine[k]) / square : 0;
    partials[p + TURN_A + k] = -gradient;
    partials[p + TURN_B + k] = gradient;
  }
  return Math.atan2(y, x);
}

/**
 * Coordinate of a joint that can be driven, and its partials.
 *
 *     |b − a|;   u·(b − a);   angle = atan2(e₂·f₁, e₁·f₁)                        (README eq. 4)
 *
 * @param joint     a rod, jack, hinge, slider or cylindrical joint
 * @param index     of the joint
 * @param placed    points and axes in carrier axes
 * @param partials  shape (12), written from `p`
 * @param p         index of the first
 * @returns length [m], travel [m] or angle [rad], −π … π
 */
export function coordinate(
  joint: Joint,
  index: number,
  placed: Float64Array,
  partials: Float64Array,
  p: number,
): number {
  const g = GEOMETRY * index;
  partials.fill(0, p, p + PARTIALS);
  if (joint.kind === "slider" || joint.kind === "cylindrical") return offsetAlong(placed, g, AXES_FIRST, partials, p);
  if (joint.kind === "hinge") return angleAboutAxis(placed, g, partials, p);
  const dx = placed[g + POINT_SECOND] - placed[g + POINT_FIRST];
  const dy = placed[g + POINT_SECOND + 1] - placed[g + POINT_FIRST + 1];
  const dz = placed[g + POINT_SECOND + 2] - placed[g + POINT_FIRST + 2];
  const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
  // Coinciding points have no direction; the row is then zero and its rank shows it.
  const inverse = length > 0 ? 1 / length : 0;
  partials[p + POINT_B] = dx * inverse;
  partials[p + POINT_B + 1] = dy * inverse;
  partials[p + POINT_B + 2] = dz * inverse;
  for (let k = 0; k < 3; k++) partials[p + POINT_A + k] = -partials[p + POINT_B + k];
  return length;
}

const lever = new Float64Array(3);
const moment = new Float64Array(3);

/**
 * Derivatives of one row with respect to the motions of all bodies.
 *
 *     first: (g_a, (a − c)×g_a + t_a),  second: (g_b, (b − c)×g_b + t_b), turns over ℓ      (README eq. 5)
 *
 * @param linkage   gives ℓ
 * @param joint     the row's joint
 * @param index     its index
 * @param state     shape (bodies, 7): centres c
 * @param placed    points in carrier axes
 * @param partials  of the row, shape (12) from `p`
 * @param p         index of the first
 * @param out       derivatives per metre of motion, shape (6 · moving bodies), written from `to`
 * @param to        index of the first
 */
export function rowGradient(
  linkage: Linkage,
  joint: Joint,
  index: number,
  state: Float64Array,
  placed: Float64Array,
  partials: Float64Array,
  p: number,
  out: Float64Array,
  to: number,
): void {
  out.fill(0, to, to + 6 * (linkage.bodies.length - 1));
  const g = GEOMETRY * index;
  if (joint.first > 0) {
    gradientOf(linkage.size, joint.first, state, placed, g + POINT_FIRST, partials, p + POINT_A, out, to);
  }
  if (joint.second > 0) {
    gradientOf(linkage.size, joint.second, state, placed, g + POINT_SECOND, partials, p + POINT_B, out, to);
  }
}

function gradientOf(
  size: number,
  body: number,
  state: Float64Array,
  placed: Float64Array,
  point: number,
  partials: Float64Array,
  from: number,
  out: Float64Array,
  to: number,
): void {
  const at = to + 6 * (body - 1);
  for (let k = 0; k < 3; k++) lever[k] = placed[point + k] - state[STATE * body + k];
  cross(lever, 0, partials, from, moment, 0);
  for (let k = 0; k < 3; k++) {
    out[at + k] += partials[from + k];
    out[at + 3 + k] += (moment[k] + partials[from + 3 + k]) / size;
  }
}

/** Derivatives of all rows, shape (rows, 6 · moving bodies) row-major, written; see `rowGradient`. */
export function rowMatrix(
  linkage: Linkage,
  rows: Rows,
  state: Float64Array,
  placed: Float64Array,
  out: Float64Array,
): void {
  const columns = 6 * (linkage.bodies.length - 1);
  for (let row = 0; row < rows.count; row++) {
    const index = rows.joints[row];
    rowGradient(
      linkage,
      linkage.joints[index],
      index,
      state,
      placed,
      rows.partials,
      PARTIALS * row,
      out,
      columns * row,
    );
  }
}
