import { mirroredName } from "../schema/index.ts";
import { nearest } from "../text/index.ts";
import type { Context } from "./context.ts";
import { keysAt, lengthAt, report, wordAt } from "./context.ts";
import { movingNames } from "./moving.ts";

/** The two bodies of which one does not move and one is carried. */
export const AIRCRAFT: readonly string[] = ["carrier", "carried"];

/** Bodies of the mechanism besides the two aircraft. */
export const mechanismBodies = (context: Context) => keysAt(context, ["mechanism", "linkage", "bodies"]);

/** Pairs that touch by design: bodies or shapes that exist, of two different bodies, no pair twice. */
export function checkFit(context: Context): void {
  const list = ["studies", "fit", "apart"] as const;
  const bodies = [...AIRCRAFT, ...mechanismBodies(context), ...movingNames(context)];
  const seen = new Set<string>();
  for (let i = 0; i < lengthAt(context, list); i++) {
    const pair = checkApart(context, [...list, i], bodies);
    if (pair === undefined) continue;
    const key = [...pair].sort().join(" | ");
    if (seen.has(key)) report(context, [...list, i], `names ${pair[0]} and ${pair[1]} a second time`, "each pair once");
    seen.add(key);
  }
}

/** Two names, each a body or `body.shape`, of two different bodies; or issues where they are not. */
function checkApart(
  context: Context,
  path: readonly (string | number)[],
  bodies: readonly string[],
): readonly [string, string] | undefined {
  const names = [0, 1].map((end) => wordAt(context, [...path, end]));
  const known = names.map((name, end) => name !== undefined && checkPart(context, [...path, end], name, bodies));
  if (known.includes(false)) return undefined;
  const [a, b] = names as [string, string];
  const [bodyA, bodyB] = [bodyOf(a), bodyOf(b)];
  if (bodyA !== bodyB) return [a, b];
  const message = a === b && a === bodyA ? "is the same body twice" : `is of the same body, ${bodyA}`;
  report(context, [...path, 1], message, "two different bodies");
  return undefined;
}

const bodyOf = (name: string) => name.split(".", 1)[0]!;

/** Is it a body, or a body and one of its shapes? */
function checkPart(
  context: Context,
  path: readonly (string | number)[],
  name: string,
  bodies: readonly string[],
): boolean {
  const body = bodyOf(name);
  if (!bodies.includes(body)) return checkKnown(context, path, name, body, bodies, "body");
  if (body === name) return true;
  const shapes = keysAt(context, shapesOf(context, body)).map((shape) => `${body}.${shape}`);
  if (shapes.includes(name)) return true;
  if (shapes.length > 0) return checkKnown(context, path, name, name, shapes, "shape");
  report(context, path, `unknown shape: ${body} has no shapes`, body);
  return false;
}

/** Reports a word that is none of those known, with the nearest one. */
function checkKnown(
  context: Context,
  path: readonly (string | number)[],
  name: string,
  word: string,
  known: readonly string[],
  what: string,
): false {
  const near = nearest(word, known);
  const meant = near === undefined ? "" : `; did you mean ${near}${name.slice(word.length)}?`;
  report(context, path, `unknown ${what}${meant}`, known.join(", "));
  return false;
}

/** Where the shapes of a body stand; a mirrored moving part has those of the one that is drawn. */
function shapesOf(context: Context, body: string): readonly string[] {
  if (AIRCRAFT.includes(body)) return [body, "shapes"];
  if (mechanismBodies(context).includes(body)) return ["mechanism", "linkage", "bodies", body, "shapes"];
  const drawn = keysAt(context, ["carrier", "moving"]);
  const name = drawn.includes(body) ? body : (mirroredName(body) ?? body);
  return ["carrier", "moving", name, "shapes"];
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
    return !checkKnown(context, [...path, end], name, name, known, "body");
  });
  if (unknown.includes(true)) return undefined;
  const [a, b] = names as [string, string];
  if (a !== b) return [a, b];
  report(context, [...path, 1], "is the same body twice", "two different bodies");
  return undefined;
}
