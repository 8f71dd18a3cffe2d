import { requireLength } from "../require.ts";

/**
 * Factors a symmetric positive definite matrix into a lower triangle and its transpose, in place.
 *
 *     A = L Lᵀ                                                                 (1)
 *
 * Only the lower triangle of `a` is read; L overwrites it and the upper triangle is set to zero. A pivot that has lost
 * all but `floor` of its diagonal element counts as zero: then A is singular to working precision, or not definite.
 *
 * @param a      A, shape (n, n) row-major; overwritten
 * @param n      order
 * @param floor  smallest accepted ratio of a pivot to the diagonal element it came from [1]
 * @returns whether every pivot is finite and above its floor; if not, `a` holds no usable factor
 * @throws {DomainError} if the array is too short
 * @source Golub and Van Loan, Matrix Computations, 4th ed. (2013), section 4.2.5, row by row
 * @verified symmetric-eigen.test.ts: reconstruction, residuals, singular and indefinite matrices refused
 * @cost n³/3, no allocation
 */
export function choleskyFactor(a: Float64Array, n: number, floor = 4 * Number.EPSILON): boolean {
  requireLength("matrix", a.length, n * n);
  for (let i = 0; i < n; i++) {
    const row = i * n;
    for (let j = 0; j < i; j++) {
      const other = j * n;
      let sum = a[row + j]!;
      for (let k = 0; k < j; k++) sum -= a[row + k]! * a[other + k]!;
      a[row + j] = sum / a[other + j]!;
    }
    const diagonal = a[row + i]!;
    let pivot = diagonal;
    for (let k = 0; k < i; k++) pivot -= a[row + k]! * a[row + k]!;
    if (!(pivot > floor * diagonal && pivot < Number.POSITIVE_INFINITY)) return false;
    a[row + i] = Math.sqrt(pivot);
    a.fill(0, row + i + 1, row + n);
  }
  return true;
}

/**
 * Solves L X = B, in place.
 *
 * @param l        lower triangle, shape (n, n) row-major
 * @param n        order
 * @param b        B, shape (n, columns) row-major; overwritten by X
 * @param columns  number of right-hand sides
 * @throws {DomainError} if an array is too short
 * @source forward substitution
 * @verified symmetric-eigen.test.ts: through `choleskySolve` and `generalisedSymmetricEigen`
 * @cost n² per column, no allocation
 */
export function lowerSolve(l: Float64Array, n: number, b: Float64Array, columns = 1): void {
  requireLength("factor", l.length, n * n);
  requireLength("right-hand side", b.length, n * columns);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) subtractRow(b, columns, i, k, l[i * n + k]!);
    divideRow(b, columns, i, l[i * n + i]!);
  }
}

/**
 * Solves Lᵀ X = B, in place; arguments as for `lowerSolve`.
 *
 * @throws {DomainError} if an array is too short
 * @source backward substitution
 * @verified symmetric-eigen.test.ts: through `choleskySolve` and `generalisedSymmetricEigen`
 * @cost n² per column, no allocation
 */
export function lowerTransposeSolve(l: Float64Array, n: number, b: Float64Array, columns = 1): void {
  requireLength("factor", l.length, n * n);
  requireLength("right-hand side", b.length, n * columns);
  for (let i = n - 1; i >= 0; i--) {
    divideRow(b, columns, i, l[i * n + i]!);
    for (let k = 0; k < i; k++) subtractRow(b, columns, k, i, l[i * n + k]!);
  }
}

/**
 * Solves A X = B with the factor of `choleskyFactor`, in place.
 *
 * @param l        factor, shape (n, n) row-major
 * @param n        order
 * @param b        B, shape (n, columns) row-major; overwritten by X
 * @param columns  number of right-hand sides
 * @throws {DomainError} if an array is too short
 * @source eq. (1): L Y = B, Lᵀ X = Y
 * @verified symmetric-eigen.test.ts: residual at rounding level
 * @cost 2n² per column, no allocation
 */
export function choleskySolve(l: Float64Array, n: number, b: Float64Array, columns = 1): void {
  lowerSolve(l, n, b, columns);
  lowerTransposeSolve(l, n, b, columns);
}

/** Row `target` minus `factor` times row `source`; zeros of a sparse factor cost nothing. */
function subtractRow(b: Float64Array, columns: number, target: number, source: number, factor: number): void {
  if (factor === 0) return;
  const to = target * columns;
  const from = source * columns;
  for (let j = 0; j < columns; j++) b[to + j] = b[to + j]! - factor * b[from + j]!;
}

function divideRow(b: Float64Array, columns: number, row: number, divisor: number): void {
  for (let j = row * columns; j < (row + 1) * columns; j++) b[j] = b[j]! / divisor;
}
