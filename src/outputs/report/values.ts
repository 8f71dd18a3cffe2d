/** Values of findings and limits as printed in the report. */
import type { Finding } from "../../studies/finding/types.ts";
import type { HoldResult } from "../../studies/hold/types.ts";
import { formatPair, formatQuantity } from "../numbers/index.ts";

export function valueText({ value, unit, criterion }: Finding): string {
  if (value === null) return "none";
  return criterion === undefined ? formatQuantity(value, unit) : formatPair(value, criterion.limit, unit).value;
}

export function limitText({ value, unit, criterion }: Finding): string {
  if (criterion === undefined) return "–";
  const { sense, limit } = criterion;
  return `${sense} ${formatPair(value ?? limit, limit, unit).limit}`;
}

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
