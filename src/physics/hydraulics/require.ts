import { DomainError } from "../../math/errors.ts";

/** Refuses the first value that is not positive and finite. */
export function requirePositive(values: Readonly<Record<string, number>>): void {
  for (const [quantity, value] of Object.entries(values)) {
    if (!(value > 0 && Number.isFinite(value))) throw new DomainError(quantity, value, "greater than 0");
  }
}
