import { luFactor, luSolve, multiply } from "../dense/index.ts";
import { BugError } from "../errors.ts";
import { requireFinite, requireLength, requireSize } from "../require.ts";

const DEGREE = 8;

/**
 * Exponential of a square matrix.
 *
 *     e^A = (N(A/2^s)/N(−A/2^s))^(2^s),  N(X) = Σ cₖ·Xᵏ, degree 8, ‖A‖/2^s ≤ ½   (1)
 *
 * @param a  A, shape (n, n) row-major; not changed
 * @param n  order
 * @returns e^A, shape (n, n) row-major
 * @throws {DomainError} if n is not a whole number above zero, the array is too short or an element is not finite
 * @source Golub and Van Loan, Matrix Computations, 4th ed. (2013), algorithm 9.3.1 (diagonal Padé, scaling and squaring)
 * @verified exponential.test.ts: rotation, nilpotent and decay in closed form, e^A·e^−A = 1
 * @cost about 2n³·(10 + s); allocates
 */
export function matrixExponential(a: Float64Array, n: number): Float64Array {
  requireSize("matrix order", n, 1);
  requireLength("matrix", a.length, n * n);
  let norm = 0;
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let j = 0; j < n; j++) {
      requireFinite(`matrix element ${i * n + j}`, a[i * n + j]!);
      sum += Math.abs(a[i * n + j]!);
    }
    norm = Math.max(norm, sum);
  }
  const halvings = norm > 0.5 ? Math.ceil(Math.log2(norm / 0.5)) : 0;
  const x = a.slice(0, n * n).map((value) => value / 2 ** halvings);
  let power: Float64Array = identity(n);
  let next: Float64Array = new Float64Array(n * n);
  let above: Float64Array = identity(n);
  const below = identity(n);
  let coefficient = 1;
  for (let k = 1; k <= DEGREE; k++) {
    coefficient *= (DEGREE - k + 1) / (k * (2 * DEGREE - k + 1));
    multiply(x, power, next, n, n, n);
    [power, next] = [next, power];
    const sign = k % 2 === 0 ? 1 : -1;
    for (let i = 0; i < n * n; i++) {
      above[i] = above[i]! + coefficient * power[i]!;
      below[i] = below[i]! + sign * coefficient * power[i]!;
    }
  }
  const pivots = new Int32Array(n);
  if (!luFactor(below, n, pivots)) throw new BugError("the denominator of the matrix exponential is singular");
  luSolve(below, n, pivots, above, n);
  for (let s = 0; s < halvings; s++) {
    multiply(above, above.slice(), next, n, n, n);
    [above, next] = [next, above];
  }
  return above;
}

function identity(n: number): Float64Array {
  const one = new Float64Array(n * n);
  for (let i = 0; i < n; i++) one[i * n + i] = 1;
  return one;
}
