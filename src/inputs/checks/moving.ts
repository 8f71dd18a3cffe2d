import { mirroredName } from "../schema/index.ts";
import { nearest } from "../text/index.ts";
import type { Context } from "./context.ts";
import { checkCase, keysAt, lengthAt, pointAt, quantityAt, report, spell, tableAt, wordAt } from "./context.ts";

const MOVING = ["carrier", "moving"] as const;
const DEGREE = Math.PI / 180;
/** Slack on the ends of a travel table, which are round figures. */
const SLACK = 1e-12;

/** Names of the moving parts of the carrier, mirrored ones included. */
export function movingNames(context: Context): string[] {
  return keysAt(context, MOVING).flatMap((name) => {
    const twin = isMirrored(context, name) ? mirroredName(name) : undefined;
    return twin === undefined ? [name] : [name, twin];
  });
}

const isMirrored = (context: Context, name: string) =>
  context.values.get([...MOVING, name, "mirrored"].join(".")) === true;

/** Gear legs and doors: names of the mirrored ones, groups, hinge lines and travel. */
export function checkMoving(context: Context): void {
  const names = keysAt(context, MOVING);
  checkCase(context, MOVING, names);
  const groups = new Map<string, string>();
  for (const name of names) {
    const path = [...MOVING, name];
    if (isMirrored(context, name)) checkMirrored(context, path, name, names);
    checkGroup(context, path, groups);
    checkDirection(context, [...path, "hinge", "axis"]);
    checkTravelTable(context, [...path, "travel"]);
    checkHangsOn(context, [...path, "hangsOn"]);
  }
  const [nose, main] = ["noseWheel", "mainWheels"].map((each) =>
    quantityAt(context, ["carrier", "ground", each, "FS"]),
  );
  if (nose !== undefined && main !== undefined && nose.si >= main.si) {
    const path = ["carrier", "ground", "noseWheel", "FS"];
    report(context, path, "the nose wheel does not stand forward of the main wheels", `less than ${main.text}`);
  }
}

function checkMirrored(context: Context, path: readonly string[], name: string, names: readonly string[]): void {
  const twin = mirroredName(name);
  const at = [...path, "mirrored"];
  if (twin === undefined)
    report(context, at, `"${name}" does not say its side`, "a name with Right or Left in it, once");
  else if (names.includes(twin)) report(context, at, `"${twin}" is there already`, "one of the two");
}

function checkGroup(context: Context, path: readonly string[], groups: Map<string, string>): void {
  const group = wordAt(context, [...path, "group"]);
  if (group === undefined) return;
  const known = groups.get(group.toLowerCase());
  groups.set(group.toLowerCase(), known ?? group);
  if (known === undefined || known === group) return;
  report(context, [...path, "group"], `the group differs from "${known}" in case only`, `${known}, or another name`);
}

/** Shapes of the carrier, each once. */
function checkHangsOn(context: Context, path: readonly string[]): void {
  const shapes = keysAt(context, ["carrier", "shapes"]);
  const seen = new Set<string>();
  for (let i = 0; i < lengthAt(context, path); i++) {
    const name = wordAt(context, [...path, i]);
    if (name === undefined) continue;
    if (!shapes.includes(name)) {
      const near = nearest(name.replace(/^carrier\./, ""), shapes);
      const message = `unknown shape of the carrier${near === undefined ? "" : `; did you mean ${near}?`}`;
      report(context, [...path, i], message, shapes.length === 0 ? "none: it has no shapes" : shapes.join(", "));
    } else if (seen.has(name)) report(context, [...path, i], "is named a second time", "each shape once");
    seen.add(name);
  }
}

/** A direction must not vanish. */
export function checkDirection(context: Context, path: readonly string[]): void {
  const axis = pointAt(context, path);
  if (axis?.every((part) => part === 0)) report(context, path, "the direction has no length", "one part other than 0");
}

/** A travel starts as drawn, ends at 1 and never runs backwards. */
function checkTravelTable(context: Context, path: readonly string[]): void {
  const table = tableAt(context, path);
  if (table === undefined) return;
  const { fraction, angle } = table.columns;
  const last = table.rows - 1;
  if (Math.abs(fraction![0]!) > SLACK || Math.abs(fraction![last]! - 1) > SLACK) {
    const found = `it runs from ${spell(fraction![0]!)} to ${spell(fraction![last]!)}`;
    report(context, path, `the fraction in ${table.file} does not run from 0 to 1: ${found}`, "0 to 1");
  }
  if (Math.abs(angle![0]!) > SLACK) {
    const found = spell(angle![0]! / DEGREE);
    report(
      context,
      path,
      `the angle in ${table.file} starts at ${found} deg, but fraction 0 is as drawn`,
      "0 deg first",
    );
  }
  const way = Math.sign(angle![last]! - angle![0]!);
  if (way === 0) {
    report(context, path, `the angle in ${table.file} ends where it starts`, "an angle that changes");
    return;
  }
  for (let i = 1; i <= last; i++) {
    if (way * (angle![i]! - angle![i - 1]!) >= 0) continue;
    const [before, after] = [i - 1, i].map((row) => spell(angle![row]! / DEGREE));
    const where = `from ${before} deg to ${after} deg at fraction ${spell(fraction![i]!)}`;
    report(context, path, `the travel in ${table.file} runs backwards: ${where}`, "one way, or standing still");
    return;
  }
}
