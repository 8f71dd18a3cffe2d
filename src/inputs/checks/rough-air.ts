import { nearest } from "../text/index.ts";
import type { Context } from "./context.ts";
import { checkCase, keysAt, lengthAt, quantityAt, report, wordAt } from "./context.ts";

const PATH = ["studies", "hold", "roughAir"];

/** The design intensity is one of those named; the band of load factors holds level flight. */
export function checkRoughAir(context: Context): void {
  const names = keysAt(context, [...PATH, "sigmas"]);
  checkCase(context, [...PATH, "sigmas"], names);
  const design = wordAt(context, [...PATH, "design"]);
  if (design !== undefined && !names.includes(design)) {
    const near = nearest(design, names);
    const message = `names no intensity of sigmas${near === undefined ? "" : `; did you mean ${near}?`}`;
    report(context, [...PATH, "design"], message, names.join(", ") || "an intensity under sigmas");
  }
  const [low, high] = ["from", "to"].map((end) => quantityAt(context, [...PATH, "limits", "loadFactor", end]));
  if (low !== undefined && low.si >= 1) {
    report(context, [...PATH, "limits", "loadFactor", "from"], "does not allow level flight", "less than 1");
  }
  if (high !== undefined && high.si <= 1) {
    report(context, [...PATH, "limits", "loadFactor", "to"], "does not allow level flight", "more than 1");
  }
  if (design !== undefined) checkHeights(context);
}

/** Least height above ground of the turbulence model, 10 ft [m]. */
const LEAST_HEIGHT = 10 * 0.3048;

/** Without a height above ground the altitude of each condition is taken for it. */
function checkHeights(context: Context): void {
  if (quantityAt(context, [...PATH, "heightAboveGround"]) !== undefined) return;
  const list = ["studies", "hold", "conditions"];
  for (let i = 0; i < lengthAt(context, list); i++) {
    const path = ["conditions", wordAt(context, [...list, i]) ?? "", "altitude"];
    const altitude = quantityAt(context, path)?.si;
    if (altitude === undefined || altitude >= LEAST_HEIGHT) continue;
    const message = "is no height above ground for rough air";
    report(context, path, message, "at least 3.048 m (10 ft), or studies.hold.roughAir.heightAboveGround");
  }
}
