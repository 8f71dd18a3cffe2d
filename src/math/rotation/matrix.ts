/**
 * Rotation matrix of a unit quaternion.
 *
 *     v_parent = R v_body                                                      (4)
 *
 * @param q       attitude, body to parent, [w, x, y, z] from `offset`, length one
 * @param offset  index of w
 * @param out9    R, shape (3, 3) row-major, written
 * @source Stevens, Lewis and Johnson, Aircraft Control and Simulation, 3rd ed. (2016), eq. 1.8-13 (transposed)
 * @verified rotation.test.ts: orthogonality, determinant one, quarter turns, 3-2-1 angles
 */
export function rotationMatrix(q: Float64Array, offset: number, out9: Float64Array): void {
  const w = q[offset]!;
  const x = q[offset + 1]!;
  const y = q[offset + 2]!;
  const z = q[offset + 3]!;
  out9[0] = w * w + x * x - y * y - z * z;
  out9[1] = 2 * (x * y - w * z);
  out9[2] = 2 * (x * z + w * y);
  out9[3] = 2 * (x * y + w * z);
  out9[4] = w * w - x * x + y * y - z * z;
  out9[5] = 2 * (y * z - w * x);
  out9[6] = 2 * (x * z - w * y);
  out9[7] = 2 * (y * z + w * x);
  out9[8] = w * w - x * x - y * y + z * z;
}

/**
 * Turns a vector from body to parent axes, v_parent = R v_body.
 *
 * @param matrix        R from `rotationMatrix`, shape (3, 3) row-major
 * @param vector        in body axes, shape (3) from `vectorOffset`
 * @param vectorOffset  index of the first component
 * @param out           in parent axes, written from `outOffset`; may be `vector`
 * @param outOffset     index of the first component
 * @source eq. 4
 * @verified rotation.test.ts
 */
export function rotateToParent(
  matrix: Float64Array,
  vector: Float64Array,
  vectorOffset: number,
  out: Float64Array,
  outOffset: number,
): void {
  const x = vector[vectorOffset]!;
  const y = vector[vectorOffset + 1]!;
  const z = vector[vectorOffset + 2]!;
  out[outOffset] = matrix[0]! * x + matrix[1]! * y + matrix[2]! * z;
  out[outOffset + 1] = matrix[3]! * x + matrix[4]! * y + matrix[5]! * z;
  out[outOffset + 2] = matrix[6]! * x + matrix[7]! * y + matrix[8]! * z;
}

/**
 * Turns a vector from parent to body axes, v_body = Rᵀ v_parent.
 *
 * @param matrix        R from `rotationMatrix`, shape (3, 3) row-major
 * @param vector        in parent axes, shape (3) from `vectorOffset`
 * @param vectorOffset  index of the first component
 * @param out           in body axes, written from `outOffset`; may be `vector`
 * @param outOffset     index of the first component
 * @source eq. 4
 * @verified rotation.test.ts
 */
export function rotateToBody(
  matrix: Float64Array,
  vector: Float64Array,
  vectorOffset: number,
  out: Float64Array,
  outOffset: number,
): void {
  const x = vector[vectorOffset]!;
  const y = vector[vectorOffset + 1]!;
  const z = vector[vectorOffset + 2]!;
  out[outOffset] = matrix[0]! * x + matrix[3]! * y + matrix[6]! * z;
  out[outOffset + 1] = matrix[1]! * x + matrix[4]! * y + matrix[7]! * z;
  out[outOffset + 2] = matrix[2]! * x + matrix[5]! * y + matrix[8]! * z;
}
