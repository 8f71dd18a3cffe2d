import type { Context } from "./context.ts";
import { keysAt, quantityAt, report } from "./context.ts";

const PARTS = ["actuators", "gains", "pilot"] as const;
const STUDY = ["studies", "hold", "control"] as const;

/** What pilot and autopilot need of each other: their parts, the hold below a hold, times and frequencies that rise. */
export function checkControl(context: Context): void {
  for (const set of ["free", "hooked"]) {
    const path = ["control", "gains", set];
    const functions = keysAt(context, path);
    if (!functions.includes("heightHold") || functions.includes("pitchHold")) continue;
    const message = "works through the pitch hold, which is not in this set";
    report(context, [...path, "heightHold"], message, "a pitchHold beside it, or no heightHold");
  }
  if (keysAt(context, STUDY).length === 0) return;
  const missing = PARTS.filter((part) => keysAt(context, ["control", part]).length === 0);
  if (missing.length > 0) {
    const message = `needs ${missing.map((part) => `control.${part}`).join(", ")}, which the pair leaves out`;
    report(context, STUDY, message, "all of control.actuators, control.gains, control.pilot");
  }
  const failures = [...STUDY, "failures"];
  rising(context, [...failures, "slowest"], [...failures, "fastest"]);
  rising(context, [...failures, "recognition"], [...failures, "duration"]);
}

function rising(context: Context, low: readonly string[], high: readonly string[]): void {
  const [from, to] = [quantityAt(context, low), quantityAt(context, high)];
  if (from === undefined || to === undefined || from.si < to.si) return;
  report(context, high, `must be larger than ${low.at(-1)}`, `more than ${from.text}`);
}
