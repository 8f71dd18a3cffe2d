/** How a search between two bounds ended. */
export type BracketOutcome = "converged" | "no sign change" | "not finite" | "too many iterations";

export interface BracketedRoot {
  readonly outcome: BracketOutcome;
  /** The root, or the best point so far. */
  readonly x: number;
  /** f(x). */
  readonly value: number;
  readonly evaluations: number;
}

const MOST_EVALUATIONS = 200;

/**
 * Root of a continuous function between two points of opposite sign.
 *
 *     f(x) = 0,  a ≤ x ≤ b                                                     (1)
 *
 * Inverse quadratic or straight interpolation when it gains enough, bisection otherwise: it cannot fail on a sign change.
 *
 * @param f    the function
 * @param a    one bound
 * @param b    other bound, above or below `a`
 * @param tol  wanted half-width of the final bracket, in the unit of x, ≥ 0; rounding of x is added to it
 * @returns "no sign change" when f(a) and f(b) have the same sign; "not finite" as soon as f is NaN or infinite
 * @source Brent, Algorithms for Minimization without Derivatives (1973), chapter 4, procedure zero
 * @verified roots.test.ts: closed-form roots, flat and steep functions, sign of the bounds, evaluation limit
 */
export function bracketedRoot(f: (x: number) => number, a: number, b: number, tol: number): BracketedRoot {
  let x = b;
  let fx = f(x);
  let previous = a;
  let fPrevious = f(previous);
  let evaluations = 2;
  const result = (outcome: BracketOutcome): BracketedRoot => ({ outcome, x, value: fx, evaluations });
  if (!Number.isFinite(fx) || !Number.isFinite(fPrevious)) return result("not finite");
  if (fx === 0) return result("converged");
  if (fPrevious === 0) {
    x = previous;
    fx = 0;
    return result("converged");
  }
  if (fx > 0 === fPrevious > 0) return result("no sign change");
  // `far` is the end of the bracket opposite to x; `step` and `stepBefore` are the last two moves.
  let far = previous;
  let fFar = fPrevious;
  let step = x - previous;
  let stepBefore = step;
  while (evaluations < MOST_EVALUATIONS) {
    if (Math.abs(fFar) < Math.abs(fx)) {
      previous = x;
      fPrevious = fx;
      x = far;
      fx = fFar;
      far = previous;
      fFar = fPrevious;
    }
    const limit = 2 * Number.EPSILON * Math.abs(x) + Math.max(0.5 * tol, Number.MIN_VALUE);
    const middle = 0.5 * (far - x);
    if (Math.abs(middle) <= limit || fx === 0) return result("converged");
    const trial = interpolatedStep(x, fx, previous, fPrevious, far, fFar);
    const gains = Math.abs(stepBefore) >= limit && Math.abs(fPrevious) > Math.abs(fx);
    const isInside =
      trial * middle > 0 &&
      Math.abs(trial) < 1.5 * Math.abs(middle) - 0.5 * limit &&
      2 * Math.abs(trial) < Math.abs(stepBefore);
    stepBefore = gains && isInside ? step : middle;
    step = gains && isInside ? trial : middle;
    previous = x;
    fPrevious = fx;
    x += Math.abs(step) > limit ? step : Math.sign(middle) * limit;
    fx = f(x);
    evaluations++;
    if (!Number.isFinite(fx)) return result("not finite");
    if (fx > 0 === fFar > 0) {
      far = previous;
      fFar = fPrevious;
      step = x - previous;
      stepBefore = step;
    }
  }
  return result("too many iterations");
}

/** Step from x to the root of the secant, or of the inverse parabola when three different points are known. */
function interpolatedStep(
  x: number,
  fx: number,
  previous: number,
  fPrevious: number,
  far: number,
  fFar: number,
): number {
  const s = fx / fPrevious;
  if (previous === far) return ((far - x) * s) / (s - 1);
  const q = fPrevious / fFar;
  const r = fx / fFar;
  const numerator = s * ((far - x) * q * (q - r) - (x - previous) * (r - 1));
  const denominator = (q - 1) * (r - 1) * (s - 1);
  return -numerator / denominator;
}
