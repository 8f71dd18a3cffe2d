import {
  normaliseQuaternion,
  quaternionFromRotationVector,
  quaternionMultiply,
  rotateToParent,
  rotationMatrix,
} from "../../math/rotation/index.ts";
import { AXES_FIRST, AXES_SECOND, GEOMETRY, type Linkage, POINT_FIRST, POINT_SECOND, STATE } from "./linkage.ts";

/** Where everything stands for one state: filled by `placeJoints`. */
export interface Placed {
  /** Body to carrier axes, shape (bodies, 9). */
  readonly rotations: Float64Array[];
  /** Points and axes of each joint in carrier axes, laid out as `Linkage.geometry`. */
  readonly joints: Float64Array;
}

export function createPlaced(linkage: Linkage): Placed {
  return {
    rotations: linkage.bodies.map(() => new Float64Array(9)),
    joints: new Float64Array(GEOMETRY * linkage.joints.length),
  };
}

/**
 * Carries every joint's points and axes to carrier axes.
 *
 *     a = p + R r                                                               (README eq. 1)
 *
 * @param linkage  geometry
 * @param state    shape (bodies, 7)
 * @param placed   written
 */
export function placeJoints(linkage: Linkage, state: Float64Array, placed: Placed): void {
  const { joints, geometry } = linkage;
  for (let body = 0; body < placed.rotations.length; body++) {
    rotationMatrix(state, STATE * body + 3, placed.rotations[body]);
  }
  for (let at = 0; at < joints.length; at++) {
    const joint = joints[at];
    const g = GEOMETRY * at;
    placeSide(placed, geometry, g + POINT_FIRST, g + AXES_FIRST, joint.first, state);
    placeSide(placed, geometry, g + POINT_SECOND, g + AXES_SECOND, joint.second, state);
  }
}

function placeSide(
  placed: Placed,
  geometry: Float64Array,
  point: number,
  axes: number,
  body: number,
  state: Float64Array,
): void {
  const rotation = placed.rotations[body];
  const out = placed.joints;
  for (let vector = 0; vector < 9; vector += 3) rotateToParent(rotation, geometry, axes + vector, out, axes + vector);
  rotateToParent(rotation, geometry, point, out, point);
  for (let k = 0; k < 3; k++) out[point + k] += state[STATE * body + k];
}

const turn = new Float64Array(4);

/**
 * Moves a state by small motions of its bodies.
 *
 *     p ← p + λ δ,   R ← exp(λ φ/ℓ) R                                           (README eq. 2)
 *
 * @param linkage  gives ℓ
 * @param from     shape (bodies, 7)
 * @param motion   for each moving body (δ, φ): centre [m] and turn times ℓ [m], carrier axes, shape (6 · moving bodies)
 * @param share    λ
 * @param to       shape (bodies, 7), written; may be `from`
 */
export function moveState(
  linkage: Linkage,
  from: Float64Array,
  motion: Float64Array,
  share: number,
  to: Float64Array,
): void {
  if (to !== from) to.set(from);
  const angular = share / linkage.size;
  for (let body = 1; body < linkage.bodies.length; body++) {
    const at = STATE * body;
    const m = 6 * (body - 1);
    for (let k = 0; k < 3; k++) to[at + k] += share * motion[m + k];
    quaternionFromRotationVector(angular * motion[m + 3], angular * motion[m + 4], angular * motion[m + 5], turn, 0);
    quaternionMultiply(turn, 0, to, at + 3, to, at + 3);
    normaliseQuaternion(to, at + 3);
  }
}

/**
 * Small motion that leads from one state to another, the inverse of `moveState` with λ = 1.
 * @param linkage  gives ℓ
 * @param from     shape (bodies, 7)
 * @param to       shape (bodies, 7)
 * @param motion   shape (6 · moving bodies), written; turns of less than half a circle
 */
export function motionBetween(linkage: Linkage, from: Float64Array, to: Float64Array, motion: Float64Array): void {
  for (let body = 1; body < linkage.bodies.length; body++) {
    const at = STATE * body;
    const m = 6 * (body - 1);
    for (let k = 0; k < 3; k++) motion[m + k] = to[at + k] - from[at + k];
    turn.set([from[at + 3], -from[at + 4], -from[at + 5], -from[at + 6]]);
    quaternionMultiply(to, at + 3, turn, 0, turn, 0);
    const sine = Math.hypot(turn[1], turn[2], turn[3]);
    const sign = turn[0] < 0 ? -1 : 1;
    const factor = sine < 1e-12 ? 2 : (2 * Math.atan2(sine, sign * turn[0])) / sine;
    for (let k = 0; k < 3; k++) motion[m + 3 + k] = sign * factor * turn[1 + k] * linkage.size;
  }
}
