import { restsOf } from "../hold/index.ts";
import type { ReleaseInputs } from "./settings.ts";

/** Words as part of an id. */
export const slug = (text: string): string => text.toLowerCase().replaceAll(/[^a-z0-9]+/g, "-");

/** Paths of everything that a separation with some loadings rests on. */
export function restsFor({ groups, condition, paths }: ReleaseInputs, masses: readonly string[]): string[] {
  return [...restsOf(groups, condition.name, masses, true).dynamics.longitudinal, ...paths, "studies.release"];
}
