import { DomainError } from "../errors.ts";
import { requireFinite, requireSize } from "../require.ts";

/** Answer of `integrate`: several integrals over one range. */
export interface Quadrature {
  readonly outcome: "converged" | "too many panels" | "not finite";
  readonly values: Float64Array;
  /** Estimated error of each value, in its unit. */
  readonly errors: Float64Array;
  readonly evaluations: number;
}

const ORDER = 8;
const MOST_DEPTH = 40;
const MOST_PANELS = 20_000;

/**
 * Points and weights of the Gauss–Legendre rule on −1 … 1.
 *
 *     Pₙ(xₖ) = 0,  wₖ = 2/((1 − xₖ²)·P′ₙ(xₖ)²)                                  (1)
 *
 * @param n  number of points, at least 1
 * @throws {DomainError} if n is not a whole number above zero
 * @source Golub and Van Loan, 4th ed. (2013), section 10.1.4 for the polynomials; Newton's method for their roots
 * @verified quadrature.test.ts: exact for every polynomial up to degree 2n − 1
 */
export function gaussLegendre(n: number): { readonly points: Float64Array; readonly weights: Float64Array } {
  requireSize("number of points", n, 1);
  const points = new Float64Array(n);
  const weights = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    let x = -Math.cos((Math.PI * (k + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let step = 0; step < 100; step++) {
      let before = 1;
      let here = x;
      for (let j = 2; j <= n; j++) [before, here] = [here, ((2 * j - 1) * x * here - (j - 1) * before) / j];
      slope = (n * (before - x * here)) / (1 - x * x);
      const move = here / slope;
      x -= move;
      if (Math.abs(move) < 1e-16) break;
    }
    points[k] = x;
    weights[k] = 2 / ((1 - x * x) * slope * slope);
  }
  return { points, weights };
}

/**
 * Integrals of several functions over one range, with panels that shrink where any of them needs it.
 *
 *     ∫ f(x) dx, a panel halved until |whole − (left + right)| ≤ rtol·max(|sum of the coarse rule|)·width share    (2)
 *
 * Peaks narrower than a panel can be missed by any rule: name them in `breaks`, as the roots of a resonant system do.
 *
 * @param f       writes the m values at x into `out`
 * @param m       number of functions
 * @param breaks  strictly increasing bounds, first and last are the range, shape (≥ 2)
 * @param rtol    wanted error of each integral over the integral of its absolute value [1]
 * @throws {DomainError} if bounds do not increase or `rtol` is not above zero
 * @source adaptive bisection with Gauss–Legendre rules of 8 points, README eq. 2
 * @verified quadrature.test.ts: polynomials, a narrow peak in closed form, several functions at once
 */
export function integrate(
  f: (x: number, out: Float64Array) => void,
  m: number,
  breaks: readonly number[],
  rtol: number,
): Quadrature {
  checkRange(breaks, rtol);
  const scratch = new Float64Array(m);
  const values = new Float64Array(m);
  const errors = new Float64Array(m);
  let evaluations = 0;
  let finite = true;
  const rule = (a: number, b: number): Float64Array => {
    const out = new Float64Array(2 * m);
    const half = 0.5 * (b - a);
    for (let k = 0; k < ORDER; k++) {
      f(0.5 * (a + b) + half * RULE.points[k]!, scratch);
      evaluations++;
      for (let i = 0; i < m; i++) {
        if (!Number.isFinite(scratch[i]!)) finite = false;
        out[i] = out[i]! + half * RULE.weights[k]! * scratch[i]!;
        out[m + i] = out[m + i]! + half * RULE.weights[k]! * Math.abs(scratch[i]!);
      }
    }
    return out;
  };
  const coarse = breaks.slice(1).map((b, i) => rule(breaks[i]!, b));
  const size = new Float64Array(m);
  for (const panel of coarse) for (let i = 0; i < m; i++) size[i] = size[i]! + panel[m + i]!;
  const range = breaks.at(-1)! - breaks[0]!;
  const stack = coarse.map((whole, i) => ({ a: breaks[i]!, b: breaks[i + 1]!, whole, depth: 0 })).reverse();
  let panels = stack.length;
  while (stack.length > 0 && finite) {
    const { a, b, whole, depth } = stack.pop()!;
    const middle = 0.5 * (a + b);
    const left = rule(a, middle);
    const right = rule(middle, b);
    const share = Math.max((b - a) / range, 1e-3);
    let good = true;
    for (let i = 0; i < m; i++) {
      size[i] = Math.max(size[i]!, left[m + i]! + right[m + i]!);
      if (Math.abs(whole[i]! - left[i]! - right[i]!) > rtol * share * size[i]!) good = false;
    }
    if (good || depth >= MOST_DEPTH || panels >= MOST_PANELS) {
      for (let i = 0; i < m; i++) {
        values[i] = values[i]! + left[i]! + right[i]!;
        errors[i] = errors[i]! + Math.abs(whole[i]! - left[i]! - right[i]!);
      }
      continue;
    }
    panels++;
    stack.push({ a: middle, b, whole: right, depth: depth + 1 }, { a, b: middle, whole: left, depth: depth + 1 });
  }
  const outcome = !finite ? "not finite" : panels >= MOST_PANELS ? "too many panels" : "converged";
  return { outcome, values, errors, evaluations };
}

const RULE = gaussLegendre(ORDER);

function checkRange(breaks: readonly number[], rtol: number): void {
  if (breaks.length < 2) throw new DomainError("number of bounds", breaks.length, "at least 2");
  breaks.forEach((x, i) => {
    requireFinite(`bound ${i}`, x);
    if (i > 0 && !(x > breaks[i - 1]!)) throw new DomainError(`bound ${i}`, x, `more than ${breaks[i - 1]!}`);
  });
  if (!(rtol > 0)) throw new DomainError("relative tolerance", rtol, "greater than 0");
}

/**
 * Bounds on a logarithmic scale that no resonance can hide between: decades, and each root's frequency with its width on
 * both sides.
 *
 * @param low, high  range of frequency [rad/s], 0 < low < high
 * @param roots      pairs [real, imaginary] [1/s, rad/s]
 * @returns strictly increasing logarithms of frequency, first and last those of the range
 * @throws {DomainError} if the range is empty
 * @source own derivation, README eq. 3
 * @verified quadrature.test.ts: a lightly damped oscillator under white noise in closed form
 */
export function resonanceBreaks(low: number, high: number, roots: readonly (readonly [number, number])[]): number[] {
  if (!(low > 0 && high > low)) throw new DomainError("range of frequency", [low, high], "0 < low < high");
  const marks = [low, high];
  for (let x = low * 10; x < high; x *= 10) marks.push(x);
  for (const [real, imaginary] of roots) {
    const centre = Math.hypot(real, imaginary);
    const peak = Math.abs(imaginary);
    for (const width of [0, 1, 3, 10, 30])
      marks.push(peak - width * Math.abs(real), peak + width * Math.abs(real), centre);
  }
  const sorted = marks
    .filter((x) => x >= low && x <= high)
    .map(Math.log)
    .sort((a, b) => a - b);
  return sorted.filter((x, i) => i === 0 || x - sorted[i - 1]! > 1e-9);
}
