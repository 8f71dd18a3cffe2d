import { BugError, DomainError } from "../errors.ts";
import { RandomStream } from "../random/index.ts";
import { requireLength, requireSize } from "../require.ts";
import { JOE_KUO } from "./joe-kuo.table.ts";
import type { UnitSampler } from "./types.ts";

/** Dimensions for which direction numbers are tabled. */
export const SOBOL_DIMENSIONS = JOE_KUO.length + 1;

const BITS = 32;
const SCALE = 2 ** -BITS;
const MOST_POINTS = 2 ** BITS;

/** Direction numbers of one dimension, v₁ … v₃₂ with the leading bit on the left; shape (32). */
function directions(dimension: number): Uint32Array {
  const v = new Uint32Array(BITS);
  if (dimension === 0) {
    for (let k = 0; k < BITS; k++) v[k] = (1 << (BITS - 1 - k)) >>> 0;
    return v;
  }
  const row = JOE_KUO[dimension - 1];
  if (row === undefined) throw new BugError(`no direction numbers for dimension ${dimension + 1}`);
  const degree = row[0]!;
  const inner = row[1]!;
  for (let k = 0; k < degree; k++) v[k] = (row[2 + k]! << (BITS - 1 - k)) >>> 0;
  for (let k = degree; k < BITS; k++) {
    let value = v[k - degree]! ^ (v[k - degree]! >>> degree);
    for (let j = 1; j < degree; j++) if ((inner >>> (degree - 1 - j)) & 1) value ^= v[k - j]!;
    v[k] = value >>> 0;
  }
  return v;
}

const known: Uint32Array[] = [];
function directionsOf(dimension: number): Uint32Array {
  known[dimension] ??= directions(dimension);
  return known[dimension];
}

function requireDimensions(dimensions: number): void {
  requireSize("dimensions", dimensions, 1);
  if (dimensions > SOBOL_DIMENSIONS) throw new DomainError("dimensions", dimensions, `1 to ${SOBOL_DIMENSIONS}`);
}

/** Bits of coordinate `dimension` of point `index`, in Gray-code order. */
function bitsOf(index: number, dimension: number): number {
  const v = directionsOf(dimension);
  let gray = (index ^ (index >>> 1)) >>> 0;
  let bits = 0;
  for (let k = 0; gray !== 0; k++, gray >>>= 1) if (gray & 1) bits ^= v[k]!;
  return bits >>> 0;
}

/**
 * A point of the Sobol sequence without randomisation.
 *
 *     x = ⊕ v_k over the bits k of the Gray code i ⊕ ⌊i/2⌋                         (1)
 *
 * The first 2ᵏ points put one point in each of the 2ᵏ strata of every coordinate.
 *
 * @param index  i, 0 … 2³² − 1; point 0 is the origin
 * @param out    shape (dimensions), written
 * @throws {DomainError} for a dimension that is not tabled, or an index out of range
 * @source Joe and Kuo, SIAM J. Sci. Comput. 30 (2008) 2635; Antonov and Saleev, USSR Comput. Maths. Math. Phys. 19 (1980) 252
 * @verified sampling.test.ts: published/sobol-joe-kuo, generated/sobol-scipy
 */
export function sobolPoint(index: number, out: Float64Array): void {
  requireDimensions(out.length);
  if (!(Number.isInteger(index) && index >= 0 && index < MOST_POINTS)) {
    throw new DomainError("index of a Sobol point", index, "a whole number, 0 to 2^32 - 1");
  }
  for (let j = 0; j < out.length; j++) out[j] = bitsOf(index, j) * SCALE;
}

/**
 * The Sobol sequence under a random digital shift, which keeps every stratum and frees the mean from bias.
 *
 *     x = (bits ⊕ shift_j + ½)·2⁻³²,   shift_j from stream (seed, j)                       (2)
 *
 * @param dimensions  1 … `SOBOL_DIMENSIONS`
 * @param seed        of the shift, a whole number
 * @param first       dimension of the sequence that coordinate 0 takes
 * @throws {DomainError} for a dimension that is not tabled
 * @source Cranley–Patterson idea in base two: L'Ecuyer and Lemieux, Recent advances in randomized quasi-Monte Carlo methods (2002)
 * @verified sampling.test.ts: strata, mean of a shifted sequence, order of calls
 * @cost no allocation
 */
export function sobolSampler(dimensions: number, seed: number, first = 0): UnitSampler {
  requireDimensions(dimensions + first);
  const shifts = Uint32Array.from({ length: dimensions }, (_, j) => {
    const stream = new RandomStream(seed, first + j, SHIFT_STREAM);
    return Math.floor(stream.uniform() * MOST_POINTS);
  });
  return {
    dimensions,
    count: MOST_POINTS,
    point(index, out) {
      requireLength("point", out.length, dimensions);
      for (let j = 0; j < dimensions; j++) {
        out[j] = (((bitsOf(index, first + j) ^ shifts[j]!) >>> 0) + 0.5) * SCALE;
      }
    },
  };
}

/** Streams of one seed that this folder takes. */
const SHIFT_STREAM = 0x50b01;
