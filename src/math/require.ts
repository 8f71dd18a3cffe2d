/** Checks of arguments that every numerical folder shares; each costs one comparison. */

import { DomainError } from "./errors.ts";

/**
 * Refuses an array that is too short for the stated shape.
 * @param quantity  name of the array, for the message
 * @param length    its length
 * @param needed    the smallest length that the shape allows
 * @throws {DomainError} if `length < needed`
 */
export function requireLength(quantity: string, length: number, needed: number): void {
  if (!(length >= needed)) throw new DomainError(`length of ${quantity}`, length, `at least ${needed}`);
}

/**
 * Refuses NaN and infinities.
 * @throws {DomainError} if `value` is not finite
 */
export function requireFinite(quantity: string, value: number): void {
  if (!Number.isFinite(value)) throw new DomainError(quantity, value, "a finite number");
}

/**
 * Refuses zero, negative and non-finite numbers.
 * @throws {DomainError} if `value` is not finite and above zero
 */
export function requirePositive(quantity: string, value: number): void {
  if (!(value > 0 && value < Number.POSITIVE_INFINITY)) {
    throw new DomainError(quantity, value, "a finite number above zero");
  }
}

/**
 * Refuses a size that is not a whole number of at least `smallest`.
 * @throws {DomainError} if `value` is fractional, too small or not finite
 */
export function requireSize(quantity: string, value: number, smallest = 0): void {
  if (!Number.isInteger(value) || value < smallest) {
    throw new DomainError(quantity, value, `a whole number, at least ${smallest}`);
  }
}

/**
 * Refuses negative and non-finite numbers.
 * @throws {DomainError} if `value` is not finite and at least zero
 */
export function requireNotNegative(quantity: string, value: number): void {
  if (!(value >= 0 && value < Number.POSITIVE_INFINITY)) {
    throw new DomainError(quantity, value, "a finite number, at least zero");
  }
}
