import type { CertaintyResult } from "./types.ts";

/** What the certainty rests on, in sentences for the report. */
export function certaintyAssumptions({ conditions, groundTests }: CertaintyResult): string[] {
  const correlated = conditions.some(({ correlations }) => correlations > 0);
  const impossible = conditions.filter((one) => one.impossible > 0);
  return [
    "Uncertain values are independent but for the correlations that the pair declares; a coefficient holds between normal scores.",
    "A value without an uncertainty in the pair counts as exact.",
    ...(correlated
      ? ["Variance shares are those of groups of correlated values taken together; inside a group no share is defined."]
      : []),
    "Intervals of probabilities count the samples as independent; the samples are laid more evenly than that.",
    "The worst case lets every value go to its bound at once, correlations left aside.",
    ...(groundTests.length > 0
      ? ["Ground tests: accuracies are assumed, errors independent and normal, results about the nominal values."]
      : []),
    ...impossible.map(
      ({ condition, impossible: count, samples }) =>
        `Condition ${condition}: ${count} of ${samples} samples describe a pair that cannot exist (moments of inertia of no body, for example) and are left out.`,
    ),
  ];
}
