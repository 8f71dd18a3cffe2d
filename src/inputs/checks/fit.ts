import { nearest } from "../text/index.ts";
import type { Context } from "./context.ts";
import { keysAt, lengthAt, report, wordAt } from "./context.ts";
import { movingNames } from "./moving.ts";

/** The two bodies of which one does not move and one is carried. */
export const AIRCRAFT: readonly string[] = ["carrier", "carried"];

/** Bodies of the mechanism besides the two aircraft. */
export const mechanismBodies = (context: Context) => keysAt(context, ["mechanism", "linkage", "bodies"]);

/** Pairs of bodies that touch by design: both exist and differ, and no pair is named twice. */
export function checkFit(context: Context): void {
  const list = ["studies", "fit", "apart"] as const;
  const known = [...AIRCRAFT, ...mechanismBodies(context), ...movingNames(context)];
  const seen = new Set<string>();
  for (let i = 0; i < lengthAt(context, list); i++) {
    const pair = checkTwoBodies(context, [...list, i], known);
    if (pair === undefined) continue;
    const key = [...pair].sort().join(" | ");
    if (seen.has(key)) report(context, [...list, i], `names ${pair[0]} and ${pair[1]} a second time`, "each pair once");
    seen.add(key);
  }
}

/** Two names of bodies that exist and differ, or issues where they do not. */
export function checkTwoBodies(
  context: Context,
  path: readonly (string | number)[],
  known: readonly string[],
): readonly [string, string] | undefined {
  const names = [0, 1].map((end) => wordAt(context, [...path, end]));
  const unknown = names.map((name, end) => {
    if (name === undefined || known.includes(name)) return name === undefined;
    const near = nearest(name, known);
    const message = `unknown body${near === undefined ? "" : `; did you mean ${near}?`}`;
    report(context, [...path, end], message, known.join(", "));
    return true;
  });
  if (unknown.includes(true)) return undefined;
  const [a, b] = names as [string, string];
  if (a !== b) return [a, b];
  report(context, [...path, 1], "is the same body twice", "two different bodies");
  return undefined;
}
