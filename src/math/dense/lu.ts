import { requireLength } from "../require.ts";

/**
 * Factors a square matrix into a unit lower and an upper triangle, in place, with partial pivoting.
 *
 *     P A = L U                                                                (1)
 *
 * L (without its unit diagonal) and U overwrite `a`; `pivots[k]` is the row that changed places with row k.
 * A matrix with a zero pivot, NaN or an infinity gives `false`; then `a` holds no usable factors.
 *
 * @param a       A, shape (n, n) row-major; overwritten
 * @param n       order
 * @param pivots  shape (n), written
 * @returns whether every pivot is finite and not zero
 * @throws {DomainError} if an array is too short
 * @source Golub and Van Loan, Matrix Computations, 4th ed. (2013), algorithm 3.4.1 (outer product, partial pivoting)
 * @verified dense.test.ts: reconstruction, known inverse of the Hilbert matrix, every position of NaN and infinity
 * @cost 2n³/3, no allocation
 */
export function luFactor(a: Float64Array, n: number, pivots: Int32Array): boolean {
  requireLength("matrix", a.length, n * n);
  requireLength("pivots", pivots.length, n);
  for (let k = 0; k < n; k++) {
    const pivotRow = largestInColumn(a, n, k);
    const pivot = a[pivotRow * n + k]!;
    pivots[k] = pivotRow;
    // A NaN anywhere spreads to the last pivot at the latest, because no multiplier is skipped.
    if (!(Math.abs(pivot) > 0 && Math.abs(pivot) < Number.POSITIVE_INFINITY)) return false;
    if (pivotRow !== k) swapRows(a, n, k, pivotRow);
    const top = k * n;
    for (let i = k + 1; i < n; i++) {
      const row = i * n;
      const factor = a[row + k]! / pivot;
      a[row + k] = factor;
      for (let j = k + 1; j < n; j++) a[row + j] = a[row + j]! - factor * a[top + j]!;
    }
  }
  return true;
}

function largestInColumn(a: Float64Array, n: number, k: number): number {
  let best = Math.abs(a[k * n + k]!);
  let at = k;
  for (let i = k + 1; i < n; i++) {
    const size = Math.abs(a[i * n + k]!);
    if (size > best) {
      best = size;
      at = i;
    }
  }
  return at;
}

function swapRows(a: Float64Array, columns: number, first: number, second: number): void {
  const top = first * columns;
  const bottom = second * columns;
  for (let j = 0; j < columns; j++) {
    const kept = a[top + j]!;
    a[top + j] = a[bottom + j]!;
    a[bottom + j] = kept;
  }
}

/**
 * Solves A X = B with the factors of `luFactor`, in place.
 *
 * @param lu       factors from `luFactor`, shape (n, n)
 * @param n        order
 * @param pivots   from `luFactor`, shape (n)
 * @param b        B, shape (n, columns) row-major; overwritten by X
 * @param columns  number of right-hand sides
 * @throws {DomainError} if an array is too short
 * @source Golub and Van Loan, Matrix Computations, 4th ed. (2013), section 3.2
 * @verified dense.test.ts: residual at rounding level on random systems with one and several right-hand sides
 * @cost 2n² per column, no allocation
 */
export function luSolve(lu: Float64Array, n: number, pivots: Int32Array, b: Float64Array, columns = 1): void {
  requireLength("factors", lu.length, n * n);
  requireLength("pivots", pivots.length, n);
  requireLength("right-hand side", b.length, n * columns);
  for (let k = 0; k < n; k++) {
    if (pivots[k]! !== k) swapRows(b, columns, k, pivots[k]!);
  }
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) subtractRow(b, columns, i, k, lu[i * n + k]!);
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) subtractRow(b, columns, i, k, lu[i * n + k]!);
    const pivot = lu[i * n + i]!;
    for (let j = 0; j < columns; j++) b[i * columns + j] = b[i * columns + j]! / pivot;
  }
}

/** Row `target` minus `factor` times row `source`. */
function subtractRow(b: Float64Array, columns: number, target: number, source: number, factor: number): void {
  const to = target * columns;
  const from = source * columns;
  for (let j = 0; j < columns; j++) b[to + j] = b[to + j]! - factor * b[from + j]!;
}
