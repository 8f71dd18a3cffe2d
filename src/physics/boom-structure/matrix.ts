/** Small helpers for full matrices, row-major. */

/** A x for a square matrix, shape (n). */
export function apply(a: Float64Array, x: Float64Array): Float64Array {
  const n = x.length;
  return Float64Array.from({ length: n }, (_, i) => {
    let sum = 0;
    for (let j = 0; j < n; j++) sum += a[i * n + j] * x[j];
    return sum;
  });
}

/** xᵀ y. */
export function dot(x: Float64Array, y: Float64Array): number {
  return x.reduce((sum, value, i) => sum + value * y[i], 0);
}
