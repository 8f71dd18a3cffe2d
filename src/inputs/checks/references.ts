import { nearest } from "../text/index.ts";
import type { Context } from "./context.ts";
import { airspeedAt, checkCase, keysAt, lengthAt, quantityAt, report, wordAt } from "./context.ts";

/** Names that are referred to, lists without repetition, names that differ only in case. */
export function checkReferences(context: Context): void {
  const masses = keysAt(context, ["carried", "massStates"]);
  const conditions = keysAt(context, ["conditions"]);
  for (const condition of conditions) {
    checkNames(context, ["conditions", condition, "masses"], masses, "loading");
  }
  checkNames(context, ["studies", "hold", "conditions"], conditions, "condition");
  const scaling = ["studies", "hold", "scaling"];
  for (const model of keysAt(context, scaling)) {
    for (let i = 0; i < lengthAt(context, [...scaling, model, "measured"]); i++) {
      const path = [...scaling, model, "measured", i, "mass"];
      const name = wordAt(context, path);
      if (name !== undefined && !masses.includes(name)) report(context, path, "unknown loading", masses.join(", "));
    }
  }
  checkCase(context, ["carried", "massStates"], masses);
  checkCase(context, ["conditions"], conditions);
  if (masses.length === 0) need(context, ["carried", "massStates"], "no loading is given");
  if (conditions.length === 0) need(context, ["conditions"], "no condition is given");
}

function need(context: Context, path: readonly string[], message: string): void {
  const missing = context.issues.some((issue) => issue.path === path.join("."));
  if (!missing) report(context, path, message, "at least one");
}

/** Issues after which the nearest name is no longer looked for. */
const MOST_HINTS = 50;

function checkNames(context: Context, list: readonly string[], known: readonly string[], what: string): void {
  const seen = new Set<string>();
  const knownNames = new Set(known);
  for (let i = 0; i < lengthAt(context, list); i++) {
    const name = wordAt(context, [...list, i]);
    if (name === undefined) continue;
    if (seen.has(name)) report(context, [...list, i], `names the ${what} "${name}" twice`, `each ${what} once`);
    seen.add(name);
    if (knownNames.has(name)) continue;
    const near = context.issues.length < MOST_HINTS ? nearest(name, known) : undefined;
    const message = `unknown ${what}${near === undefined ? "" : `; did you mean ${near}?`}`;
    report(context, [...list, i], message, known.join(", "));
  }
}

/** Ranges that run upwards, both ends in one kind of airspeed. */
export function checkRanges(context: Context): void {
  const hold = ["studies", "hold"];
  const ranges = [
    [...hold, "speedBand"],
    ...keysAt(context, [...hold, "sweeps"]).map((sweep) => [...hold, "sweeps", sweep]),
  ];
  for (const path of ranges) {
    const [low, high] = [airspeedAt(context, [...path, "from"]), airspeedAt(context, [...path, "to"])];
    if (low !== undefined && high !== undefined && low.kind !== high.kind) {
      report(
        context,
        [...path, "to"],
        "the two ends are different kinds of airspeed",
        `${low.kind}, like the other end`,
      );
      continue;
    }
    const from = low ?? quantityAt(context, [...path, "from"]);
    const to = high ?? quantityAt(context, [...path, "to"]);
    if (from === undefined || to === undefined || from.si < to.si) continue;
    report(context, [...path, "to"], "the range does not run upwards", `more than ${from.text}`);
  }
  for (const angle of ["pitch", "roll"]) {
    const path = [...hold, "upset"];
    const upset = quantityAt(context, [...path, angle]);
    const limit = quantityAt(context, [...path, `${angle}Limit`]);
    if (upset === undefined || limit === undefined || upset.si < limit.si) continue;
    report(context, [...path, `${angle}Limit`], "the limit does not exceed the upset", `more than ${upset.text}`);
  }
}
