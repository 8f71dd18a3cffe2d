import { requireLength } from "../require.ts";
import { implicitQl } from "./implicit-ql.ts";
import { reduceToTridiagonal } from "./tridiagonal.ts";

export type SymmetricOutcome = "found" | "not finite" | "no convergence";

/**
 * All eigenvalues and eigenvectors of a symmetric matrix.
 *
 *     A x = λ x,  XᵀX = 1                                                      (2)
 *
 * @param a        A, shape (n, n) row-major; the lower triangle is read; destroyed
 * @param n        order
 * @param values   λ, rising, shape (n), written
 * @param vectors  X, a column for each value, shape (n, n) row-major, written; the largest component of each is
 *                 positive. May be left out
 * @returns the outcome; anything but "found" leaves NaN in the results
 * @throws {DomainError} if an array is too short
 * @source README eq. 3–4
 * @verified symmetric-eigen.test.ts: ml-matrix (1e-12·‖A‖), residual, orthogonality, matrices with known values
 * @cost about 6n³; allocates, not for hot loops
 */
export function symmetricEigen(
  a: Float64Array,
  n: number,
  values: Float64Array,
  vectors?: Float64Array,
): SymmetricOutcome {
  requireLength("matrix", a.length, n * n);
  requireLength("values", values.length, n);
  if (vectors !== undefined) requireLength("vectors", vectors.length, n * n);
  const fail = (outcome: SymmetricOutcome): SymmetricOutcome => {
    values.fill(Number.NaN, 0, n);
    vectors?.fill(Number.NaN, 0, n * n);
    return outcome;
  };
  const scale = mirrorAndScale(a, n);
  if (!Number.isFinite(scale)) return fail("not finite");
  const beside = new Float64Array(n);
  reduceToTridiagonal(a, n, values, beside, new Float64Array(2 * n));
  if (!implicitQl(values, beside, n, vectors === undefined ? undefined : a)) return fail("no convergence");
  const order = Array.from({ length: n }, (_, i) => i).sort((i, j) => values[i]! - values[j]!);
  const sorted = order.map((i) => values[i]! * scale);
  values.set(sorted);
  if (vectors !== undefined) order.forEach((from, to) => void writeColumn(vectors, a, n, from, to));
  return "found";
}

/** Copies the lower triangle to the upper and divides by a power of two near the largest element; returns that power. */
function mirrorAndScale(a: Float64Array, n: number): number {
  let largest = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      const size = Math.abs(a[i * n + j]!);
      if (!(size < Number.POSITIVE_INFINITY)) return Number.NaN;
      largest = Math.max(largest, size);
    }
  }
  const scale = largest === 0 ? 1 : 2 ** Math.max(-1022, Math.min(1022, Math.floor(Math.log2(largest))));
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      const value = a[i * n + j]! / scale;
      a[i * n + j] = value;
      a[j * n + i] = value;
    }
  }
  return scale;
}

/** Row `from` of Xᵀ becomes column `to` of X, with a positive largest component. */
function writeColumn(vectors: Float64Array, rows: Float64Array, n: number, from: number, to: number): void {
  let largest = 0;
  for (let j = from * n; j < (from + 1) * n; j++) {
    // a margin, so that rounding does not choose between components of the same size
    if (Math.abs(rows[j]!) > Math.abs(largest) * (1 + 1e-9)) largest = rows[j]!;
  }
  const sign = largest < 0 ? -1 : 1;
  for (let j = 0; j < n; j++) vectors[j * n + to] = sign * rows[from * n + j]!;
}
