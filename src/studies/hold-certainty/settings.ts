import type { Pair } from "../../inputs/index.ts";
import type { GroundTest } from "./types.ts";

/** Settings of the part, defaults filled in. */
export interface Settings {
  readonly samples: number;
  readonly method: "Sobol" | "Latin hypercube";
  /** [standard deviations] */
  readonly bound: number;
  readonly confidence: number;
  readonly tests: readonly GroundTest[];
}

export type CertaintySection = NonNullable<NonNullable<NonNullable<Pair["studies"]>["hold"]>["certainty"]>;

export function readSettings(own: CertaintySection): Settings {
  const tests = Object.entries(own.groundTests ?? {}).map(
    ([name, { measures, accuracy, cost }]): GroundTest => ({
      name,
      measures: [...measures],
      accuracy_1: accuracy.si,
      cost: cost ?? null,
    }),
  );
  return {
    samples: own.samples ?? 2048,
    method: own.method ?? "Sobol",
    bound: own.bound?.si ?? 3,
    confidence: own.confidence?.si ?? 0.95,
    tests,
  };
}
