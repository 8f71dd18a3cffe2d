import { luFactor } from "../../math/dense/index.ts";

/** log|det| and its sign. */
export interface LogDeterminant {
  readonly sign: -1 | 0 | 1;
  /** ln |det|; −Infinity for a singular matrix. */
  readonly log: number;
}

/**
 * Determinant of −A of a linear model ẋ = A·x: the product of −λ over its roots, positive when an even number of real roots grows.
 *
 *     det(−A) = Π(−λ_i)                                                                  (README eq. 6)
 *
 * It passes zero with a real root and with nothing else, so that static divergence is its sign change.
 *
 * @param matrix A, shape (n, n) row-major; not changed
 * @param n      order
 * @source own derivation, README eq. 6
 * @verified equilibrium.test.ts: product of eigenvalues; torsion spring in closed form
 */
export function staticDeterminant(matrix: Float64Array, n: number): LogDeterminant {
  const lu = matrix.slice(0, n * n).map((x) => -x);
  const pivots = new Int32Array(n);
  if (!luFactor(lu, n, pivots)) return { sign: 0, log: Number.NEGATIVE_INFINITY };
  let negative = false;
  let log = 0;
  for (let k = 0; k < n; k++) {
    const pivot = lu[k * n + k];
    if (pivot < 0 !== (pivots[k] !== k)) negative = !negative;
    log += Math.log(Math.abs(pivot));
  }
  return { sign: negative ? -1 : 1, log };
}
