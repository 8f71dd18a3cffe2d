import { requireFinite, requireLength, requireSize } from "../require.ts";

/**
 * Orthonormal basis of the vectors that a matrix sends to zero.
 *
 *     G Z = 0,  Zᵀ Z = 1,  Z of shape (columns, columns − rank)                (1)
 *
 * From Gᵀ P = Q R by Householder reflections with column pivoting: the last columns of Q are orthogonal to every
 * row of G. A diagonal term of R below max(rows, columns)·ε·|R₀₀| counts as zero, so dependent constraints are allowed.
 *
 * @param g        G, shape (rows, columns) row-major, finite; not changed
 * @param rows     number of constraints
 * @param columns  number of unknowns
 * @param out      optional room for Z, at least columns·(columns − rank) long; allocated when absent
 * @returns Z, shape (columns, columns − rank) row-major; a view of `out` when that was given, empty at full rank
 * @throws {DomainError} if G is not finite or an array is too short
 * @source Businger and Golub, Linear least squares solutions by Householder transformations, Numer. Math. 7 (1965)
 * @verified dense.test.ts: G Z = 0, orthonormality, rank of products of known rank, no rows and no null space
 */
export function nullSpace(g: Float64Array, rows: number, columns: number, out?: Float64Array): Float64Array {
  requireSize("rows", rows);
  requireSize("columns", columns, 1);
  requireLength("matrix", g.length, rows * columns);
  for (let i = 0; i < rows * columns; i++) requireFinite(`matrix element ${i}`, g[i]!);
  // Row r of `work` is column r of Gᵀ, so that every reflection runs over contiguous numbers.
  const work = g.slice(0, rows * columns);
  const weights = new Float64Array(Math.min(rows, columns));
  const rank = reflectRows(work, rows, columns, weights);
  const width = columns - rank;
  const basis = out ?? new Float64Array(columns * width);
  requireLength("null space", basis.length, columns * width);
  basis.fill(0, 0, columns * width);
  for (let c = 0; c < width; c++) basis[(rank + c) * width + c] = 1;
  for (let k = rank - 1; k >= 0; k--) reflectBasis(basis, width, columns, work, k, weights[k]!);
  return out === undefined ? basis : basis.subarray(0, columns * width);
}

/** Triangularises the rows in place, reflector k left in row k from column k on; returns the rank. */
function reflectRows(work: Float64Array, rows: number, columns: number, weights: Float64Array): number {
  const steps = Math.min(rows, columns);
  let largest = 0;
  for (let k = 0; k < steps; k++) {
    bringLongestRow(work, rows, columns, k);
    const at = k * columns;
    const size = rowNorm(work, at + k, at + columns);
    if (k === 0) largest = size;
    if (size <= Math.max(rows, columns) * Number.EPSILON * largest) return k;
    const first = work[at + k]!;
    const head = first > 0 ? first + size : first - size;
    // v = (1, tail / head), weight τ with H = 1 − τ v vᵀ
    for (let j = k + 1; j < columns; j++) work[at + j] = work[at + j]! / head;
    work[at + k] = 1;
    weights[k] = Math.abs(head) / size;
    for (let r = k + 1; r < rows; r++) reflectRow(work, r * columns, at, k, columns, weights[k]!);
  }
  return steps;
}

function bringLongestRow(work: Float64Array, rows: number, columns: number, k: number): void {
  let best = -1;
  let from = k;
  for (let r = k; r < rows; r++) {
    const size = rowNorm(work, r * columns + k, (r + 1) * columns);
    if (size > best) {
      best = size;
      from = r;
    }
  }
  if (from === k) return;
  for (let j = 0; j < columns; j++) {
    const kept = work[k * columns + j]!;
    work[k * columns + j] = work[from * columns + j]!;
    work[from * columns + j] = kept;
  }
}

/** Euclidean length that neither overflows nor underflows. */
function rowNorm(work: Float64Array, from: number, to: number): number {
  let largest = 0;
  for (let j = from; j < to; j++) largest = Math.max(largest, Math.abs(work[j]!));
  if (largest === 0) return 0;
  let sum = 0;
  for (let j = from; j < to; j++) sum += (work[j]! / largest) ** 2;
  return largest * Math.sqrt(sum);
}

function reflectRow(work: Float64Array, row: number, at: number, k: number, columns: number, weight: number): void {
  let product = 0;
  for (let j = k; j < columns; j++) product += work[row + j]! * work[at + j]!;
  product *= weight;
  for (let j = k; j < columns; j++) work[row + j] = work[row + j]! - product * work[at + j]!;
}

/** Applies reflector k to every column of the basis. */
function reflectBasis(
  basis: Float64Array,
  width: number,
  columns: number,
  work: Float64Array,
  k: number,
  weight: number,
): void {
  for (let c = 0; c < width; c++) {
    let product = 0;
    for (let i = k; i < columns; i++) product += work[k * columns + i]! * basis[i * width + c]!;
    product *= weight;
    for (let i = k; i < columns; i++) {
      basis[i * width + c] = basis[i * width + c]! - product * work[k * columns + i]!;
    }
  }
}
