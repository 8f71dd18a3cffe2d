import { requireFinite } from "../../math/require.ts";
import { rotateToParent } from "../../math/rotation/index.ts";
import { bodyIndex, type Linkage } from "./linkage.ts";
import { resolvePoint } from "./motion.ts";
import { createPlaced, placeJoints } from "./place.ts";
import type { PointRef, Vector3 } from "./types.ts";

/** A force and a moment on a body, at a point of it. */
export interface PointLoad {
  readonly point: PointRef;
  /** On the body [N]. */
  readonly force: Vector3;
  /** On the body, about the point [N·m]. Default none. */
  readonly moment?: Vector3;
  /** Axes of both. "body" turns with the body. */
  readonly axes: "carrier" | "body";
}

/** A mass that gravity and steady acceleration act on. */
export interface Mass {
  readonly body: string;
  /** [kg] */
  readonly mass: number;
  /** Its centre in body axes [m]. */
  readonly centre: Vector3;
}

/** What acts on a linkage, beside its joints and drives. */
export interface LoadCase {
  readonly loads?: readonly PointLoad[];
  readonly masses?: readonly Mass[];
  /** Gravity less the acceleration of the carrier, in carrier axes [m/s²]: (0, 0, g) at one g with z down. */
  readonly gravity?: Vector3;
}

/**
 * Loads of a case on the motions of the bodies.
 *
 *     Q = Σ (f, (p − c) × f + m)                                                (README eq. 12)
 *
 * @param linkage   the linkage
 * @param state     shape (bodies, 7)
 * @param loadCase  forces [N], moments [N·m], masses [kg]
 * @returns for each moving body the force [N] and the moment about its centre over ℓ [N], carrier axes, shape (6 · moving bodies)
 * @throws {DomainError} if a name is unknown or a number not finite
 * @source own derivation, README eq. 12
 * @verified statics.test.ts: differences of the potential energy
 */
export function generalisedLoad(linkage: Linkage, state: Float64Array, loadCase: LoadCase): Float64Array {
  const out = new Float64Array(6 * (linkage.bodies.length - 1));
  const placed = createPlaced(linkage);
  placeJoints(linkage, state, placed);
  for (const { point, force, moment, axes } of loadCase.loads ?? []) {
    const { body, fromCentre } = resolvePoint(linkage, point);
    const f = Float64Array.from(force);
    const m = Float64Array.from(moment ?? [0, 0, 0]);
    for (const value of [...f, ...m]) requireFinite(`load on ${linkage.bodies[body]}`, value);
    if (axes === "body") {
      rotateToParent(placed.rotations[body], f, 0, f, 0);
      rotateToParent(placed.rotations[body], m, 0, m, 0);
    }
    add(linkage, placed.rotations, body, fromCentre, f, m, out);
  }
  const gravity = loadCase.gravity ?? [0, 0, 0];
  for (const { body, mass, centre } of loadCase.masses ?? []) {
    requireFinite(`mass on ${body}`, mass);
    const at = bodyIndex(linkage, body);
    const fromCentre = Float64Array.from(centre, (value, k) => value - linkage.centres[3 * at + k]);
    const weight = Float64Array.from(gravity, (value) => mass * value);
    for (const value of [...fromCentre, ...weight]) requireFinite(`mass on ${body}`, value);
    add(linkage, placed.rotations, at, fromCentre, weight, new Float64Array(3), out);
  }
  return out;
}

function add(
  linkage: Linkage,
  rotations: readonly Float64Array[],
  body: number,
  fromCentre: Float64Array,
  force: Float64Array,
  moment: Float64Array,
  out: Float64Array,
): void {
  if (body === 0) return;
  const arm = new Float64Array(3);
  rotateToParent(rotations[body], fromCentre, 0, arm, 0);
  const m = 6 * (body - 1);
  for (let k = 0; k < 3; k++) {
    const [i, j] = [(k + 1) % 3, (k + 2) % 3];
    out[m + k] += force[k];
    out[m + 3 + k] += (arm[i] * force[j] - arm[j] * force[i] + moment[k]) / linkage.size;
  }
}
