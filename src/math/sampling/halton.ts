import { DomainError } from "../errors.ts";

const PRIMES = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37];

/**
 * A point of the Halton sequence: the digits of its number mirrored at the point, in one prime base per coordinate.
 *
 *     x_j = Σ d_k·b_j^(−k−1)   with   index = Σ d_k·b_j^k                                 (4)
 *
 * A check of the other sequences in few dimensions; in many its coordinates are correlated.
 *
 * @param index  a whole number from 1 (0 is the origin)
 * @param out    shape (dimensions ≤ 12), written
 * @throws {DomainError} for more dimensions than primes
 * @source Halton, Numer. Math. 2 (1960) 84
 * @verified sampling.test.ts: generated/sobol-scipy (2, 3, 5), fractions by hand
 */
export function haltonPoint(index: number, out: Float64Array): void {
  if (out.length > PRIMES.length) throw new DomainError("dimensions", out.length, `1 to ${PRIMES.length}`);
  for (let j = 0; j < out.length; j++) {
    const base = PRIMES[j]!;
    let weight = 1 / base;
    let value = 0;
    for (let rest = index; rest > 0; rest = Math.floor(rest / base)) {
      value += (rest % base) * weight;
      weight /= base;
    }
    out[j] = value;
  }
}
