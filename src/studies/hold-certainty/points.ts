import { normalQuantile } from "../../math/distributions/index.ts";
import { latinHypercube, SOBOL_DIMENSIONS, sobolSampler, type UnitSampler } from "../../math/sampling/index.ts";

/** Points of independent standard normal numbers; a point depends on seed and number alone. */
export interface NormalPoints {
  readonly count: number;
  point(index: number, out: Float64Array): void;
}

/**
 * Points of a method in n inputs; Latin hypercube in place of Sobol where no direction numbers are tabled.
 *
 * @param use number of the independent use of the same seed
 */
export function normalPoints(
  method: "Sobol" | "Latin hypercube",
  n: number,
  count: number,
  seed: number,
  use: number,
): NormalPoints {
  const own = seed + use * 2 ** 33;
  const sampler: UnitSampler =
    method === "Sobol" && n <= SOBOL_DIMENSIONS ? sobolSampler(n, own) : latinHypercube(n, count, own);
  return {
    count,
    point(index, out) {
      sampler.point(index, out);
      for (let j = 0; j < n; j++) out[j] = normalQuantile(out[j]!);
    },
  };
}

/** Independent uses of one seed. */
export const USE = { samples: 0, drivers: 1, starts: 2 } as const;
