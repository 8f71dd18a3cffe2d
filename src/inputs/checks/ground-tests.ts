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
/** So is a value that a pair may leave out: the boom's measured ones beside sections, the override of the snubber's rate. */
const MAY_BE_LEFT_OUT = [
  ...["bending", "axial", "lateral", "effectiveTipMass"].map((key) => `mechanism.boom.${key}`),
  "mechanism.snubber.equivalent",
];

function checkMeasured(context: Context, at: readonly (string | number)[], path: string): void {
  const value = context.values.get(path);
  if (value === undefined && path.startsWith(AIRLOADS) && wordAt(context, KIND) !== "derivatives") return;
  if (value === undefined && MAY_BE_LEFT_OUT.includes(path)) return;
  if (value === undefined && isFaulty(context, path)) return;
  if (value === undefined) {
    const near = nearest(path, context.values.keys());
    const hint = near === undefined ? "" : `; did you mean ${near}?`;
    report(context, at, `no value has this path${hint}`, "the path of a value with a unit or a number");
  } else if (typeof value !== "object" || (value.type !== "quantity" && value.type !== "airspeed")) {
    report(context, at, "is not something that can be measured", "the path of a value with a unit or a number");
  }
}
