import { requireLength, requireSize } from "../require.ts";
import { francis } from "./francis.ts";
import { sortEigenvalues } from "./order.ts";
import { prepare } from "./prepare.ts";
import { type EigenOutcome, type EigenWorkspace, SIGMA, SIGMA_OUTSIDE } from "./workspace.ts";

/**
 * All eigenvalues of a real square matrix, which need not be symmetric.
 *
 *     det(A − λ 1) = 0                                                         (1)
 *
 * Sorted by falling real part, then rising |imaginary part|; the two of a complex pair are neighbours, positive
 * imaginary part first. The same matrix always gives the same numbers in the same order.
 *
 * @param a          A, shape (n, n) row-major; not changed
 * @param n          order
 * @param workspace  from `createEigenWorkspace(m)` with m ≥ n
 * @param re         real parts, shape (n), written
 * @param im         imaginary parts, shape (n), written
 * @returns "not finite" and "no convergence" leave NaN in `re` and `im`
 * @throws {DomainError} if `n` is not a whole number above zero or an array is too short
 * @source Parlett and Reinsch (1969) balancing, Householder reduction, Francis (1961) QR: see the files beside
 * @verified eigenvalues.test.ts: closed forms, ml-matrix, trace, determinant, similarity, refused input
 * @cost about 13n³, no allocation
 */
export function eigenvalues(
  a: Float64Array,
  n: number,
  workspace: EigenWorkspace,
  re: Float64Array,
  im: Float64Array,
): EigenOutcome {
  checkRoom(a, n, workspace, re, im);
  if (!prepare(a, n, workspace, false)) return fail("not finite", n, re, im);
  const { hessenberg, window, scalars } = workspace;
  const low = window[0]!;
  const high = window[1]!;
  for (let i = 0; i < n; i++) {
    re[i] = hessenberg[i * n + i]!;
    im[i] = 0;
  }
  if (!francis(hessenberg, n, low, high, workspace.shifts, re, im)) return fail("no convergence", n, re, im);
  let finite = true;
  for (let i = 0; i < n; i++) {
    const scale = scalars[i >= low && i <= high ? SIGMA : SIGMA_OUTSIDE]!;
    re[i] = re[i]! / scale;
    im[i] = im[i]! / scale;
    if (!(Math.abs(re[i]!) < Number.POSITIVE_INFINITY && Math.abs(im[i]!) < Number.POSITIVE_INFINITY)) finite = false;
  }
  if (!finite) return fail("not finite", n, re, im);
  sortEigenvalues(re, im, n);
  return "converged";
}

function checkRoom(a: Float64Array, n: number, workspace: EigenWorkspace, re: Float64Array, im: Float64Array): void {
  requireSize("matrix order", n, 1);
  requireLength("eigenvalue workspace", workspace.capacity, n);
  requireLength("matrix", a.length, n * n);
  requireLength("real parts", re.length, n);
  requireLength("imaginary parts", im.length, n);
}

function fail(outcome: EigenOutcome, n: number, re: Float64Array, im: Float64Array): EigenOutcome {
  re.fill(Number.NaN, 0, n);
  im.fill(Number.NaN, 0, n);
  return outcome;
}
