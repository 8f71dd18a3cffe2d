/**
 * Quaternion of the 3-2-1 angles: yaw about z, then pitch about the new y, then roll about the new x.
 *
 *     q = q_z(yaw) ⊗ q_y(pitch) ⊗ q_x(roll)                                    (5)
 *
 * @param yaw     ψ [rad], nose right positive
 * @param pitch   θ [rad], nose up positive
 * @param roll    φ [rad], right wing down positive
 * @param out     [w, x, y, z], written from `offset`
 * @param offset  index of w
 * @source Stevens, Lewis and Johnson, Aircraft Control and Simulation, 3rd ed. (2016), eq. 1.8-17
 * @verified rotation.test.ts: product of three single turns, return through `eulerFromQuaternion`
 */
export function quaternionFromEuler(yaw: number, pitch: number, roll: number, out: Float64Array, offset: number): void {
  const cosYaw = Math.cos(0.5 * yaw);
  const sinYaw = Math.sin(0.5 * yaw);
  const cosPitch = Math.cos(0.5 * pitch);
  const sinPitch = Math.sin(0.5 * pitch);
  const cosRoll = Math.cos(0.5 * roll);
  const sinRoll = Math.sin(0.5 * roll);
  out[offset] = cosYaw * cosPitch * cosRoll + sinYaw * sinPitch * sinRoll;
  out[offset + 1] = cosYaw * cosPitch * sinRoll - sinYaw * sinPitch * cosRoll;
  out[offset + 2] = cosYaw * sinPitch * cosRoll + sinYaw * cosPitch * sinRoll;
  out[offset + 3] = sinYaw * cosPitch * cosRoll - cosYaw * sinPitch * sinRoll;
}

/**
 * 3-2-1 angles of a unit quaternion.
 *
 * Yaw and roll in (−π, π], pitch in [−π/2, π/2]. At ±90° pitch only yaw ∓ roll is defined; roll is then given as zero
 * within 1e-8 of the pole, and the angles still rebuild the same attitude to 2e-8.
 *
 * @param q          attitude, body to parent, [w, x, y, z] from `offset`, length one
 * @param offset     index of w
 * @param out        [yaw, pitch, roll] [rad], written from `outOffset`
 * @param outOffset  index of yaw
 * @source Stevens, Lewis and Johnson, Aircraft Control and Simulation, 3rd ed. (2016), section 1.8, from eq. 4
 * @verified rotation.test.ts: round trip over the sphere and at both poles
 */
export function eulerFromQuaternion(q: Float64Array, offset: number, out: Float64Array, outOffset = 0): void {
  const w = q[offset]!;
  const x = q[offset + 1]!;
  const y = q[offset + 2]!;
  const z = q[offset + 3]!;
  // First column and last row of R: (cosθ cosψ, cosθ sinψ, −sinθ) and (−sinθ, cosθ sinφ, cosθ cosφ).
  const forwardX = w * w + x * x - y * y - z * z;
  const forwardY = 2 * (x * y + w * z);
  const sinPitch = 2 * (w * y - x * z);
  const cosPitch = Math.sqrt(forwardX * forwardX + forwardY * forwardY);
  out[outOffset + 1] = Math.atan2(sinPitch, cosPitch);
  if (cosPitch > 1e-8) {
    out[outOffset] = Math.atan2(forwardY, forwardX);
    out[outOffset + 2] = Math.atan2(2 * (y * z + w * x), w * w - x * x - y * y + z * z);
    return;
  }
  out[outOffset] = Math.atan2(-2 * (x * y - w * z), w * w - x * x + y * y - z * z);
  out[outOffset + 2] = 0;
}
