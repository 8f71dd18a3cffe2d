const SWEEPS_PER_VALUE = 60;

/**
 * Eigenvalues of a symmetric tridiagonal matrix, and the turns that lead to them.
 *
 *     T = S Λ Sᵀ;  rows := Sᵀ rows                                             (4)
 *
 * @param d     diagonal of T, shape (n); overwritten by the eigenvalues, in no order
 * @param e     e[i] = T[i, i+1], shape (n); destroyed
 * @param n     order
 * @param rows  shape (n, n) row-major, turned along: Qᵀ becomes Xᵀ, an eigenvector a row; `undefined` for values alone
 * @returns whether every value was found
 * @source implicit QL with Wilkinson's shift: Dubrulle, Martin and Wilkinson, Numer. Math. 12 (1968), 377–383
 * @verified symmetric-eigen.test.ts: through `symmetricEigen`
 * @cost about 3n³ with rows, 30n² without; no allocation
 */
export function implicitQl(d: Float64Array, e: Float64Array, n: number, rows: Float64Array | undefined): boolean {
  for (let low = 0; low < n; low++) {
    for (let sweep = 0; ; sweep++) {
      let high = low;
      while (high < n - 1 && Math.abs(e[high]!) > Number.EPSILON * (Math.abs(d[high]!) + Math.abs(d[high + 1]!))) {
        high++;
      }
      if (high === low) break;
      if (sweep === SWEEPS_PER_VALUE) return false;
      sweepUp(d, e, n, low, high, rows);
    }
  }
  return true;
}

/** One QL step on the block low … high: a bulge is chased from its foot to its head. */
function sweepUp(
  d: Float64Array,
  e: Float64Array,
  n: number,
  low: number,
  high: number,
  rows: Float64Array | undefined,
): void {
  // the eigenvalue of the leading 2 × 2 block that is nearer d[low]
  const half = (d[low + 1]! - d[low]!) / (2 * e[low]!);
  const root = Math.hypot(half, 1);
  let g = d[high]! - d[low]! + e[low]! / (half + (half < 0 ? -root : root));
  let sine = 1;
  let cosine = 1;
  let shiftBack = 0;
  for (let i = high - 1; i >= low; i--) {
    const f = sine * e[i]!;
    const b = cosine * e[i]!;
    const length = Math.hypot(f, g);
    e[i + 1] = length;
    if (length === 0) {
      // the block falls apart: take back the shift and look again
      d[i + 1] = d[i + 1]! - shiftBack;
      e[high] = 0;
      return;
    }
    sine = f / length;
    cosine = g / length;
    g = d[i + 1]! - shiftBack;
    const turn = (d[i]! - g) * sine + 2 * cosine * b;
    shiftBack = sine * turn;
    d[i + 1] = g + shiftBack;
    g = cosine * turn - b;
    if (rows !== undefined) turnRows(rows, n, i, cosine, sine);
  }
  d[low] = d[low]! - shiftBack;
  e[low] = g;
  e[high] = 0;
}

/** Rows i and i + 1 become c·rᵢ − s·rᵢ₊₁ and s·rᵢ + c·rᵢ₊₁. */
function turnRows(rows: Float64Array, n: number, i: number, cosine: number, sine: number): void {
  const upper = i * n;
  const lower = upper + n;
  for (let j = 0; j < n; j++) {
    const a = rows[upper + j]!;
    const b = rows[lower + j]!;
    rows[upper + j] = cosine * a - sine * b;
    rows[lower + j] = sine * a + cosine * b;
  }
}
