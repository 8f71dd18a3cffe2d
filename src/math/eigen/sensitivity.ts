import { requireLength } from "../require.ts";

/** Slope of an eigenvalue with a parameter. */
export interface EigenvalueSlope {
  readonly re: number;
  readonly im: number;
}

/**
 * Derivative of a simple eigenvalue with a parameter of the matrix.
 *
 *     dλ/dp = yᴴ (dA/dp) x / (yᴴ x)                                                (3)
 *
 * @param slope  dA/dp, shape (n, n) row-major
 * @param n      order
 * @param right  right eigenvectors as `eigenvectors` stores them, shape (n, n)
 * @param left   left eigenvectors as `leftEigenvectors` stores them, shape (n, n)
 * @param j      column of the eigenvalue, the first of a pair
 * @param isPair whether column j + 1 holds the imaginary parts
 * @returns `null` where yᴴx vanishes to rounding: a defective eigenvalue has no derivative
 * @throws {DomainError} if an array is too short
 * @source Lancaster, Numer. Math. 6 (1964) 377, eq. (7)
 * @verified sensitivity.test.ts: closed forms, differences of eigenvalues, similarity
 * @cost n², no allocation but the result
 */
export function eigenvalueSlope(
  slope: Float64Array,
  n: number,
  right: Float64Array,
  left: Float64Array,
  j: number,
  isPair: boolean,
): EigenvalueSlope | null {
  requireLength("matrix slope", slope.length, n * n);
  requireLength("right eigenvectors", right.length, n * n);
  requireLength("left eigenvectors", left.length, n * n);
  let re = 0;
  let im = 0;
  let productRe = 0;
  let productIm = 0;
  for (let i = 0; i < n; i++) {
    let rowRe = 0;
    let rowIm = 0;
    for (let k = 0; k < n; k++) {
      rowRe += slope[i * n + k]! * right[k * n + j]!;
      if (isPair) rowIm += slope[i * n + k]! * right[k * n + j + 1]!;
    }
    const xRe = right[i * n + j]!;
    const xIm = isPair ? right[i * n + j + 1]! : 0;
    const yRe = left[i * n + j]!;
    const yIm = isPair ? left[i * n + j + 1]! : 0;
    re += yRe * rowRe + yIm * rowIm;
    im += yRe * rowIm - yIm * rowRe;
    productRe += yRe * xRe + yIm * xIm;
    productIm += yRe * xIm - yIm * xRe;
  }
  const square = productRe * productRe + productIm * productIm;
  if (!(square > n * Number.EPSILON ** 2)) return null;
  return { re: (re * productRe + im * productIm) / square, im: (im * productRe - re * productIm) / square };
}

/**
 * Derivative of the damping ratio ζ = −Re λ/|λ| from that of its root.
 *
 *     dζ/dp = ω·(σ·dω/dp − ω·dσ/dp)/|λ|³,   λ = σ + iω                                  (4)
 *
 * @param re     σ [1/s]
 * @param im     ω [rad/s]
 * @param slope  dλ/dp
 * @source derivative of the definition
 * @verified sensitivity.test.ts: differences
 */
export function dampingRatioSlope(re: number, im: number, slope: EigenvalueSlope): number {
  const size = Math.hypot(re, im);
  return (im * (re * slope.im - im * slope.re)) / size ** 3;
}
