/** Small vector helpers of this folder: three components inside longer arrays, nothing allocated. */

/** out = a × b, three components each from its offset; `out` must be neither `a` nor `b` at the same place. */
export function cross(a: Float64Array, i: number, b: Float64Array, j: number, out: Float64Array, k: number): void {
  out[k] = a[i + 1] * b[j + 2] - a[i + 2] * b[j + 1];
  out[k + 1] = a[i + 2] * b[j] - a[i] * b[j + 2];
  out[k + 2] = a[i] * b[j + 1] - a[i + 1] * b[j];
}

/** a · b, three components each from its offset. */
export function dot(a: Float64Array, i: number, b: Float64Array, j: number): number {
  return a[i] * b[j] + a[i + 1] * b[j + 1] + a[i + 2] * b[j + 2];
}

/** Scales three components to length one; returns the length before. */
export function unitise(a: Float64Array, i: number): number {
  const size = Math.hypot(a[i], a[i + 1], a[i + 2]);
  a[i] /= size;
  a[i + 1] /= size;
  a[i + 2] /= size;
  return size;
}
