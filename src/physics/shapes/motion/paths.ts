import { DomainError } from "../../../math/errors.ts";
import { requireFinite } from "../../../math/require.ts";
import type { Mesh, Pose } from "../types.ts";

/** A body's way through space, for the parameter s from 0 to 1. */
export interface BodyPath {
  /** Writes the pose at s; x_parent = R·x_body + p. */
  readonly poseAt: (s: number, out: Pose) => void;
  /** At least the length [m] of the way of every point of the body from s = `from` to `to`. */
  readonly travelBound: (from: number, to: number) => number;
}

/**
 * A body that stands still.
 *
 * @param pose  its pose; kept, not copied
 * @source definition
 * @verified clearance.test.ts
 */
export function restingPath(pose: Pose): BodyPath {
  return { poseAt: (_, out) => copyPose(pose, out), travelBound: () => 0 };
}

/** A turn about a fixed axis. */
export interface HingeMotion {
  /** A point of the axis [m] and its direction (any length), parent axes, shape (3) each. */
  readonly point: readonly [number, number, number];
  readonly axis: readonly [number, number, number];
  /** Angles at s = 0 and s = 1 [rad], right-handed about the axis, from `pose`. */
  readonly fromAngle: number;
  readonly toAngle: number;
  /** Pose of the body at angle zero. */
  readonly pose: Pose;
}

/**
 * A body on a hinge: a door, a gear leg, a boom. The bound is exact, the arc of the farthest corner.
 *
 *     travel = |Δangle| · r,   r = greatest distance of a corner from the axis        (README eq. 9)
 *
 * @param mesh    the body [m]
 * @param motion  axis and angles
 * @throws {DomainError} for an axis without direction or numbers that are not finite
 * @source own derivation, README eq. 9
 * @verified clearance.test.ts: rod past a point (closed form)
 */
export function hingePath(mesh: Mesh, motion: HingeMotion): BodyPath {
  const { point, axis, fromAngle, toAngle, pose } = motion;
  const size = Math.hypot(...axis);
  if (!(size > 0 && size < Infinity)) throw new DomainError("length of a hinge axis", size, "a finite number above 0");
  requireFinite("angle of a hinge", fromAngle + toAngle + point[0] + point[1] + point[2]);
  const [x, y, z] = [axis[0] / size, axis[1] / size, axis[2] / size];
  const radius = farthest(mesh, pose, (px, py, pz) => {
    const [dx, dy, dz] = [px - point[0], py - point[1], pz - point[2]];
    return Math.hypot(y * dz - z * dy, z * dx - x * dz, x * dy - y * dx);
  });
  const turn = new Float64Array(9);
  return {
    poseAt(s, out) {
      const angle = fromAngle + s * (toAngle - fromAngle);
      const [c, q] = [Math.cos(angle), Math.sin(angle)];
      const t = 1 - c;
      turn.set([t * x * x + c, t * x * y - q * z, t * x * z + q * y]);
      turn.set([t * x * y + q * z, t * y * y + c, t * y * z - q * x], 3);
      turn.set([t * x * z - q * y, t * y * z + q * x, t * z * z + c], 6);
      for (let i = 0; i < 3; i++) {
        const [a, b, d] = [turn[3 * i]!, turn[3 * i + 1]!, turn[3 * i + 2]!];
        for (let j = 0; j < 3; j++) {
          out.rotation[3 * i + j] = a * pose.rotation[j]! + b * pose.rotation[3 + j]! + d * pose.rotation[6 + j]!;
        }
        const p = pose.translation;
        out.translation[i] = a * (p[0]! - point[0]) + b * (p[1]! - point[1]) + d * (p[2]! - point[2]) + point[i]!;
      }
    },
    travelBound: (from, to) => Math.abs((to - from) * (toAngle - fromAngle)) * radius,
  };
}

/**
 * A body that slides without turning: a yoke, a store on a rail. The bound is exact.
 *
 *     travel = |Δs|·|slide|
 *
 * @param pose   pose at s = 0; kept, not copied
 * @param slide  way from s = 0 to s = 1 [m], parent axes, shape (3)
 * @throws {DomainError} for numbers that are not finite
 * @source definition
 * @verified clearance.test.ts: box past box (closed form)
 */
export function slidePath(pose: Pose, slide: readonly [number, number, number]): BodyPath {
  const length = Math.hypot(...slide);
  requireFinite("length of a slide", length);
  return {
    poseAt(s, out) {
      copyPose(pose, out);
      for (let k = 0; k < 3; k++) out.translation[k] = out.translation[k]! + s * slide[k]!;
    },
    travelBound: (from, to) => Math.abs(to - from) * length,
  };
}

/**
 * Travel bound of a rigid body from bounds of its motion.
 *
 *     travel ≤ way of the point + turn · greatest distance of a corner from the point      (README eq. 9)
 *
 * @param way     length of the way of the point [m], ≥ 0
 * @param turn    angle turned through, all turns added up [rad], ≥ 0
 * @param radius  from `meshRadius` about the same point [m], ≥ 0
 * @returns [m]
 * @throws {DomainError} for a negative or non-finite argument
 * @source own derivation, README eq. 9: |v + ω × r| ≤ |v| + |ω|·|r|, integrated
 * @verified clearance.test.ts: not below the way of any corner
 */
export function rigidTravelBound(way: number, turn: number, radius: number): number {
  for (const [quantity, value] of Object.entries({ way, turn, radius })) {
    if (!(value >= 0 && value < Infinity)) throw new DomainError(`${quantity} of a travel bound`, value, "at least 0");
  }
  return way + turn * radius;
}

/**
 * Greatest distance of a corner from a point of the body.
 *
 * @param mesh   [m]
 * @param point  [m] in the axes of the mesh, shape (3)
 * @source definition
 * @verified clearance.test.ts
 */
export function meshRadius(mesh: Mesh, point: readonly [number, number, number]): number {
  let radius = 0;
  for (const corner of mesh.triangles) {
    const v = mesh.vertices.subarray(3 * corner, 3 * corner + 3);
    radius = Math.max(radius, Math.hypot(v[0]! - point[0], v[1]! - point[1], v[2]! - point[2]));
  }
  return radius;
}

function copyPose(from: Pose, to: Pose): void {
  to.rotation.set(from.rotation);
  to.translation.set(from.translation);
}

/** Greatest value of a distance over the corners, carried to parent axes. */
function farthest(mesh: Mesh, pose: Pose, distance: (x: number, y: number, z: number) => number): number {
  const [r, p] = [pose.rotation, pose.translation];
  let greatest = 0;
  for (const corner of mesh.triangles) {
    const v = mesh.vertices.subarray(3 * corner, 3 * corner + 3);
    const [x, y, z] = [v[0]!, v[1]!, v[2]!];
    greatest = Math.max(
      greatest,
      distance(
        r[0]! * x + r[1]! * y + r[2]! * z + p[0]!,
        r[3]! * x + r[4]! * y + r[5]! * z + p[1]!,
        r[6]! * x + r[7]! * y + r[8]! * z + p[2]!,
      ),
    );
  }
  return greatest;
}
