import { requireLength, requirePositive, requireSize } from "../require.ts";

/** A function of several variables: reads `x`, shape (n), and writes `out`, shape (m). */
export type VectorFunction = (x: Float64Array, out: Float64Array) => void;

/** Arrays that `jacobian` works in, for one n and m. */
export interface JacobianWorkspace {
  /** Moved point, shape (n). */
  readonly point: Float64Array;
  /** Function values, shape (m) each: wide step forward and back, half step forward and back. */
  readonly wideForward: Float64Array;
  readonly wideBack: Float64Array;
  readonly halfForward: Float64Array;
  readonly halfBack: Float64Array;
}

/**
 * Makes the arrays for a function of n variables with m values.
 *
 * @param n  number of variables
 * @param m  number of values
 * @throws {DomainError} if a size is not a whole number above zero
 */
export function createJacobianWorkspace(n: number, m: number): JacobianWorkspace {
  requireSize("number of variables", n, 1);
  requireSize("number of values", m, 1);
  return {
    point: new Float64Array(n),
    wideForward: new Float64Array(m),
    wideBack: new Float64Array(m),
    halfForward: new Float64Array(m),
    halfBack: new Float64Array(m),
  };
}

/**
 * Matrix of first derivatives by central differences at two steps, extrapolated to step zero.
 *
 *     D(h) = (f(x + h) − f(x − h)) / 2h,   ∂f/∂x = (4 D(h/2) − D(h)) / 3 + O(h⁴)      (1)
 *
 * The steps are the caller's: about ε^(1/5) ≈ 1e-3 of the scale over which f bends makes truncation and rounding
 * alike, with a relative error near 1e-12. f must be smooth within ±h of x.
 *
 * @param f          the function; called 4n times
 * @param x          point, shape (n); not changed
 * @param steps      h of each variable, in its unit, above zero, shape (n)
 * @param m          number of values of f
 * @param out        ∂fᵢ/∂xⱼ, shape (m, n) row-major, written
 * @param workspace  from `createJacobianWorkspace(n, m)`
 * @returns whether every derivative is finite; if not, `out` may hold NaN and must not be used
 * @throws {DomainError} if an array is too short or a step is not above zero
 * @source Richardson (1911); Press et al., Numerical Recipes, 3rd ed. (2007), section 5.7 (one level)
 * @verified jacobian.test.ts: exact on quartics, order four on closed forms, works in its workspace alone
 * @cost 4n calls of f, no allocation
 */
export function jacobian(
  f: VectorFunction,
  x: Float64Array,
  steps: Float64Array,
  m: number,
  out: Float64Array,
  workspace: JacobianWorkspace,
): boolean {
  const n = x.length;
  const { point, wideForward, wideBack, halfForward, halfBack } = workspace;
  requireLength("steps", steps.length, n);
  requireLength("jacobian", out.length, m * n);
  requireLength("workspace point", point.length, n);
  requireLength("workspace values", wideForward.length, m);
  let finite = true;
  point.set(x);
  for (let j = 0; j < n; j++) {
    const step = steps[j]!;
    requirePositive(`step of variable ${j}`, step);
    const centre = x[j]!;
    const wide = evaluatePair(f, point, j, centre, step, wideForward, wideBack);
    const half = evaluatePair(f, point, j, centre, 0.5 * step, halfForward, halfBack);
    point[j] = centre;
    for (let i = 0; i < m; i++) {
      const wideSlope = (wideForward[i]! - wideBack[i]!) / wide;
      const halfSlope = (halfForward[i]! - halfBack[i]!) / half;
      const slope = halfSlope + (halfSlope - wideSlope) / 3;
      out[i * n + j] = slope;
      if (!Number.isFinite(slope)) finite = false;
    }
  }
  return finite;
}

/** Values on both sides; returns the distance of the two points as they were rounded. */
function evaluatePair(
  f: VectorFunction,
  point: Float64Array,
  j: number,
  centre: number,
  step: number,
  forward: Float64Array,
  back: Float64Array,
): number {
  point[j] = centre + step;
  const above = point[j]!;
  f(point, forward);
  point[j] = centre - step;
  const below = point[j]!;
  f(point, back);
  return above - below;
}
