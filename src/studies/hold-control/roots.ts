import { createEigenWorkspace, type EigenWorkspace, eigenvalues } from "../../math/eigen/index.ts";
import { BugError } from "../../math/errors.ts";

export interface Root {
  readonly real: number;
  /** ≥ 0: a pair once. */
  readonly imag: number;
}

const workspaces = new Map<number, EigenWorkspace>();

/** Roots of a matrix, each conjugate pair once. */
export function rootsOf(A: Float64Array, n: number): Root[] {
  if (n === 0) return [];
  const [re, im] = [new Float64Array(n), new Float64Array(n)];
  let workspace = workspaces.get(n);
  if (workspace === undefined) {
    workspace = createEigenWorkspace(n);
    workspaces.set(n, workspace);
  }
  const outcome = eigenvalues(A, n, workspace, re, im);
  if (outcome !== "converged") throw new BugError(`eigenvalues of a control loop: ${outcome}`);
  const roots: Root[] = [];
  for (let i = 0; i < n; i++) if (im[i] >= 0) roots.push({ real: re[i], imag: im[i] });
  return roots;
}

/** Number of roots right of a line, both of a pair counted. */
export function countRight(roots: readonly Root[], shift: number): number {
  return roots.reduce((sum, { real, imag }) => sum + (real > shift ? (imag > 0 ? 2 : 1) : 0), 0);
}
