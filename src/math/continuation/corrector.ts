import { luFactor, luSolve } from "../dense/index.ts";
import type { CurveProblem } from "./types.ts";

/** Newton steps before a point counts as not found. */
const MOST_STEPS = 8;

/** Arrays and settings of one curve. */
export interface CurveWork {
  readonly problem: CurveProblem;
  readonly tolerance: number;
  readonly residual: Float64Array;
  readonly derivatives: Float64Array;
  readonly matrix: Float64Array;
  readonly pivots: Int32Array;
  readonly step: Float64Array;
}

/** Makes the arrays for one curve. */
export function createCurveWork(problem: CurveProblem, tolerance: number): CurveWork {
  const n = problem.size;
  return {
    problem,
    tolerance,
    residual: new Float64Array(n - 1),
    derivatives: new Float64Array((n - 1) * n),
    matrix: new Float64Array(n * n),
    pivots: new Int32Array(n),
    step: new Float64Array(n),
  };
}

/**
 * Newton's method on the curve's equations and one plane: F(u) = 0, row·u = value; `u` is moved in place.
 *
 * @param work  of the curve; `derivatives` holds those of the last point evaluated
 * @param u     guess in, point out, shape (n)
 * @param row   normal of the plane, shape (n)
 * @returns number of steps, or −1 when it does not converge
 * @source Allgower and Georg, Introduction to Numerical Continuation Methods (2003), chapter 6
 * @cost one evaluation and 2n³/3 per step, no allocation
 */
export function correctPoint(work: CurveWork, u: Float64Array, row: Float64Array, value: number): number {
  const { problem, residual, derivatives, step } = work;
  const n = problem.size;
  let before = Number.POSITIVE_INFINITY;
  for (let count = 1; count <= MOST_STEPS; count++) {
    if (!problem.evaluate(u, residual, derivatives)) return -1;
    let along = value;
    for (let i = 0; i < n; i++) along -= row[i]! * u[i]!;
    for (let i = 0; i < n - 1; i++) step[i] = -residual[i]!;
    step[n - 1] = along;
    if (!solveWith(work, row)) return -1;
    let size = 0;
    for (let i = 0; i < n; i++) {
      u[i] = u[i]! + step[i]!;
      size += step[i]! * step[i]!;
    }
    size = Math.sqrt(size);
    if (!Number.isFinite(size) || (count > 2 && size > 2 * before)) return -1;
    if (size <= work.tolerance) return count;
    before = size;
  }
  return -1;
}

/**
 * Unit tangent at a point with the sense of `towards`; the derivatives there must be in `work`.
 *
 * @param towards shape (n), not at right angles to the curve
 * @param out     shape (n), written
 * @returns false where the curve has no single tangent
 */
export function tangentAt(work: CurveWork, towards: Float64Array, out: Float64Array): boolean {
  const n = work.problem.size;
  work.step.fill(0);
  work.step[n - 1] = 1;
  if (!solveWith(work, towards)) return false;
  let size = 0;
  for (let i = 0; i < n; i++) size += work.step[i]! ** 2;
  size = Math.sqrt(size);
  if (!(size > 0 && Number.isFinite(size))) return false;
  for (let i = 0; i < n; i++) out[i] = work.step[i]! / size;
  return true;
}

/** Solves [J; row]·x = step in place. */
function solveWith(work: CurveWork, row: Float64Array): boolean {
  const { problem, derivatives, matrix, pivots, step } = work;
  const n = problem.size;
  matrix.set(derivatives);
  matrix.set(row, (n - 1) * n);
  if (!luFactor(matrix, n, pivots)) return false;
  luSolve(matrix, n, pivots, step);
  return true;
}
