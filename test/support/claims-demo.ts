/** Claims of hook-on trials on the demo pair, for tests. */
import { hashInputs, recordReads } from "../../src/inputs/index.ts";
import { type ClaimsOutcome, runClaims, type SimulatedShare } from "../../src/studies/hookon-claims/index.ts";
import { loadDemo } from "./load-demo.ts";

export function claimsDemo(set: string[] = [], simulated: readonly SimulatedShare[] = []): ClaimsOutcome | null {
  const loaded = loadDemo(undefined, set);
  const hash = (paths: readonly string[]) => hashInputs(loaded, paths);
  return runClaims({
    reads: () => recordReads(loaded),
    findings: { study: "hookon", version: "test", seed: null, hash },
    simulated,
  });
}
