import { DomainError } from "../errors.ts";

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);
/** Beyond it the continued fraction converges faster than the series. */
const SERIES_LIMIT = 3;

/** φ(x) = e^(−x²/2)/√2π. */
export function normalDensity(x: number): number {
  return Math.exp(-0.5 * x * x) / ROOT_TWO_PI;
}

/**
 * Probability that a standard normal value is above x.
 *
 *     Q(x) = ½ − φ(x)·(x + x³/3 + x⁵/(3·5) + …)  or  φ(x)/(x + 1/(x + 2/(x + 3/(x + …))))      (1)
 *
 * @param x  any number
 * @source Abramowitz and Stegun 26.2.11, 26.2.14
 * @verified distributions.test.ts: generated/distributions-scipy (rtol 1e-13), symmetry
 * @cost no allocation
 */
export function normalUpper(x: number): number {
  if (Number.isNaN(x)) throw new DomainError("normal score", x, "a number");
  if (x < 0) return 1 - normalUpper(-x);
  if (x > 40) return 0;
  if (x < SERIES_LIMIT) {
    let term = x;
    let sum = x;
    for (let k = 3; Math.abs(term) > 1e-17 * sum; k += 2) {
      term *= (x * x) / k;
      sum += term;
    }
    return 0.5 - normalDensity(x) * sum;
  }
  let tail = x;
  for (let k = 150; k >= 1; k--) tail = x + k / tail;
  return normalDensity(x) / tail;
}

/** Probability that a standard normal value is at most x; Φ(x) = Q(−x), small values to full relative accuracy. */
export function normalCdf(x: number): number {
  return normalUpper(-x);
}

/**
 * Standard normal value that is not exceeded with probability p.
 *
 *     Φ(z) = p: start by a rational function, then Halley steps z ← z − e/(1 + z·e/2), e = (Φ(z) − p)/φ(z)    (2)
 *
 * @param p  above 0, below 1
 * @throws {DomainError} for another p
 * @source start: Abramowitz and Stegun 26.2.23; steps: Halley
 * @verified distributions.test.ts: generated/distributions-scipy (rtol 1e-13), round trip, symmetry
 * @cost no allocation
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new DomainError("probability", p, "above 0, below 1");
  if (p === 0.5) return 0;
  const upper = p > 0.5;
  const tail = upper ? 1 - p : p;
  const t = Math.sqrt(-2 * Math.log(tail));
  const start = t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
  let z = start;
  for (let i = 0; i < 3; i++) {
    const error = (tail - normalUpper(z)) / normalDensity(z);
    z -= error / (1 + 0.5 * z * error);
    if (Math.abs(error) < 1e-9 * z) break;
  }
  return upper ? z : -z;
}
