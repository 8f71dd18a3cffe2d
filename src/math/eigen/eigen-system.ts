import { eigenvalues } from "./eigenvalues.ts";
import { eigenvectors } from "./eigenvectors.ts";
import { createEigenWorkspace, type EigenOutcome } from "./workspace.ts";

/** Eigenvalues and right eigenvectors of one matrix; NaN everywhere unless `outcome` is "converged". */
export interface EigenSystem {
  readonly outcome: EigenOutcome;
  /** Real and imaginary parts, shape (n), ordered as `eigenvalues` says. */
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Columns, shape (n, n), stored as `eigenvectors` says. */
  readonly vectors: Float64Array;
}

/**
 * Eigenvalues and right eigenvectors in newly made arrays.
 *
 * @param a  A, shape (n, n) row-major; not changed
 * @param n  order
 * @throws {DomainError} if `n` is not a whole number above zero or `a` is too short
 * @source `eigenvalues` and `eigenvectors`
 * @verified eigenvectors.test.ts
 */
export function eigenSystem(a: Float64Array, n: number): EigenSystem {
  const workspace = createEigenWorkspace(n);
  const re = new Float64Array(n);
  const im = new Float64Array(n);
  const vectors = new Float64Array(n * n);
  let outcome = eigenvalues(a, n, workspace, re, im);
  if (outcome === "converged") outcome = eigenvectors(a, n, re, im, workspace, vectors);
  else vectors.fill(Number.NaN);
  return { outcome, re, im, vectors };
}
