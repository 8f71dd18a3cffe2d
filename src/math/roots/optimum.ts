import { DomainError } from "../errors.ts";

/** The best point found between two bounds. */
export interface Optimum {
  readonly outcome: "converged" | "not finite" | "too many iterations";
  readonly x: number;
  /** f(x). */
  readonly value: number;
  readonly evaluations: number;
}

const MOST_EVALUATIONS = 500;
/** The smaller part of the golden section, (3 − √5)/2. */
const GOLDEN = 0.5 * (3 - Math.sqrt(5));

/**
 * Largest value of a function with one maximum between two bounds.
 *
 * Golden-section search: needs no smoothness, so it suits the worst of several curves, whose maximum is a corner.
 * With several maxima it finds one of them.
 *
 * @param f    the function
 * @param a    one bound
 * @param b    other bound
 * @param tol  wanted half-width of the final bracket, in the unit of x, above zero
 * @returns the best point evaluated, the bounds included
 * @throws {DomainError} if a bound or `tol` is not finite, or `tol` is not above zero
 * @source Kiefer, Sequential minimax search for a maximum, Proc. Amer. Math. Soc. 4 (1953) 502–506
 * @verified roots.test.ts: corners, smooth peaks, maximum at a bound
 */
export function goldenMaximum(f: (x: number) => number, a: number, b: number, tol: number): Optimum {
  checkBounds(a, b, tol);
  let low = Math.min(a, b);
  let high = Math.max(a, b);
  let x = Number.NaN;
  let value = Number.NEGATIVE_INFINITY;
  let evaluations = 0;
  let finite = true;
  const evaluate = (at: number): number => {
    const y = f(at);
    evaluations++;
    if (!Number.isFinite(y)) finite = false;
    if (y > value || evaluations === 1) {
      x = at;
      value = y;
    }
    return y;
  };
  evaluate(low);
  evaluate(high);
  let left = low + GOLDEN * (high - low);
  let right = high - GOLDEN * (high - low);
  let atLeft = evaluate(left);
  let atRight = evaluate(right);
  while (finite && evaluations < MOST_EVALUATIONS) {
    if (high - low <= 2 * Math.max(tol, 2 * Number.EPSILON * Math.abs(x)))
      return { outcome: "converged", x, value, evaluations };
    if (atLeft >= atRight) {
      high = right;
      right = left;
      atRight = atLeft;
      left = low + GOLDEN * (high - low);
      atLeft = evaluate(left);
    } else {
      low = left;
      left = right;
      atLeft = atRight;
      right = high - GOLDEN * (high - low);
      atRight = evaluate(right);
    }
  }
  return { outcome: finite ? "too many iterations" : "not finite", x, value, evaluations };
}

/**
 * Smallest value of a smooth function with one minimum between two bounds.
 *
 * Parabolas through three points when they gain enough, golden sections otherwise. The place of a smooth minimum cannot
 * be known better than to √ε of its size. The bounds themselves are approached, not evaluated.
 *
 * @param f    the function
 * @param a    one bound
 * @param b    other bound
 * @param tol  wanted accuracy of x, in its unit, above zero
 * @throws {DomainError} if a bound or `tol` is not finite, or `tol` is not above zero
 * @source Brent, Algorithms for Minimization without Derivatives (1973), chapter 5, procedure localmin
 * @verified roots.test.ts: closed forms, fewer evaluations than the golden section, minimum at a bound
 */
export function brentMinimum(f: (x: number) => number, a: number, b: number, tol: number): Optimum {
  checkBounds(a, b, tol);
  let low = Math.min(a, b);
  let high = Math.max(a, b);
  // x is the best point, w the second best, v the one before w.
  let x = low + GOLDEN * (high - low);
  let fx = f(x);
  let w = x;
  let fw = fx;
  let v = x;
  let fv = fx;
  let step = 0;
  let stepBefore = 0;
  let evaluations = 1;
  while (evaluations < MOST_EVALUATIONS && Number.isFinite(fx)) {
    const middle = 0.5 * (low + high);
    const limit = Math.sqrt(Number.EPSILON) * Math.abs(x) * 1e-1 + tol / 3;
    if (Math.abs(x - middle) <= 2 * limit - 0.5 * (high - low))
      return { outcome: "converged", x, value: fx, evaluations };
    const trial = Math.abs(stepBefore) > limit ? parabolicStep(x, fx, w, fw, v, fv) : Number.NaN;
    if (Math.abs(trial) < 0.5 * Math.abs(stepBefore) && x + trial > low && x + trial < high) {
      stepBefore = step;
      step = trial;
      // No evaluation closer than 2·limit to a bound.
      if (x + step - low < 2 * limit || high - (x + step) < 2 * limit) step = x < middle ? limit : -limit;
    } else {
      stepBefore = x < middle ? high - x : low - x;
      step = GOLDEN * stepBefore;
    }
    const u = x + (Math.abs(step) >= limit ? step : step > 0 ? limit : -limit);
    const fu = f(u);
    evaluations++;
    if (!Number.isFinite(fu)) return { outcome: "not finite", x, value: fx, evaluations };
    if (fu <= fx) {
      if (u < x) high = x;
      else low = x;
      v = w;
      fv = fw;
      w = x;
      fw = fx;
      x = u;
      fx = fu;
      continue;
    }
    if (u < x) low = u;
    else high = u;
    if (fu <= fw || w === x) {
      v = w;
      fv = fw;
      w = u;
      fw = fu;
    } else if (fu <= fv || v === x || v === w) {
      v = u;
      fv = fu;
    }
  }
  return { outcome: Number.isFinite(fx) ? "too many iterations" : "not finite", x, value: fx, evaluations };
}

/** Step from x to the lowest point of the parabola through three points; NaN if there is none. */
function parabolicStep(x: number, fx: number, w: number, fw: number, v: number, fv: number): number {
  const r = (x - w) * (fx - fv);
  const q = (x - v) * (fx - fw);
  const numerator = (x - v) * q - (x - w) * r;
  const denominator = 2 * (q - r);
  return denominator === 0 ? Number.NaN : -numerator / denominator;
}

function checkBounds(a: number, b: number, tol: number): void {
  if (!Number.isFinite(a)) throw new DomainError("bound", a, "a finite number");
  if (!Number.isFinite(b)) throw new DomainError("bound", b, "a finite number");
  if (!(tol > 0 && Number.isFinite(tol))) throw new DomainError("tolerance", tol, "a finite number above zero");
}
