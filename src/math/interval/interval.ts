import { DomainError } from "../errors.ts";

/** All numbers from low to high, both finite and counted in. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** A unit of the last place is no more than this share of a number. */
const UNIT = 2 ** -52;
const SMALLEST = Number.MIN_VALUE;

/**
 * A number that lies at least one unit of the last place above: no less than the exact result of the operation that x was rounded from.
 *
 *     x + (|x|·2⁻⁵² + 2⁻¹⁰⁷⁴)                                                   (README eq. 1)
 *
 * @source own derivation, README eq. 1
 * @verified interval.test.ts: sums, products and quotients against whole numbers
 */
export function roundedUp(x: number): number {
  return x + (Math.abs(x) * UNIT + SMALLEST);
}

/** As `roundedUp`, below. @source README eq. 1 @verified interval.test.ts */
export function roundedDown(x: number): number {
  return x - (Math.abs(x) * UNIT + SMALLEST);
}

/**
 * The interval from low to high, as given.
 * @throws {DomainError} if the ends are not finite or stand the wrong way round
 * @source definition
 * @verified interval.test.ts
 */
export function interval(low: number, high: number): Interval {
  if (!(low <= high && Math.abs(low) < Infinity && Math.abs(high) < Infinity)) {
    throw new DomainError("ends of an interval", `${low} … ${high}`, "finite and in order");
  }
  return { low, high };
}

/** A number as an interval without width. @source definition @verified interval.test.ts */
export function point(x: number): Interval {
  return { low: x, high: x };
}

/** All numbers from −r to r. @source definition @verified interval.test.ts */
export function plusMinus(r: number): Interval {
  return { low: -r, high: r };
}

/** a + b. @source README eq. 2 @verified interval.test.ts */
export function add(a: Interval, b: Interval): Interval {
  return { low: roundedDown(a.low + b.low), high: roundedUp(a.high + b.high) };
}

/** a − b. @source README eq. 2 @verified interval.test.ts */
export function subtract(a: Interval, b: Interval): Interval {
  return { low: roundedDown(a.low - b.high), high: roundedUp(a.high - b.low) };
}

/** −a, exact. @source definition @verified interval.test.ts */
export function negate(a: Interval): Interval {
  return { low: -a.high, high: -a.low };
}

/** a·b. @source README eq. 2 @verified interval.test.ts */
export function multiply(a: Interval, b: Interval): Interval {
  const ll = a.low * b.low;
  const lh = a.low * b.high;
  const hl = a.high * b.low;
  const hh = a.high * b.high;
  return { low: roundedDown(Math.min(ll, lh, hl, hh)), high: roundedUp(Math.max(ll, lh, hl, hh)) };
}

/** x·a for a number x. @source README eq. 2 @verified interval.test.ts */
export function scale(x: number, a: Interval): Interval {
  const [one, other] = x < 0 ? [a.high, a.low] : [a.low, a.high];
  return { low: roundedDown(x * one), high: roundedUp(x * other) };
}

/** a², nowhere below zero. @source README eq. 2 @verified interval.test.ts */
export function square(a: Interval): Interval {
  const least = a.low > 0 ? a.low : a.high < 0 ? -a.high : 0;
  const most = magnitude(a);
  return { low: Math.max(0, roundedDown(least * least)), high: roundedUp(most * most) };
}

/**
 * a/b.
 * @throws {DomainError} if b holds zero
 * @source README eq. 2
 * @verified interval.test.ts
 */
export function divide(a: Interval, b: Interval): Interval {
  if (b.low <= 0 && b.high >= 0) throw new DomainError("divisor", `${b.low} … ${b.high}`, "without zero");
  const ll = a.low / b.low;
  const lh = a.low / b.high;
  const hl = a.high / b.low;
  const hh = a.high / b.high;
  return { low: roundedDown(Math.min(ll, lh, hl, hh)), high: roundedUp(Math.max(ll, lh, hl, hh)) };
}

/**
 * √a of what of a is not below zero: sums of squares may reach a little below by rounding.
 * @throws {DomainError} if all of a is below zero
 * @source README eq. 2; needs a root that is right to one unit of the last place
 * @verified interval.test.ts
 */
export function squareRoot(a: Interval): Interval {
  if (!(a.high >= 0)) throw new DomainError("argument of a root", a.high, "at least 0");
  return {
    low: Math.max(0, roundedDown(Math.sqrt(Math.max(0, a.low)))),
    high: roundedUp(Math.sqrt(a.high)),
  };
}

/** The smallest interval that holds both. @source definition @verified interval.test.ts */
export function hull(a: Interval, b: Interval): Interval {
  return { low: Math.min(a.low, b.low), high: Math.max(a.high, b.high) };
}

/** Largest |x| of all x in it. @source definition @verified interval.test.ts */
export function magnitude(a: Interval): number {
  return Math.max(Math.abs(a.low), Math.abs(a.high));
}

/** A number near its middle. @source definition @verified interval.test.ts */
export function middle(a: Interval): number {
  return 0.5 * (a.low + a.high);
}

/** Is x in it? @source definition @verified interval.test.ts */
export function holds(a: Interval, x: number): boolean {
  return a.low <= x && x <= a.high;
}
