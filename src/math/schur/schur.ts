import { requireFinite, requireLength, requireSize } from "../require.ts";
import { francisSweep, hessenbergWithVectors } from "./steps.ts";

/** Real Schur form with its vectors: A = U·T·Uᵀ. */
export interface RealSchur {
  readonly outcome: "converged" | "no convergence";
  /** T, upper triangular but for blocks of two rows on the diagonal, row-major, shape (n, n). */
  readonly form: Float64Array;
  /** U, orthogonal, row-major, shape (n, n). */
  readonly vectors: Float64Array;
  /** First row of each diagonal block, and n at the end. */
  readonly blocks: readonly number[];
}

const SWEEPS_PER_ROW = 40;

/**
 * Real Schur form of a square matrix with the orthogonal matrix that leads to it.
 *
 *     A = U·T·Uᵀ,  UᵀU = 1                                                     (1)
 *
 * A block of two rows may keep two real eigenvalues: who solves with T needs its blocks, not their kind.
 *
 * @param a  A, shape (n, n) row-major, finite; not changed
 * @param n  order
 * @returns "no convergence" when 40 sweeps per row did not split the matrix; then nothing else may be used
 * @throws {DomainError} if n is not a whole number above zero, the array is too short or an element is not finite
 * @source Golub and Van Loan, Matrix Computations, 4th ed. (2013), algorithms 7.4.2 and 7.5.2
 * @verified schur.test.ts: U·T·Uᵀ = A, UᵀU = 1, eigenvalues of the blocks against `eigenvalues`
 * @cost about 25n³; allocates its results
 */
export function realSchur(a: Float64Array, n: number): RealSchur {
  requireSize("matrix order", n, 1);
  requireLength("matrix", a.length, n * n);
  for (let i = 0; i < n * n; i++) requireFinite(`matrix element ${i}`, a[i]!);
  const form = a.slice(0, n * n);
  const vectors = new Float64Array(n * n);
  for (let i = 0; i < n; i++) vectors[i * n + i] = 1;
  hessenbergWithVectors(form, vectors, n);
  let last = n - 1;
  let sweeps = 0;
  let left = SWEEPS_PER_ROW * Math.max(10, n);
  while (last > 0) {
    const first = splitAbove(form, n, last);
    if (first >= last - 1) {
      last = first - 1;
      sweeps = 0;
      continue;
    }
    if (left-- === 0) return { outcome: "no convergence", form, vectors, blocks: [] };
    francisSweep(form, vectors, n, first, last, ++sweeps);
  }
  const blocks: number[] = [];
  for (let k = 0; k < n; k += form[(k + 1) * n + k] ? 2 : 1) blocks.push(k);
  blocks.push(n);
  return { outcome: "converged", form, vectors, blocks };
}

/** First row of the unsplit block that ends at `last`; sets the negligible term above it to zero. */
function splitAbove(h: Float64Array, n: number, last: number): number {
  for (let k = last; k > 0; k--) {
    const at = k * n + k;
    let size = Math.abs(h[at]!) + Math.abs(h[at - n - 1]!);
    if (size === 0) size = largest(h, n);
    if (Math.abs(h[at - 1]!) <= Number.EPSILON * size) {
      h[at - 1] = 0;
      return k;
    }
  }
  return 0;
}

function largest(h: Float64Array, n: number): number {
  let size = 0;
  for (let i = 0; i < n * n; i++) size = Math.max(size, Math.abs(h[i]!));
  return size;
}

/**
 * Eigenvalues of the diagonal blocks of a Schur form.
 *
 * @returns pairs [real, imaginary ≥ 0 first of a pair], in the order of the blocks
 * @source roots of a quadratic
 * @verified schur.test.ts
 */
export function blockEigenvalues(schur: RealSchur, n: number): [number, number][] {
  const { form: t, blocks } = schur;
  const values: [number, number][] = [];
  for (let b = 0; b + 1 < blocks.length; b++) {
    const k = blocks[b]!;
    const at = k * n + k;
    if (blocks[b + 1]! === k + 1) {
      values.push([t[at]!, 0]);
      continue;
    }
    const mean = 0.5 * (t[at]! + t[at + n + 1]!);
    const half = 0.5 * (t[at]! - t[at + n + 1]!);
    const square = half * half + t[at + 1]! * t[at + n]!;
    const root = Math.sqrt(Math.abs(square));
    if (square < 0) values.push([mean, root], [mean, -root]);
    else values.push([mean + root, 0], [mean - root, 0]);
  }
  return values;
}
