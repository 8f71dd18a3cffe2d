import type { ReleaseResult } from "../../studies/release/types.ts";
import { countVerdicts } from "./key-numbers.ts";
import type { ReleaseNumbers } from "./types.ts";

/** The numbers of `release` that variants are compared by: the worst loading of each. */
export function releaseNumbers(result: ReleaseResult): ReleaseNumbers {
  const names = [...new Set(result.cases.map(({ name }) => name))];
  const clean = names.filter((name) => result.cases.every((one) => one.name !== name || one.outcome === "clean"));
  const own = (quantity: string): (number | null)[] =>
    result.edges.filter((edge) => edge.quantity === quantity).map(({ limit }) => limit);
  const worst = (values: readonly (number | null)[], pick: (...all: number[]) => number): number | null =>
    values.length === 0 || values.includes(null) ? null : pick(...(values as number[]));
  const design = result.batches.filter(({ sigma }) => sigma === result.design);
  return {
    verdict: countVerdicts(result.findings),
    cleanCases: clean.length,
    cases: names.length,
    leastAirspeed_m_s_EAS: worst(own("airspeed"), Math.max),
    largestThrust_N: worst(own("thrust"), Math.min),
    clean_1: worst(
      design.map(({ clean: share }) => share.lower_1),
      Math.min,
    ),
  };
}
