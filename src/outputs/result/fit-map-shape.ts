/** Form of a group × stroke map inside a result file; its cells must cover the grid. */
import { type Check, finite, flag, list, nullable, object, oneOf, text } from "./shape.ts";

const pair = list(text, 2);
const node = object({ fraction_1: finite, boomAngle_deg: finite });

const path = object({
  steps: list(text),
  moves: list(object({ moves: oneOf("boom", "group"), from: node, to: node, leastClearance_m: finite, words: text })),
  nodes: list(node),
  leastClearance_m: finite,
  leastPair: nullable(pair),
  length: finite,
  throughNear: flag,
});

const region = object({
  cells: finite,
  freeCells: finite,
  fractions_1: list(finite, 2),
  boomAngles_deg: list(finite, 2),
  holdsStart: flag,
  holdsEnd: flag,
});

const mapForm = object({
  id: text,
  title: text,
  group: text,
  held: nullable(object({ body: text, fraction_1: finite })),
  others: list(object({ group: text, standsAt_1: finite })),
  fractions: list(finite),
  boomAngles_deg: list(finite),
  state: list(oneOf("free", "near", "collides", "unresolved")),
  leastPair: list(finite),
  pairs: list(pair),
  near_m: finite,
  counts: object({ free: finite, near: finite, collides: finite, unresolved: finite }),
  regions: list(region),
  groupMayMove_deg: list(list(finite, 2)),
  boomMayMove_1: list(list(finite, 2)),
  regionOf: list(finite),
  path: nullable(path),
  wayBack: nullable(path),
  noPathBecause: nullable(text),
});

interface Grid {
  readonly fractions: readonly number[];
  readonly boomAngles_deg: readonly number[];
  readonly pairs: readonly unknown[];
  readonly regions: readonly unknown[];
  readonly state: readonly unknown[];
  readonly leastPair: readonly number[];
  readonly regionOf: readonly number[];
}

/** Every list of cells must fill the grid, every index must name something. */
export const mapShape: Check = (value, where, issues) => {
  const before = issues.length;
  mapForm(value, where, issues);
  if (issues.length > before) return;
  const map = value as Grid;
  const cells = map.fractions.length * map.boomAngles_deg.length;
  for (const name of ["state", "leastPair", "regionOf"] as const) {
    const found = map[name].length;
    if (found === cells) continue;
    const allowed = `${cells}, the product of fractions and boomAngles_deg`;
    issues.push({ path: `${where}.${name}`, message: "has the wrong length", value: String(found), allowed });
  }
  for (const [name, names] of [
    ["leastPair", "pairs"],
    ["regionOf", "regions"],
  ] as const) {
    const count = map[names].length;
    const wrong = map[name].findIndex((index) => !Number.isInteger(index) || index < -1 || index >= count);
    if (wrong < 0) continue;
    const allowed = `-1, or a place in ${names} (0 to ${count - 1})`;
    const found = String(map[name][wrong]);
    issues.push({ path: `${where}.${name}[${wrong}]`, message: "names nothing", value: found, allowed });
  }
};
