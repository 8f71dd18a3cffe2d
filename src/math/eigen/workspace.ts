import { requireSize } from "../require.ts";

/**
 * How a computation of eigenvalues or vectors ended.
 *
 * "converged": every result is finite. "not finite": the matrix holds NaN or an infinity, or a result is beyond the range
 * of numbers. "no convergence": the iteration limit was reached; no result may be used.
 */
export type EigenOutcome = "converged" | "not finite" | "no convergence";

/**
 * Places in `scalars`. Numbers pass through an array because one handed to a function that the engine does not inline
 * would be allocated.
 */
/** σ: the workspace's matrix is σ times the one given. */
export const SIGMA = 0;
/** ‖H‖, the largest sum of sizes of a row. */
export const NORM = 1;
/** λ of the inverse iteration, times σ. */
export const LAMBDA_RE = 2;
export const LAMBDA_IM = 3;
/** ‖(H − λ) x‖ of the vector under iteration. */
export const RESIDUAL = 4;
/** σ of the diagonal outside the window, where only eigenvalues are wanted. */
export const SIGMA_OUTSIDE = 5;

/** Arrays that the eigenvalue routines work in, for matrices up to `capacity` rows; create once, use for many. */
export interface EigenWorkspace {
  readonly capacity: number;
  /** Balanced matrix, then its Hessenberg form, shape (n, n) row-major. */
  readonly hessenberg: Float64Array;
  /** Reflector k in row k, from element k + 1 on, shape (n, n). */
  readonly reflectors: Float64Array;
  /** Weight τ of each reflector, shape (n). */
  readonly weights: Float64Array;
  /** Balancing: row exchanges and powers of two, shape (n) each. */
  readonly exchanges: Int32Array;
  readonly scales: Float64Array;
  /** First and last row of the block that the exchanges could not make triangular. */
  readonly window: Int32Array;
  /** Shifts and first bulge column of the QR iteration, shape (8). */
  readonly shifts: Float64Array;
  /** Numbers that pass between functions, at the places below, shape (6). */
  readonly scalars: Float64Array;
  /** The reflector at work and its products with the matrix, shape (n) each. */
  readonly reflector: Float64Array;
  readonly products: Float64Array;
  readonly dots: Float64Array;
  /** Factors of the shifted matrix, real and imaginary parts, shape (n, n); pivots say which row was on top. */
  readonly shiftedRe: Float64Array;
  readonly shiftedIm: Float64Array;
  readonly multiplierRe: Float64Array;
  readonly multiplierIm: Float64Array;
  readonly exchanged: Uint8Array;
  /** The vector under iteration and its copy, real and imaginary parts, shape (n). */
  readonly vectorRe: Float64Array;
  readonly vectorIm: Float64Array;
  readonly keptRe: Float64Array;
  readonly keptIm: Float64Array;
  /** Copy of the input (transposed for left vectors), shape (n, n). */
  readonly matrix: Float64Array;
}

/**
 * Makes the arrays for matrices up to `n` rows.
 *
 * @param n  largest order
 * @throws {DomainError} if `n` is not a whole number above zero
 * @cost 6 n² numbers
 */
export function createEigenWorkspace(n: number): EigenWorkspace {
  requireSize("matrix order", n, 1);
  const square = () => new Float64Array(n * n);
  const row = () => new Float64Array(n);
  return {
    capacity: n,
    hessenberg: square(),
    reflectors: square(),
    weights: row(),
    exchanges: new Int32Array(n),
    scales: row(),
    window: new Int32Array(2),
    shifts: new Float64Array(8),
    scalars: new Float64Array(6),
    reflector: row(),
    products: row(),
    dots: row(),
    shiftedRe: square(),
    shiftedIm: square(),
    multiplierRe: row(),
    multiplierIm: row(),
    exchanged: new Uint8Array(n),
    vectorRe: row(),
    vectorIm: row(),
    keptRe: row(),
    keptIm: row(),
    matrix: square(),
  };
}
