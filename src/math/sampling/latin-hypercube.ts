import { RandomStream } from "../random/index.ts";
import { requireLength, requireSize } from "../require.ts";
import type { UnitSampler } from "./types.ts";

/** Streams of one seed that this folder takes. */
const ORDER_STREAM = 0x1a71;
const PLACE_STREAM = 0x1a72;

/**
 * Latin hypercube: each of n equal strata of every coordinate holds exactly one of the n points.
 *
 *     x_ij = (π_j(i) + u_ij)/n,   π_j a random order of 0 … n − 1, u_ij uniform            (3)
 *
 * π_j depends on (seed, j), u_ij on (seed, i), so that any part of the points may be made anywhere in any order.
 *
 * @param dimensions  at least 1
 * @param count       n, at least 1
 * @param seed        a whole number
 * @throws {DomainError} for sizes that are not whole numbers above zero
 * @source McKay, Beckman and Conover, Technometrics 21 (1979) 239; shuffle of Fisher and Yates
 * @verified sampling.test.ts: one point in each stratum, order of calls, variance against independent sampling
 * @cost n whole numbers per dimension; a point allocates nothing
 */
export function latinHypercube(dimensions: number, count: number, seed: number): UnitSampler {
  requireSize("dimensions", dimensions, 1);
  requireSize("number of samples", count, 1);
  const orders = Array.from({ length: dimensions }, (_, j) => shuffled(count, new RandomStream(seed, j, ORDER_STREAM)));
  const place = new RandomStream(seed, 0, PLACE_STREAM);
  return {
    dimensions,
    count,
    point(index, out) {
      requireLength("point", out.length, dimensions);
      place.restart(seed, index, PLACE_STREAM);
      for (let j = 0; j < dimensions; j++) out[j] = (orders[j]![index]! + place.uniform()) / count;
    },
  };
}

function shuffled(count: number, stream: RandomStream): Uint32Array {
  const order = Uint32Array.from({ length: count }, (_, i) => i);
  for (let i = count - 1; i > 0; i--) {
    const j = Math.floor(stream.uniform() * (i + 1));
    const kept = order[i]!;
    order[i] = order[j]!;
    order[j] = kept;
  }
  return order;
}
