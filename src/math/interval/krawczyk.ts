import { requireLength } from "../require.ts";
import { type Interval, magnitude, roundedDown, roundedUp } from "./interval.ts";

/** A matrix of intervals by its ends, row-major. */
export interface IntervalMatrix {
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/**
 * How far a preconditioned matrix is from unity.
 *
 *     G ≥ |I − Y·A|,   element by element, for every matrix in A                 (README eq. 8)
 *
 * @param inverse  Y, near the inverse of the middle of A, shape (n, n) row-major
 * @param matrix   A, shape (n, n)
 * @param n        order
 * @param out      G, shape (n, n), written
 * @throws {DomainError} if an array is too short
 * @source own derivation, README eq. 8
 * @verified krawczyk.test.ts: random members of A
 * @cost n³ products, no allocation
 */
export function spreadOf(inverse: Float64Array, matrix: IntervalMatrix, n: number, out: Float64Array): void {
  for (const array of [inverse, matrix.low, matrix.high, out]) requireLength("matrix", array.length, n * n);
  const { low, high } = matrix;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      let [least, most] = i === j ? [-1, -1] : [0, 0];
      for (let k = 0, at = j; k < n; k++, at += n) {
        const y = inverse[i * n + k]!;
        if (y === 0 || (low[at] === 0 && high[at] === 0)) continue;
        least = roundedDown(least + roundedDown(y * (y < 0 ? high[at]! : low[at]!)));
        most = roundedUp(most + roundedUp(y * (y < 0 ? low[at]! : high[at]!)));
      }
      out[i * n + j] = Math.max(Math.abs(least), Math.abs(most));
    }
  }
}

/**
 * Largest size of each component of Y·h.
 * @param inverse  Y, shape (n, n) row-major
 * @param vector   h, shape (n)
 * @param out      shape (n), written
 * @source README eq. 7
 * @verified krawczyk.test.ts
 */
export function preconditioned(inverse: Float64Array, vector: readonly Interval[], out: Float64Array): void {
  const n = vector.length;
  requireLength("matrix", inverse.length, n * n);
  for (let i = 0; i < n; i++) {
    let [least, most] = [0, 0];
    for (let k = 0; k < n; k++) {
      const y = inverse[i * n + k]!;
      const { low, high } = vector[k]!;
      if (y === 0 || (low === 0 && high === 0)) continue;
      least = roundedDown(least + roundedDown(y * (y < 0 ? high : low)));
      most = roundedUp(most + roundedUp(y * (y < 0 ? low : high)));
    }
    out[i] = magnitude({ low: least, high: most });
  }
}

/**
 * Krawczyk's operator on a box about the origin.
 *
 *     k = |Y·h(0, T)| + G·ρ                                                     (README eq. 9)
 *
 * Where k < ρ in every component, h(z, t) = 0 has for every t of T exactly one solution z in the box |z| ≤ ρ, and |z| ≤ k. From then on
 * the operator may be used again on k, which tightens it.
 *
 * @param offset  |Y·h(0, T)|, shape (n)
 * @param spread  G, shape (n, n), for slopes of h over T and the box ρ
 * @param radii   ρ, shape (n)
 * @param out     k, shape (n), written; not `radii`
 * @returns whether k < ρ in every component; `false` if anything is not a number
 * @source R. Krawczyk, Computing 4 (1969) 187–201; own derivation of the symmetric form, README eq. 7–9
 * @verified krawczyk.test.ts: circle and line over an interval of the parameter, double root refused
 * @cost n² products, no allocation
 */
export function krawczyk(offset: Float64Array, spread: Float64Array, radii: Float64Array, out: Float64Array): boolean {
  const n = offset.length;
  requireLength("spread", spread.length, n * n);
  let inside = true;
  for (let i = 0; i < n; i++) {
    let sum = offset[i]!;
    for (let j = 0; j < n; j++) sum = roundedUp(sum + roundedUp(spread[i * n + j]! * radii[j]!));
    out[i] = sum;
    inside = inside && sum < radii[i]!;
  }
  return inside;
}
