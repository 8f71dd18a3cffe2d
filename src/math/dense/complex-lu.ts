import { requireLength } from "../require.ts";

/** A square complex matrix with its factors, real and imaginary parts apart. */
export interface ComplexSystem {
  readonly size: number;
  /** Shape (n, n) row-major; `factorComplex` overwrites both. */
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly pivots: Int32Array;
}

/** Makes the arrays of a complex system of order n, filled with zero. */
export function createComplexSystem(n: number): ComplexSystem {
  return { size: n, re: new Float64Array(n * n), im: new Float64Array(n * n), pivots: new Int32Array(n) };
}

/**
 * Factors a complex matrix into a unit lower and an upper triangle, in place, with partial pivoting.
 *
 *     P A = L U                                                                (1)
 *
 * @param system A in `re` and `im`; overwritten by the factors, `pivots` written
 * @returns whether every pivot is finite and not zero
 * @source Golub and Van Loan, Matrix Computations, 4th ed. (2013), algorithm 3.4.1
 * @verified complex-lu.test.ts: against the real system of twice the order, and products
 * @cost 8n³/3, no allocation
 */
export function factorComplex(system: ComplexSystem): boolean {
  const { size: n, re, im, pivots } = system;
  for (let k = 0; k < n; k++) {
    let at = k;
    let best = Math.abs(re[k * n + k]!) + Math.abs(im[k * n + k]!);
    for (let i = k + 1; i < n; i++) {
      const size = Math.abs(re[i * n + k]!) + Math.abs(im[i * n + k]!);
      if (size > best) {
        best = size;
        at = i;
      }
    }
    pivots[k] = at;
    if (!(best > 0 && best < Number.POSITIVE_INFINITY)) return false;
    if (at !== k) {
      for (let j = 0; j < n; j++) {
        exchange(re, k * n + j, at * n + j);
        exchange(im, k * n + j, at * n + j);
      }
    }
    const pr = re[k * n + k]!;
    const pi = im[k * n + k]!;
    const square = pr * pr + pi * pi;
    for (let i = k + 1; i < n; i++) {
      const row = i * n;
      const ar = re[row + k]!;
      const ai = im[row + k]!;
      if (ar === 0 && ai === 0) continue;
      const fr = (ar * pr + ai * pi) / square;
      const fi = (ai * pr - ar * pi) / square;
      re[row + k] = fr;
      im[row + k] = fi;
      for (let j = k + 1; j < n; j++) {
        const ur = re[k * n + j]!;
        const ui = im[k * n + j]!;
        re[row + j] = re[row + j]! - (fr * ur - fi * ui);
        im[row + j] = im[row + j]! - (fr * ui + fi * ur);
      }
    }
  }
  return true;
}

/**
 * Solves A x = b with the factors of `factorComplex`, in place.
 *
 * @param system from `factorComplex`
 * @param xr     real part of b, shape (n); overwritten by that of x
 * @param xi     imaginary part, likewise
 * @throws {DomainError} if an array is too short
 * @source Golub and Van Loan, Matrix Computations, 4th ed. (2013), section 3.2
 * @verified complex-lu.test.ts
 * @cost 8n², no allocation
 */
export function solveComplex(system: ComplexSystem, xr: Float64Array, xi: Float64Array): void {
  const { size: n, re, im, pivots } = system;
  requireLength("right-hand side", Math.min(xr.length, xi.length), n);
  for (let k = 0; k < n; k++) {
    const at = pivots[k]!;
    if (at !== k) {
      exchange(xr, k, at);
      exchange(xi, k, at);
    }
  }
  for (let i = 0; i < n; i++) {
    let r = xr[i]!;
    let q = xi[i]!;
    for (let k = 0; k < i; k++) {
      const lr = re[i * n + k]!;
      const li = im[i * n + k]!;
      r -= lr * xr[k]! - li * xi[k]!;
      q -= lr * xi[k]! + li * xr[k]!;
    }
    xr[i] = r;
    xi[i] = q;
  }
  for (let i = n - 1; i >= 0; i--) {
    let r = xr[i]!;
    let q = xi[i]!;
    for (let k = i + 1; k < n; k++) {
      const ur = re[i * n + k]!;
      const ui = im[i * n + k]!;
      r -= ur * xr[k]! - ui * xi[k]!;
      q -= ur * xi[k]! + ui * xr[k]!;
    }
    const pr = re[i * n + i]!;
    const pi = im[i * n + i]!;
    const square = pr * pr + pi * pi;
    xr[i] = (r * pr + q * pi) / square;
    xi[i] = (q * pr - r * pi) / square;
  }
}

function exchange(a: Float64Array, i: number, j: number): void {
  const kept = a[i]!;
  a[i] = a[j]!;
  a[j] = kept;
}
