import { nearest } from "../text/index.ts";
import type { Context } from "./context.ts";
import { isFaulty, keysAt, lengthAt, report, wordAt } from "./context.ts";

/**
 * Ground tests: what they measure exists and stands in a test once. A value without uncertainty may be measured, so that setting
 * a value exactly (`--set`) needs no change of the tests: there is then nothing to gain.
 */
export function checkGroundTests(context: Context): void {
  const tests = ["studies", "hold", "certainty", "groundTests"];
  for (const test of keysAt(context, tests)) {
    const list = [...tests, test, "measures"];
    const seen = new Set<string>();
    for (let i = 0; i < lengthAt(context, list); i++) {
      const path = wordAt(context, [...list, i]);
      if (path === undefined) continue;
      checkMeasured(context, [...list, i], path);
      if (seen.has(path)) report(context, [...list, i], "is measured twice by one test", "each value once");
      seen.add(path);
    }
  }
}

/** Derivatives are missing where a variant gives the airloads in another form: a test of them then measures nothing. */
const AIRLOADS = "carried.airloads.";
const KIND = ["carried", "airloads", "kind"];
/** So are the boom's measured values where a variant gives its sections. */
const FROM_SECTIONS = ["bending", "axial", "lateral", "effectiveTipMass"].map((key) => `mechanism.boom.${key}`);
const SECTIONS = ["mechanism", "boom", "structure"];

function checkMeasured(context: Context, at: readonly (string | number)[], path: string): void {
  const value = context.values.get(path);
  if (value === undefined && path.startsWith(AIRLOADS) && wordAt(context, KIND) !== "derivatives") return;
  if (value === undefined && FROM_SECTIONS.includes(path) && keysAt(context, SECTIONS).length > 0) return;
  if (value === undefined && isFaulty(context, path)) return;
  if (value === undefined) {
    const near = nearest(path, context.values.keys());
    const hint = near === undefined ? "" : `; did you mean ${near}?`;
    report(context, at, `no value has this path${hint}`, "the path of a value with a unit or a number");
  } else if (typeof value !== "object" || (value.type !== "quantity" && value.type !== "airspeed")) {
    report(context, at, "is not something that can be measured", "the path of a value with a unit or a number");
  }
}
