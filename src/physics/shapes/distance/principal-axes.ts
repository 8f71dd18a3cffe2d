/**
 * Principal axes of a symmetric 3 × 3 matrix by Jacobi's rotations.
 *
 * @param s     in: the matrix, shape (3, 3) row-major; out: nearly diagonal
 * @param axes  written from `offset`: an orthonormal set, one axis a row, shape (3, 3)
 * @param offset index of the first component
 * @source Jacobi's method (from memory); own derivation
 * @verified tree.test.ts: orthonormal, boxes enclose their triangles
 */
export function principalAxes(s: Float64Array, axes: Float64Array, offset: number): void {
  axes.fill(0, offset, offset + 9);
  axes[offset] = 1;
  axes[offset + 4] = 1;
  axes[offset + 8] = 1;
  for (let sweep = 0; sweep < 30; sweep++) {
    const xy = Math.abs(s[1]!);
    const xz = Math.abs(s[2]!);
    const yz = Math.abs(s[5]!);
    const p = yz > xy && yz > xz ? 1 : 0;
    const q = p === 0 && xy >= xz ? 1 : 2;
    const off = s[3 * p + q]!;
    if (!(Math.abs(off) > 1e-15 * (Math.abs(s[0]!) + Math.abs(s[4]!) + Math.abs(s[8]!)))) return;
    const theta = (s[4 * q]! - s[4 * p]!) / (2 * off);
    const tangent = (theta < 0 ? -1 : 1) / (Math.abs(theta) + Math.sqrt(1 + theta * theta));
    const cosine = 1 / Math.sqrt(1 + tangent * tangent);
    const sine = tangent * cosine;
    for (let k = 0; k < 3; k++) {
      const a = s[3 * k + p]!;
      const b = s[3 * k + q]!;
      s[3 * k + p] = cosine * a - sine * b;
      s[3 * k + q] = sine * a + cosine * b;
    }
    for (let k = 0; k < 3; k++) {
      const a = s[3 * p + k]!;
      const b = s[3 * q + k]!;
      s[3 * p + k] = cosine * a - sine * b;
      s[3 * q + k] = sine * a + cosine * b;
      const c = axes[offset + 3 * p + k]!;
      const d = axes[offset + 3 * q + k]!;
      axes[offset + 3 * p + k] = cosine * c - sine * d;
      axes[offset + 3 * q + k] = sine * c + cosine * d;
    }
  }
}
