import { requireLength } from "../require.ts";
import { choleskyFactor, lowerSolve, lowerTransposeSolve } from "./cholesky.ts";
import { type SymmetricOutcome, symmetricEigen } from "./symmetric.ts";

export type GeneralisedOutcome = SymmetricOutcome | "right matrix not positive definite";

/**
 * All eigenvalues and eigenvectors of a symmetric pair of matrices of which the right one is positive definite.
 *
 *     A x = λ B x,  XᵀBX = 1,  from  B = L Lᵀ, C = L⁻¹ A L⁻ᵀ, C y = λ y, x = L⁻ᵀ y      (5)
 *
 * The error of λ is about ε·max|λ|, so the largest values are the most accurate: for the lowest frequencies of K φ = ω² M φ
 * ask for 1/ω² with A = M and B = K. Only the lower triangles are read.
 *
 * @param a        A, shape (n, n) row-major, symmetric, may be singular; destroyed
 * @param b        B, shape (n, n) row-major, symmetric positive definite; overwritten by its Cholesky factor
 * @param n        order
 * @param values   λ, rising, shape (n), written
 * @param vectors  X, a column for each value, shape (n, n) row-major, written
 * @param floor    as for `choleskyFactor`: what counts as not positive definite
 * @returns the outcome; anything but "found" leaves NaN in the results
 * @throws {DomainError} if an array is too short
 * @source Golub and Van Loan, Matrix Computations, 4th ed. (2013), algorithm 8.7.1
 * @verified symmetric-eigen.test.ts: residual, B-orthogonality, chains of masses with known frequencies
 * @cost about 8n³; allocates, not for hot loops
 */
export function generalisedSymmetricEigen(
  a: Float64Array,
  b: Float64Array,
  n: number,
  values: Float64Array,
  vectors: Float64Array,
  floor?: number,
): GeneralisedOutcome {
  for (const [name, array, length] of [
    ["left matrix", a, n * n],
    ["right matrix", b, n * n],
    ["values", values, n],
    ["vectors", vectors, n * n],
  ] as const) {
    requireLength(name, array.length, length);
  }
  if (!choleskyFactor(b, n, floor)) {
    values.fill(Number.NaN, 0, n);
    vectors.fill(Number.NaN, 0, n * n);
    return "right matrix not positive definite";
  }
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) a[j * n + i] = a[i * n + j]!;
  }
  lowerSolve(b, n, a, n);
  transpose(a, n);
  lowerSolve(b, n, a, n);
  const outcome = symmetricEigen(a, n, values, vectors);
  if (outcome === "found") lowerTransposeSolve(b, n, vectors, n);
  return outcome;
}

function transpose(a: Float64Array, n: number): void {
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) {
      const kept = a[i * n + j]!;
      a[i * n + j] = a[j * n + i]!;
      a[j * n + i] = kept;
    }
  }
}
