import { rotateToParent } from "../../math/rotation/index.ts";
import { drivenIndex } from "./assemble.ts";
import { coordinate, PARTIALS, rowGradient } from "./joint-rows.ts";
import { bodyIndex, GEOMETRY, jointIndex, type Linkage, POINT_FIRST, POINT_SECOND, STATE } from "./linkage.ts";
import { createPlaced, placeJoints } from "./place.ts";
import { createWork, factorAt } from "./settle.ts";
import type { PointRef } from "./types.ts";

/** A drive row may miss its unit rate by this share before it counts as unable to move. */
const MOVES = 1e-6;

/**
 * Small motion of all bodies per unit of one drive, the others held.
 *
 *     J q′ = e                                                                  (README eq. 9)
 *
 * @param linkage  the linkage
 * @param state    a closed state, shape (bodies, 7)
 * @param drives   names of all driven joints
 * @param moving   name of the one that moves
 * @returns for each moving body the velocity of its centre [m per unit] and its angular velocity times ℓ [m per unit], shape
 *          (6 · moving bodies), carrier axes; `undefined` at a dead point, where the drive cannot move the linkage
 * @throws {DomainError} if `moving` is not among the drives or is none that can be driven
 * @source own derivation, README eq. 9
 * @verified statics.test.ts, stroke.test.ts: differences along a stroke
 */
export function unitMotion(
  linkage: Linkage,
  state: Float64Array,
  drives: readonly string[],
  moving: string,
): Float64Array | undefined {
  const indices = drives.map((name) => drivenIndex(linkage, name));
  const which = indices.indexOf(drivenIndex(linkage, moving));
  if (which < 0) indices.push(drivenIndex(linkage, moving));
  const at = which < 0 ? indices.length - 1 : which;
  const work = createWork(linkage, indices);
  factorAt(work, state);
  const rates = new Float64Array(work.rows.count);
  const row = work.rows.count - indices.length + at;
  rates[row] = work.rows.weights[at];
  const motion = new Float64Array(work.columns);
  const rest = work.squares.solve(rates, motion);
  return rest <= MOVES * work.rows.weights[at] ? motion : undefined;
}

/**
 * Rate of a joint's coordinate in a motion.
 * @param linkage  the linkage
 * @param state    shape (bodies, 7)
 * @param motion   from `unitMotion`
 * @param joint    name of a jack, rod, hinge, slider or cylindrical joint
 * @returns [m or rad per unit]; a jack's is positive when it lengthens
 * @source own derivation, README eq. 4, 5
 * @verified statics.test.ts, stroke.test.ts
 */
export function coordinateRate(linkage: Linkage, state: Float64Array, motion: Float64Array, joint: string): number {
  const gradient = coordinateGradient(linkage, state, jointIndex(linkage, joint));
  let rate = 0;
  for (let k = 0; k < gradient.length; k++) rate += gradient[k] * motion[k];
  return rate;
}

/** Derivative of a joint's coordinate with respect to the motions of all bodies, shape (6 · moving bodies). */
export function coordinateGradient(linkage: Linkage, state: Float64Array, index: number): Float64Array {
  const placed = createPlaced(linkage);
  placeJoints(linkage, state, placed);
  const partials = new Float64Array(PARTIALS);
  const gradient = new Float64Array(6 * (linkage.bodies.length - 1));
  const joint = linkage.joints[index];
  coordinate(joint, index, placed.joints, partials, 0);
  rowGradient(linkage, joint, index, state, placed.joints, partials, 0, gradient, 0);
  return gradient;
}

/** A point resolved: the body it belongs to and its place from the body's centre [m], body axes. */
export interface ResolvedPoint {
  readonly body: number;
  readonly fromCentre: Float64Array;
}

/** Finds body and place of a point. @throws {DomainError} if a name is unknown */
export function resolvePoint(linkage: Linkage, point: PointRef): ResolvedPoint {
  if ("joint" in point) {
    const at = jointIndex(linkage, point.joint);
    const from = GEOMETRY * at + (point.on === "first" ? POINT_FIRST : POINT_SECOND);
    const joint = linkage.joints[at];
    const body = point.on === "first" ? joint.first : joint.second;
    return { body, fromCentre: linkage.geometry.slice(from, from + 3) };
  }
  const body = bodyIndex(linkage, point.body);
  return { body, fromCentre: Float64Array.from(point.at, (value, k) => value - linkage.centres[3 * body + k]) };
}

/**
 * Where a point is.
 * @param linkage  the linkage
 * @param state    shape (bodies, 7)
 * @param point    body and place, or a joint's point
 * @param out      [m] in carrier axes, shape (3), written and returned
 * @source README eq. 1
 * @verified linkage.test.ts
 */
export function pointPosition(
  linkage: Linkage,
  state: Float64Array,
  point: PointRef,
  out: Float64Array = new Float64Array(3),
): Float64Array {
  const { body, fromCentre } = resolvePoint(linkage, point);
  const placed = createPlaced(linkage);
  placeJoints(linkage, state, placed);
  rotateToParent(placed.rotations[body], fromCentre, 0, out, 0);
  for (let k = 0; k < 3; k++) out[k] += state[STATE * body + k];
  return out;
}

/**
 * Velocity of a point in a motion.
 *
 *     v = δ + φ × R r                                                           (README eq. 2)
 *
 * @param linkage  the linkage
 * @param state    shape (bodies, 7)
 * @param motion   from `unitMotion`
 * @param point    body and place, or a joint's point
 * @param out      [m per unit] in carrier axes, shape (3), written and returned
 * @source README eq. 2
 * @verified stroke.test.ts: differences along a stroke
 */
export function pointVelocity(
  linkage: Linkage,
  state: Float64Array,
  motion: Float64Array,
  point: PointRef,
  out: Float64Array = new Float64Array(3),
): Float64Array {
  const { body, fromCentre } = resolvePoint(linkage, point);
  if (body === 0) return out.fill(0);
  const placed = createPlaced(linkage);
  placeJoints(linkage, state, placed);
  const arm = new Float64Array(3);
  rotateToParent(placed.rotations[body], fromCentre, 0, arm, 0);
  const m = 6 * (body - 1);
  const [wx, wy, wz] = [3, 4, 5].map((k) => motion[m + k] / linkage.size);
  out[0] = motion[m] + wy * arm[2] - wz * arm[1];
  out[1] = motion[m + 1] + wz * arm[0] - wx * arm[2];
  out[2] = motion[m + 2] + wx * arm[1] - wy * arm[0];
  return out;
}
