import { DomainError } from "../../math/errors.ts";
import type { Pose } from "./types.ts";

/**
 * A pose to be written into; it starts as "not moved, not turned".
 * @returns R = identity, p = 0
 */
export function createPose(): Pose {
  return { rotation: Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1), translation: new Float64Array(3) };
}

/**
 * Refuses a rotation that is none, and anything that is not finite.
 * @param name  of the pose, for the message
 * @param pose  R, shape (3, 3) row-major, and p [m], shape (3)
 * @throws {DomainError} if RᵀR differs from the identity by more than 1e-9, R mirrors, or p is not finite
 * @source definition
 * @verified pose.test.ts
 */
export function requirePose(name: string, pose: Pose): void {
  const r = pose.rotation;
  const p = pose.translation;
  const xx = r[0]! * r[0]! + r[1]! * r[1]! + r[2]! * r[2]! - 1;
  const yy = r[3]! * r[3]! + r[4]! * r[4]! + r[5]! * r[5]! - 1;
  const zz = r[6]! * r[6]! + r[7]! * r[7]! + r[8]! * r[8]! - 1;
  const xy = r[0]! * r[3]! + r[1]! * r[4]! + r[2]! * r[5]!;
  const xz = r[0]! * r[6]! + r[1]! * r[7]! + r[2]! * r[8]!;
  const yz = r[3]! * r[6]! + r[4]! * r[7]! + r[5]! * r[8]!;
  const error = Math.abs(xx) + Math.abs(yy) + Math.abs(zz) + Math.abs(xy) + Math.abs(xz) + Math.abs(yz);
  const triple =
    r[0]! * (r[4]! * r[8]! - r[5]! * r[7]!) +
    r[1]! * (r[5]! * r[6]! - r[3]! * r[8]!) +
    r[2]! * (r[3]! * r[7]! - r[4]! * r[6]!);
  if (!(error <= 1e-9 && triple > 0)) {
    throw new DomainError(`rotation of ${name}`, Array.from(r).join(" "), "a rotation matrix, determinant +1");
  }
  if (!Number.isFinite(p[0]! + p[1]! + p[2]!)) {
    throw new DomainError(`translation of ${name}`, Array.from(p).join(" "), "finite numbers");
  }
}

/**
 * Pose of B seen from A.
 *
 *     R = R_Aᵀ·R_B,   p = R_Aᵀ·(p_B − p_A)                                     (README eq. 5)
 *
 * @param a    pose of A in parent axes
 * @param b    pose of B in parent axes
 * @param out  written: x_A = R·x_B + p; must be neither `a` nor `b`
 * @source definition
 * @verified pose.test.ts: a point carried along both ways
 */
export function relativePose(a: Pose, b: Pose, out: Pose): void {
  const ra = a.rotation;
  const rb = b.rotation;
  const dx = b.translation[0]! - a.translation[0]!;
  const dy = b.translation[1]! - a.translation[1]!;
  const dz = b.translation[2]! - a.translation[2]!;
  for (let i = 0; i < 3; i++) {
    const x = ra[i]!;
    const y = ra[3 + i]!;
    const z = ra[6 + i]!;
    for (let j = 0; j < 3; j++) out.rotation[3 * i + j] = x * rb[j]! + y * rb[3 + j]! + z * rb[6 + j]!;
    out.translation[i] = x * dx + y * dy + z * dz;
  }
}

/**
 * Carries a point from body axes to parent axes.
 *
 * @param pose       x_parent = R·x_body + p
 * @param point      [m] in body axes, shape (3) from `offset`
 * @param offset     index of x
 * @param out        [m] in parent axes, written from `outOffset`; may be `point`
 * @param outOffset  index of x
 * @source definition
 * @verified pose.test.ts
 */
export function carryPoint(
  pose: Pose,
  point: Float64Array,
  offset: number,
  out: Float64Array,
  outOffset: number,
): void {
  const r = pose.rotation;
  const p = pose.translation;
  const x = point[offset]!;
  const y = point[offset + 1]!;
  const z = point[offset + 2]!;
  out[outOffset] = r[0]! * x + r[1]! * y + r[2]! * z + p[0]!;
  out[outOffset + 1] = r[3]! * x + r[4]! * y + r[5]! * z + p[1]!;
  out[outOffset + 2] = r[6]! * x + r[7]! * y + r[8]! * z + p[2]!;
}
