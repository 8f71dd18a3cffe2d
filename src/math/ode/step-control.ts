import type { DormandPrince } from "./dormand-prince.ts";
import type { Derivative } from "./types.ts";

const ORDER = 5;
const SAFETY = 0.9;
const SMALLEST_FACTOR = 0.2;
const LARGEST_FACTOR = 10;
/** Weight of the error before: the integral part of the PI rule. */
const STABILITY = 0.04;

/**
 * Factor by which the next step is longer, from the error of this one and of the one before.
 *
 *     h⁺/h = 0.9 · ‖e‖^−(1/5 − 0.03) · ‖e⁻‖^0.04,  between 0.2 and 10          (5)
 *
 * @param error          error over tolerance of this step
 * @param previousError  of the last accepted step; 0 leaves it out, as after a rejection
 * @returns the smallest factor when the error is not finite
 * @source Gustafsson, Control theoretic techniques for stepsize selection in explicit Runge–Kutta methods, ACM TOMS 17
 *         (1991); constants of DOPRI5, Hairer, Nørsett and Wanner (1993), section II.4 and appendix
 * @verified rk4.test.ts
 */
export function nextFactor(error: number, previousError: number): number {
  if (!Number.isFinite(error)) return SMALLEST_FACTOR;
  if (error === 0) return LARGEST_FACTOR;
  const factor =
    SAFETY * error ** -(1 / ORDER - 0.75 * STABILITY) * (previousError > 0 ? previousError ** STABILITY : 1);
  return Math.min(LARGEST_FACTOR, Math.max(SMALLEST_FACTOR, factor));
}

/**
 * First step from the sizes of state, derivative and an estimate of the second derivative. k₁ must hold f(t, y); one
 * more call of f, into `stage` and k₂.
 *
 * @param work                state and scratch
 * @param derivative          f
 * @param t                   start
 * @param direction           +1 or −1
 * @param longest             length of the whole span or the longest step allowed
 * @param relativeTolerance   r
 * @param absoluteTolerances  a, shape (n)
 * @returns its length, above zero
 * @source Hairer, Nørsett and Wanner (1993), section II.4, "Starting step size"
 * @verified integrate.test.ts
 */
export function chooseFirstStep(
  work: DormandPrince,
  derivative: Derivative,
  t: number,
  direction: number,
  longest: number,
  relativeTolerance: number,
  absoluteTolerances: Float64Array,
): number {
  const { n, k, y, stage } = work;
  const tolerance = (i: number) => absoluteTolerances[i]! + relativeTolerance * Math.abs(y[i]!);
  const sizeOf = (value: (i: number) => number) => {
    let squares = 0;
    for (let i = 0; i < n; i++) squares += (value(i) / tolerance(i)) ** 2;
    return Math.sqrt(squares / n);
  };
  const slope = sizeOf((i) => k[0]![i]!);
  const state = sizeOf((i) => y[i]!);
  const guess = Math.min(longest, state < 1e-5 || slope < 1e-5 ? 1e-6 : 0.01 * (state / slope));
  for (let i = 0; i < n; i++) stage[i] = y[i]! + direction * guess * k[0]![i]!;
  derivative(t + direction * guess, stage, k[1]!);
  const bend = sizeOf((i) => k[1]![i]! - k[0]![i]!) / guess;
  const steepest = Math.max(slope, bend);
  const fromBend = steepest <= 1e-15 ? Math.max(1e-6, 1e-3 * guess) : (0.01 / steepest) ** (1 / ORDER);
  const step = Math.min(100 * guess, fromBend, longest);
  return step > 0 ? step : guess;
}
