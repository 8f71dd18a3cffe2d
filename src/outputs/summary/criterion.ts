import type { HoldResult } from "../../studies/hold/types.ts";

/** Damping ratio that rigid-body-type oscillations must have, as the study used it; null when it is not stated. */
export function dampingCriterion(results: readonly HoldResult[]): number | null {
  for (const { stiffness, findings } of results) {
    const need = stiffness[0];
    if (need !== undefined) return need.criterion_1;
    for (const { criterion, id } of findings) {
      if (criterion !== undefined && /(^|\.)damping(\.|$)/.test(id) && criterion.sense === "at least")
        return criterion.limit;
    }
  }
  return null;
}
