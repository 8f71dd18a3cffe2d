import { DomainError } from "../errors.ts";
import { requireFinite, requireLength } from "../require.ts";

/**
 * Refuses abscissae that are not finite and strictly increasing.
 *
 * @param quantity  name of the abscissae, for the message
 * @param xs        shape (n), n ≥ 1
 * @throws {DomainError} naming the first offending element
 */
export function requireIncreasing(quantity: string, xs: ArrayLike<number>): void {
  requireLength(quantity, xs.length, 1);
  for (let i = 0; i < xs.length; i++) {
    requireFinite(`${quantity}[${i}]`, xs[i]!);
    if (i > 0 && !(xs[i]! > xs[i - 1]!)) {
      throw new DomainError(`${quantity}[${i}]`, xs[i]!, `more than its predecessor ${xs[i - 1]!}`);
    }
  }
}

/**
 * Number of the interval that holds x, xs[i] ≤ x ≤ xs[i + 1]; at an inner node the one to its right.
 *
 * @param xs  strictly increasing, shape (n), n ≥ 1
 * @param x   place, within xs[0] … xs[n − 1]
 * @returns i in 0 … n − 2 (0 when n = 1)
 * @throws {DomainError} if x is outside the range or NaN
 * @source bisection
 * @verified interpolate.test.ts
 */
export function locate(xs: ArrayLike<number>, x: number): number {
  const last = xs.length - 1;
  if (!(x >= xs[0]! && x <= xs[last]!)) {
    throw new DomainError("abscissa", x, last < 0 ? "nothing: the table is empty" : `${xs[0]!} to ${xs[last]!}`);
  }
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x >= xs[middle]!) low = middle;
    else high = middle;
  }
  return low;
}

/**
 * Straight-line interpolation in a table.
 *
 *     y = yᵢ + (yᵢ₊₁ − yᵢ)(x − xᵢ)/(xᵢ₊₁ − xᵢ)                                (1)
 *
 * Outside the table nothing is assumed: it throws.
 *
 * @param xs  strictly increasing (see `requireIncreasing`; not checked here), shape (n), n ≥ 1
 * @param ys  shape (n)
 * @param x   place, within xs[0] … xs[n − 1]
 * @throws {DomainError} if x is outside the range or NaN, or `ys` is too short
 * @source definition
 * @verified interpolate.test.ts: exact at nodes, on straight lines, between neighbours
 * @cost O(log n), no allocation
 */
export function linear(xs: ArrayLike<number>, ys: ArrayLike<number>, x: number): number {
  requireLength("ordinates", ys.length, xs.length);
  const i = locate(xs, x);
  if (x === xs[i]!) return ys[i]!;
  if (x === xs[i + 1]!) return ys[i + 1]!;
  const share = (x - xs[i]!) / (xs[i + 1]! - xs[i]!);
  return (1 - share) * ys[i]! + share * ys[i + 1]!;
}
