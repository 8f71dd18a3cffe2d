/** Words of the study `hookon`. */
import type { HookonCase } from "../../studies/hookon/types.ts";

/** Words beside a case: controller, turbulence, what is special. */
export function caseWords(each: Pick<HookonCase, "controller" | "sigma" | "light" | "bothAtOnce">): string {
  const special = [...(each.light === null ? [] : [each.light]), ...(each.bothAtOnce ? ["both steer"] : [])];
  return [each.controller, each.sigma, ...special].join(", ");
}
