import { DomainError } from "../errors.ts";

/**
 * Product of two quaternions: the rotation `a` after the rotation `b`, R(a b) = R(a) R(b).
 *
 *     (a b)₀ = a₀b₀ − a·b,   (a b)ᵥ = a₀ b + b₀ a + a × b                      (1)
 *
 * @param a         [w, x, y, z] from `aOffset`
 * @param aOffset   index of w in `a`
 * @param b         [w, x, y, z] from `bOffset`
 * @param bOffset   index of w in `b`
 * @param out       written from `outOffset`; may be `a` or `b`
 * @param outOffset index of w in `out`
 * @source Hamilton's product; Stevens, Lewis and Johnson, Aircraft Control and Simulation, 3rd ed. (2016), section 1.8
 * @verified rotation.test.ts: matrix of the product is the product of matrices
 */
export function quaternionMultiply(
  a: Float64Array,
  aOffset: number,
  b: Float64Array,
  bOffset: number,
  out: Float64Array,
  outOffset: number,
): void {
  const aw = a[aOffset]!;
  const ax = a[aOffset + 1]!;
  const ay = a[aOffset + 2]!;
  const az = a[aOffset + 3]!;
  const bw = b[bOffset]!;
  const bx = b[bOffset + 1]!;
  const by = b[bOffset + 2]!;
  const bz = b[bOffset + 3]!;
  out[outOffset] = aw * bw - ax * bx - ay * by - az * bz;
  out[outOffset + 1] = aw * bx + ax * bw + ay * bz - az * by;
  out[outOffset + 2] = aw * by - ax * bz + ay * bw + az * bx;
  out[outOffset + 3] = aw * bz + ax * by - ay * bx + az * bw;
}

/**
 * Rate of change of an attitude quaternion from body rates.
 *
 *     q̇ = ½ q ⊗ (0, ω_body)                                                    (2)
 *
 * @param q          attitude, body to parent, [w, x, y, z] from `offset`
 * @param offset     index of w in `q`
 * @param p          roll rate [rad/s], body x
 * @param q_         pitch rate [rad/s], body y
 * @param r          yaw rate [rad/s], body z
 * @param out        q̇ [1/s], written from `outOffset`; may be `q`
 * @param outOffset  index of ẇ in `out`
 * @source Stevens, Lewis and Johnson, Aircraft Control and Simulation, 3rd ed. (2016), eq. 1.8-15
 * @verified rotation.test.ts: derivative of the matrix equals R·[ω×], constant rate against the rotation vector
 */
export function quaternionRate(
  q: Float64Array,
  offset: number,
  p: number,
  q_: number,
  r: number,
  out: Float64Array,
  outOffset: number,
): void {
  const w = q[offset]!;
  const x = q[offset + 1]!;
  const y = q[offset + 2]!;
  const z = q[offset + 3]!;
  out[outOffset] = -0.5 * (x * p + y * q_ + z * r);
  out[outOffset + 1] = 0.5 * (w * p + y * r - z * q_);
  out[outOffset + 2] = 0.5 * (w * q_ + z * p - x * r);
  out[outOffset + 3] = 0.5 * (w * r + x * q_ - y * p);
}

/**
 * Quaternion of a turn about a fixed axis.
 *
 *     q = (cos φ/2, sin(φ/2)·n),  rotation vector φ n                          (3)
 *
 * @param rotationX  φ nₓ [rad]
 * @param rotationY  φ n_y [rad]
 * @param rotationZ  φ n_z [rad]
 * @param out        [w, x, y, z], written from `offset`
 * @param offset     index of w
 * @source Euler's rotation theorem; the series of sin(φ/2)/φ below 1e-4 rad is exact to rounding
 * @verified rotation.test.ts: quarter turns, small angles, constant rate
 */
export function quaternionFromRotationVector(
  rotationX: number,
  rotationY: number,
  rotationZ: number,
  out: Float64Array,
  offset: number,
): void {
  const angle = Math.sqrt(rotationX * rotationX + rotationY * rotationY + rotationZ * rotationZ);
  const factor = angle < 1e-4 ? 0.5 - (angle * angle) / 48 : Math.sin(0.5 * angle) / angle;
  out[offset] = Math.cos(0.5 * angle);
  out[offset + 1] = factor * rotationX;
  out[offset + 2] = factor * rotationY;
  out[offset + 3] = factor * rotationZ;
}

/**
 * Scales a quaternion to length one, in place.
 *
 * @param q       [w, x, y, z] from `offset`
 * @param offset  index of w
 * @returns its length before
 * @throws {DomainError} if the length is zero or not finite
 * @source definition
 * @verified rotation.test.ts
 */
export function normaliseQuaternion(q: Float64Array, offset: number): number {
  const w = q[offset]!;
  const x = q[offset + 1]!;
  const y = q[offset + 2]!;
  const z = q[offset + 3]!;
  const length = Math.sqrt(w * w + x * x + y * y + z * z);
  if (!(length > 0 && length < Number.POSITIVE_INFINITY)) {
    throw new DomainError("quaternion length", length, "a finite number above zero");
  }
  q[offset] = w / length;
  q[offset + 1] = x / length;
  q[offset + 2] = y / length;
  q[offset + 3] = z / length;
  return length;
}
