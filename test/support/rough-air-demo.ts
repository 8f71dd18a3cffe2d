/** Rough air alone on the demo pair: the part does not read the modes of the base, which take longer. */
import { hashInputs, recordReads } from "../../src/inputs/index.ts";
import { type HoldPartOutcome, readHoldInputs } from "../../src/studies/hold/index.ts";
import { type RoughAirResult, runRoughAir } from "../../src/studies/hold-rough/index.ts";
import { loadDemo } from "./load-demo.ts";

export function roughAirDemo(variant: string, set: string[] = []): HoldPartOutcome<RoughAirResult> | null {
  const loaded = loadDemo(variant, set);
  const reads = () => recordReads(loaded);
  return runRoughAir({
    ...readHoldInputs(reads),
    ...{ variant, reads, seed: 7, base: undefined as never, step: () => {} },
    findings: { study: "hold", version: "test", seed: 7, hash: (paths) => hashInputs(loaded, paths) },
  });
}
