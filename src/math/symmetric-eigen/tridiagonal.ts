/**
 * Reduces a symmetric matrix to a tridiagonal one by reflections.
 *
 *     T = Qᵀ A Q,  Q = H₀ H₁ …,  H_k = 1 − v vᵀ with |v|² = 2 or v = 0          (3)
 *
 * @param a         A, shape (n, n) row-major, finite, symmetric; overwritten by Qᵀ
 * @param n         order
 * @param diagonal  diagonal of T, shape (n), written
 * @param beside    beside[i] = T[i, i+1], shape (n), written; the last is 0
 * @param work      shape (2n), scratch
 * @source Golub and Van Loan, Matrix Computations, 4th ed. (2013), section 8.3.1
 * @verified symmetric-eigen.test.ts: through `symmetricEigen` (residual, orthogonality)
 * @cost 8n³/3, no allocation
 */
export function reduceToTridiagonal(
  a: Float64Array,
  n: number,
  diagonal: Float64Array,
  beside: Float64Array,
  work: Float64Array,
): void {
  for (let k = 0; k < n; k++) {
    diagonal[k] = a[k * n + k]!;
    // The vector of step k is kept in row k, right of the diagonal, which the later steps no longer need.
    beside[k] = k < n - 2 ? reflector(a, n, k) : k === n - 2 ? a[k * n + k + 1]! : 0;
    if (k < n - 2) reflectTrailing(a, n, k, work);
  }
  accumulate(a, n, work);
}

/** Turns row k right of the diagonal into v with |v|² = 2 (or 0); returns the element that remains of the row. */
function reflector(a: Float64Array, n: number, k: number): number {
  const first = k * n + k + 1;
  const end = (k + 1) * n;
  let tail = 0;
  for (let j = first + 1; j < end; j++) tail += a[j]! * a[j]!;
  const head = a[first]!;
  if (tail === 0) {
    a.fill(0, first, end);
    return head;
  }
  const kept = head > 0 ? -Math.sqrt(head * head + tail) : Math.sqrt(head * head + tail);
  a[first] = head - kept;
  const scale = Math.SQRT2 / Math.sqrt(a[first]! * a[first]! + tail);
  for (let j = first; j < end; j++) a[j] = a[j]! * scale;
  return kept;
}

/** A := H A H on the rows and columns after k: A − v wᵀ − w vᵀ with p = A v, w = p − ½(pᵀv) v. */
function reflectTrailing(a: Float64Array, n: number, k: number, w: Float64Array): void {
  const v = k * n;
  let half = 0;
  for (let i = k + 1; i < n; i++) {
    let sum = 0;
    for (let j = k + 1; j < n; j++) sum += a[i * n + j]! * a[v + j]!;
    w[i] = sum;
    half += 0.5 * sum * a[v + i]!;
  }
  for (let i = k + 1; i < n; i++) w[i] = w[i]! - half * a[v + i]!;
  for (let i = k + 1; i < n; i++) {
    const row = i * n;
    const vi = a[v + i]!;
    const wi = w[i]!;
    for (let j = k + 1; j < n; j++) a[row + j] = a[row + j]! - vi * w[j]! - wi * a[v + j]!;
  }
}

/** Replaces the kept vectors by Qᵀ, from the last reflection to the first. */
function accumulate(a: Float64Array, n: number, work: Float64Array): void {
  for (let k = n - 1; k >= 0; k--) {
    const row = k * n;
    for (let j = k + 1; j < n; j++) work[j] = k < n - 2 ? a[row + j]! : 0;
    a.fill(0, row + k + 1, row + n);
    for (let i = k + 1; i < n; i++) a[i * n + k] = 0;
    a[row + k] = 1;
    if (k < n - 2) reflectRows(a, n, k, work);
  }
}

/** Qᵀ := Qᵀ H on the rows and columns after k. */
function reflectRows(a: Float64Array, n: number, k: number, v: Float64Array): void {
  for (let i = k + 1; i < n; i++) {
    const row = i * n;
    let sum = 0;
    for (let j = k + 1; j < n; j++) sum += a[row + j]! * v[j]!;
    if (sum === 0) continue;
    for (let j = k + 1; j < n; j++) a[row + j] = a[row + j]! - sum * v[j]!;
  }
}
