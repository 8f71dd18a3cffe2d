import { luFactor, luSolve } from "../dense/index.ts";
import {
  createJacobianWorkspace,
  type JacobianWorkspace,
  jacobian,
  type VectorFunction,
} from "../differentiate/index.ts";
import { requireLength, requirePositive, requireSize } from "../require.ts";

export type NewtonOutcome = "converged" | "singular" | "no descent" | "too many iterations" | "not finite";

export interface NewtonOptions {
  /** Size of each residual that counts as zero, in its unit, above zero: one number for all, or shape (n). */
  readonly tolerance: number | ArrayLike<number>;
  /** Typical size of each unknown, in its unit, above zero: steps of the derivatives are 1e-3 of it. Default 1. */
  readonly scales?: number | ArrayLike<number>;
  /** Derivative matrix if known: writes ∂fᵢ/∂xⱼ, shape (n, n) row-major. Otherwise extrapolated differences. */
  readonly derivatives?: VectorFunction;
  /** Default 50. */
  readonly maxIterations?: number;
}

export interface NewtonResult {
  readonly outcome: NewtonOutcome;
  /** Solution, or the best point so far, shape (n). */
  readonly x: Float64Array;
  /** f(x), shape (n). */
  readonly residual: Float64Array;
  readonly iterations: number;
}

/** Halvings of one step before it counts as no descent. */
const MOST_HALVINGS = 40;
/** Share of the predicted decrease that a step must reach (Armijo). */
const WANTED_SHARE = 1e-4;
/** Steps of the differences as a share of `scales`. */
const STEP_SHARE = 1e-3;

/**
 * Solves n equations in n unknowns from a guess, by Newton's method with a line search.
 *
 *     J Δ = −f(x),   x ← x + λ Δ,   λ = 1, ½, ¼ …                              (1)
 *
 * λ is the first for which the length of the residuals, each over its tolerance, falls enough. It ends when every
 * residual is within its tolerance.
 *
 * @param f        the equations: reads x, writes residuals, both shape (n); NaN marks a point it cannot evaluate, and the
 *                 line search then takes a shorter step
 * @param x0       guess, shape (n); not changed
 * @param options  tolerances, scales, derivatives, limit
 * @returns "singular" if J has no inverse, "no descent" if no shorter step lowers the residuals, "not finite" if f or J
 *          is not finite at an iterate
 * @throws {DomainError} if a tolerance or scale is not above zero or an array is too short
 * @source Dennis and Schnabel, Numerical Methods for Unconstrained Optimization and Nonlinear Equations (1983),
 *         sections 6.3 (backtracking) and 6.5 (systems)
 * @verified roots.test.ts: quadratic convergence, known systems, far guesses, singular and impossible systems
 */
export function newtonSystem(f: VectorFunction, x0: ArrayLike<number>, options: NewtonOptions): NewtonResult {
  const work = createWork(x0, options);
  const { n, x, residual, next, step, matrix, pivots } = work;
  const maxIterations = options.maxIterations ?? 50;
  requireSize("iteration limit", maxIterations, 1);
  f(x, residual);
  let merit = meritOf(work, residual);
  let iterations = 0;
  const result = (outcome: NewtonOutcome): NewtonResult => ({ outcome, x, residual, iterations });
  if (!Number.isFinite(merit)) return result("not finite");
  while (!isSolved(work, residual)) {
    if (iterations === maxIterations) return result("too many iterations");
    iterations++;
    if (!differentiate(f, options, work)) return result("not finite");
    if (!luFactor(matrix, n, pivots)) return result("singular");
    for (let i = 0; i < n; i++) step[i] = -residual[i]!;
    luSolve(matrix, n, pivots, step);
    let share = 1;
    let halvings = 0;
    let nextMerit = Number.NaN;
    for (; halvings < MOST_HALVINGS; halvings++) {
      for (let i = 0; i < n; i++) next[i] = x[i]! + share * step[i]!;
      f(next, work.nextResidual);
      nextMerit = meritOf(work, work.nextResidual);
      // Along Newton's step the merit falls at first by its own size over the whole step.
      if (nextMerit <= (1 - WANTED_SHARE * share) * merit) break;
      share *= 0.5;
    }
    if (halvings === MOST_HALVINGS) return result("no descent");
    x.set(next);
    residual.set(work.nextResidual);
    merit = nextMerit;
  }
  return result("converged");
}

interface NewtonWork {
  readonly n: number;
  readonly x: Float64Array;
  readonly next: Float64Array;
  readonly residual: Float64Array;
  readonly nextResidual: Float64Array;
  readonly step: Float64Array;
  readonly tolerances: Float64Array;
  readonly steps: Float64Array;
  readonly matrix: Float64Array;
  readonly pivots: Int32Array;
  readonly differences: JacobianWorkspace;
}

function createWork(x0: ArrayLike<number>, options: NewtonOptions): NewtonWork {
  const n = x0.length;
  requireSize("number of unknowns", n, 1);
  const scales = spread("scale", options.scales ?? 1, n);
  const row = () => new Float64Array(n);
  return {
    n,
    x: Float64Array.from(x0),
    next: row(),
    residual: row(),
    nextResidual: row(),
    step: row(),
    tolerances: spread("tolerance", options.tolerance, n),
    steps: scales.map((scale) => STEP_SHARE * scale),
    matrix: new Float64Array(n * n),
    pivots: new Int32Array(n),
    differences: createJacobianWorkspace(n, n),
  };
}

/** One number for all, or one for each. */
function spread(quantity: string, values: number | ArrayLike<number>, n: number): Float64Array {
  const spreadValues = typeof values === "number" ? new Float64Array(n).fill(values) : Float64Array.from(values);
  requireLength(`${quantity}s`, spreadValues.length, n);
  for (let i = 0; i < n; i++) requirePositive(`${quantity} ${i}`, spreadValues[i]!);
  return spreadValues;
}

/** Euclidean length of the residuals, each over its tolerance, scaled so that it cannot overflow too early. */
function meritOf(work: NewtonWork, residual: Float64Array): number {
  let largest = 0;
  for (let i = 0; i < work.n; i++) {
    const size = Math.abs(residual[i]!) / work.tolerances[i]!;
    if (!(size <= largest)) largest = size;
  }
  if (!(largest > 0 && largest < Number.POSITIVE_INFINITY)) return largest;
  let squares = 0;
  for (let i = 0; i < work.n; i++) squares += (residual[i]! / work.tolerances[i]! / largest) ** 2;
  return largest * Math.sqrt(squares);
}

function isSolved(work: NewtonWork, residual: Float64Array): boolean {
  for (let i = 0; i < work.n; i++) {
    if (!(Math.abs(residual[i]!) <= work.tolerances[i]!)) return false;
  }
  return true;
}

function differentiate(f: VectorFunction, options: NewtonOptions, work: NewtonWork): boolean {
  const { n, x, steps, matrix, differences } = work;
  if (options.derivatives === undefined) return jacobian(f, x, steps, n, matrix, differences);
  options.derivatives(x, matrix);
  return matrix.every(Number.isFinite);
}
