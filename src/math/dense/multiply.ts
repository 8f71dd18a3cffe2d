import { DomainError } from "../errors.ts";
import { requireLength } from "../require.ts";

/**
 * Product of two matrices.
 *
 *     out = A B                                                                (1)
 *
 * @param a        A, shape (rows, inner) row-major
 * @param b        B, shape (inner, columns) row-major
 * @param out      shape (rows, columns), written; must not be `a` or `b`
 * @param rows     rows of A
 * @param inner    columns of A, rows of B
 * @param columns  columns of B
 * @throws {DomainError} if an array is too short or `out` is one of the factors
 * @source definition of the matrix product
 * @verified dense.test.ts: associativity, identity, ml-matrix
 * @cost 2·rows·inner·columns, no allocation
 */
export function multiply(
  a: Float64Array,
  b: Float64Array,
  out: Float64Array,
  rows: number,
  inner: number,
  columns: number,
): void {
  requireLength("left factor", a.length, rows * inner);
  requireLength("right factor", b.length, inner * columns);
  requireLength("product", out.length, rows * columns);
  if (out === a || out === b) throw new DomainError("product array", "one of the factors", "an array of its own");
  for (let i = 0; i < rows; i++) {
    const to = i * columns;
    for (let j = 0; j < columns; j++) out[to + j] = 0;
    for (let k = 0; k < inner; k++) {
      const factor = a[i * inner + k]!;
      const from = k * columns;
      for (let j = 0; j < columns; j++) out[to + j] = out[to + j]! + factor * b[from + j]!;
    }
  }
}
