import { hashInputs, type LoadedPair, recordReads } from "../../../inputs/index.ts";
import { type HoldPartContext, readHoldInputs, restsOf } from "../../hold/index.ts";
import { patchedPair } from "../patched-pair.ts";
import { SampledModel } from "../sampled-model.ts";
import { variablesOf } from "../variables.ts";

/** What a part gets from `hold`, without the modes of the base, which `certainty` does not use. */
export function partContext(loaded: LoadedPair, seed = 1): HoldPartContext {
  const reads = () => recordReads(loaded);
  const { inputs, groups } = readHoldInputs(reads);
  return {
    ...{ variant: loaded.variant, inputs, groups, reads, seed, step: () => {} },
    base: { points: [] } as unknown as HoldPartContext["base"],
    findings: { study: "hold", version: "test", seed, hash: (paths) => hashInputs(loaded, paths) },
  };
}

/** The sampled model of the pair's first condition. */
export function sampledModel(loaded: LoadedPair): SampledModel {
  const { inputs, groups } = readHoldInputs(() => recordReads(loaded));
  const patched = patchedPair(loaded.pair);
  const [condition] = inputs.conditions;
  const rests = restsOf(groups, condition.name, condition.masses, false).dynamics.longitudinal;
  const correlations = loaded.pair.correlations ?? [];
  const variables = variablesOf(patched.uncertain, rests, groups, condition.masses, correlations);
  return new SampledModel(patched, condition, variables, inputs);
}
