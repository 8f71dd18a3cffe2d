/** Matrices with known eigenvalues, for the tests of this folder. All row-major, shape (n, n). */

export function fromRows(rows: readonly (readonly number[])[]): Float64Array {
  return Float64Array.from(rows.flat());
}

export function fromRule(n: number, rule: (i: number, j: number) => number): Float64Array {
  return Float64Array.from({ length: n * n }, (_, at) => rule(Math.floor(at / n), at % n));
}

/** Evenly spread numbers between −1 and 1 without pattern: squares times the golden ratio, without whole part. */
export function spreadMatrix(n: number, start = 1): Float64Array {
  return Float64Array.from({ length: n * n }, (_, at) => 2 * (((start * 7919 + at) ** 2 * 0.6180339887498949) % 1) - 1);
}

/** Companion matrix of the monic polynomial with the given lower coefficients c₀ … cₙ₋₁. */
export function companion(coefficients: readonly number[]): Float64Array {
  const n = coefficients.length;
  return fromRule(n, (i, j) => (i === 0 ? -coefficients[n - 1 - j]! : i === j + 1 ? 1 : 0));
}

/** Lower coefficients of ∏ (x − rᵢ). */
export function coefficientsOf(roots: readonly number[]): number[] {
  let all = [1];
  for (const root of roots) {
    const next = [0, ...all];
    for (let i = 0; i < all.length; i++) next[i] = next[i]! - root * all[i]!;
    all = next;
  }
  return all.slice(0, -1);
}

/** Clement's matrix: eigenvalues n − 1, n − 3, …, 1 − n. */
export function clement(n: number): Float64Array {
  return fromRule(n, (i, j) => (j === i + 1 ? n - 1 - i : i === j + 1 ? i : 0));
}

/** Frank's matrix: determinant one, positive eigenvalues in reciprocal pairs, the small ones badly conditioned. */
export function frank(n: number): Float64Array {
  return fromRule(n, (i, j) => (j < i - 1 ? 0 : n - Math.max(i, j)));
}

/** Grcar's matrix: −1 below, 1 on and three above the diagonal; sensitive complex eigenvalues. */
export function grcar(n: number): Float64Array {
  return fromRule(n, (i, j) => (i === j + 1 ? -1 : j >= i && j <= i + 3 ? 1 : 0));
}

/** One Jordan block: a defective eigenvalue. */
export function jordan(n: number, value: number): Float64Array {
  return fromRule(n, (i, j) => (i === j ? value : j === i + 1 ? 1 : 0));
}

export function transpose(a: Float64Array, n: number): Float64Array {
  return fromRule(n, (i, j) => a[j * n + i]!);
}

export function frobenius(a: Float64Array): number {
  return Math.hypot(...a);
}

/** Largest distance between two spectra when every member is matched with the nearest one left. */
export function spectrumDistance(
  re: ArrayLike<number>,
  im: ArrayLike<number>,
  otherRe: ArrayLike<number>,
  otherIm: ArrayLike<number>,
): number {
  const left = Array.from(otherRe, (_, j) => j);
  let worst = 0;
  for (let i = 0; i < re.length; i++) {
    const distances = left.map((j) => Math.hypot(re[i]! - otherRe[j]!, im[i]! - otherIm[j]!));
    const nearest = distances.indexOf(Math.min(...distances));
    worst = Math.max(worst, distances[nearest]!);
    left.splice(nearest, 1);
  }
  return worst;
}
