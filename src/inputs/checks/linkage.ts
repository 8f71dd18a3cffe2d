import { NAMED_POINTS } from "../schema/index.ts";
import { nearest } from "../text/index.ts";
import type { Context } from "./context.ts";
import { checkCase, keysAt, pointAt, quantityAt, report, spell, wordAt } from "./context.ts";
import { AIRCRAFT, checkTwoBodies, mechanismBodies } from "./fit.ts";
import { checkDirection, movingNames } from "./moving.ts";

const LINKAGE = ["mechanism", "linkage"] as const;
const JOINTS = [...LINKAGE, "joints"];
const DEGREE = Math.PI / 180;
/** How far two bodies may put their common point apart [m]. */
const CLOSURE = 1e-3;
const SLACK = 1e-9;

type Point = readonly [number, number, number];

/** A joint whose two bodies are known. */
interface Joint {
  readonly name: string;
  readonly path: readonly string[];
  readonly bodies: readonly [string, string];
}

/** Names, points and travel of the linkage, and whether it closes as drawn. */
export function checkLinkage(context: Context): void {
  if (keysAt(context, LINKAGE).length === 0) return;
  const bodies = mechanismBodies(context);
  checkBodyNames(context, bodies);
  const known = [...AIRCRAFT, ...bodies];
  const names = keysAt(context, JOINTS);
  const joints = names.flatMap((name): Joint[] => {
    const path = [...JOINTS, name];
    const pair = checkTwoBodies(context, [...path, "between"], known);
    return pair === undefined ? [] : [{ name, path, bodies: pair }];
  });
  checkTwoBodies(context, [...LINKAGE, "jack", "between"], known);
  for (const { path, bodies: pair } of joints) {
    checkDirection(context, [...path, "axis"]);
    for (const key of ["at", "from", "to"]) checkNamedPoint(context, [...path, key], pair, key);
  }
  checkTolerances(context, names);
  checkStowedAngle(context);
  checkEnds(context, [...LINKAGE, "jack"]);
  if (joints.length < names.length) return;
  checkHeld(context, bodies, joints);
  checkClosure(context, joints);
}

function checkBodyNames(context: Context, bodies: readonly string[]): void {
  checkCase(context, [...LINKAGE, "bodies"], bodies);
  const moving = movingNames(context);
  for (const name of bodies) {
    const path = [...LINKAGE, "bodies", name];
    if (AIRCRAFT.includes(name))
      report(context, path, `"${name}" is an aircraft, no body of the mechanism`, "another name");
    else if (moving.includes(name))
      report(context, path, `a moving part of the carrier is called "${name}" too`, "another name");
  }
}

/** A named point belongs to the carried aircraft; both aft pins are needed for their middle. */
function checkNamedPoint(context: Context, path: readonly string[], pair: readonly string[], key: string): void {
  const name = NAMED_POINTS.find((each) => each === wordAt(context, path));
  if (name === undefined) return;
  const owner = key === "from" ? pair[0] : key === "to" ? pair[1] : "carried";
  if (owner !== "carried" || !pair.includes("carried")) {
    report(
      context,
      path,
      `${name} is a point of the carried aircraft, which is not joined here`,
      "a point in stations",
    );
  }
  const needed = name === "aftPinCentre" ? ["aftPinLeft", "aftPinRight"] : [name];
  for (const point of needed) {
    if (keysAt(context, ["carried", "points", point]).length > 0) continue;
    report(context, path, `carried.points has no ${point}`, keysAt(context, ["carried", "points"]).join(", "));
  }
}

function checkTolerances(context: Context, joints: readonly string[]): void {
  const known = [...joints, "jack"];
  for (const name of keysAt(context, [...LINKAGE, "tolerances", "each"])) {
    if (known.includes(name)) continue;
    const near = nearest(name, known);
    const path = [...LINKAGE, "tolerances", "each", name];
    report(
      context,
      path,
      `unknown joint "${name}"${near === undefined ? "" : `; did you mean ${near}?`}`,
      known.join(", "),
    );
  }
}

function checkStowedAngle(context: Context): void {
  const travel = ["mechanism", "boom", "angle"];
  const [low, high] = ["stowed", "extended"].map((end) => quantityAt(context, [...travel, end])?.si);
  const path = [...LINKAGE, "stowed", "boomAngle"];
  const drawn = quantityAt(context, path)?.si;
  if (low === undefined || high === undefined || drawn === undefined || low >= high) return;
  if (drawn >= low - SLACK && drawn <= high + SLACK) return;
  const allowed = `${spell(low / DEGREE)} deg to ${spell(high / DEGREE)} deg`;
  report(context, path, "the mechanism is drawn outside of the boom's travel", allowed);
}

function checkEnds(context: Context, path: readonly string[]): void {
  const [from, to] = ["from", "to"].map((end) => pointAt(context, [...path, end]));
  if (from === undefined || to === undefined || distance(from, to) > 0) return;
  report(context, [...path, "to"], "both ends are the same point", "two points");
}

/** Every body hangs on a joint. */
function checkHeld(context: Context, bodies: readonly string[], joints: readonly Joint[]): void {
  const joined = new Set(joints.flatMap((joint) => joint.bodies));
  for (const body of bodies) {
    if (!joined.has(body))
      report(context, [...LINKAGE, "bodies", body], `no joint holds "${body}"`, "one joint or more");
  }
  const holding = joints.filter((joint) => joint.bodies.includes("carried"));
  if (holding.length === 0) report(context, JOINTS, "no joint holds the carried aircraft", "one at probeTip");
  const attached = [...LINKAGE, "attached"];
  if (holding.length === 1 && wordAt(context, attached) === "three point") {
    report(context, attached, "only one joint holds the carried aircraft", "single point, or a joint at the aft pins");
  }
}

/**
 * Whether the bodies meet in their joints as drawn: the probe tip at the end of the boom, a distance L from its hinge at the
 * stowed angle θ below the horizontal, and named points where the drawing shows them.
 *
 *     tip = hinge + L (cos θ, 0, −sin θ)      (FS, BL, WL)                                         (5)
 */
function checkClosure(context: Context, joints: readonly Joint[]): void {
  const probe =
    joints.find((joint) => wordAt(context, [...joint.path, "at"]) === "probeTip") ??
    joints.find((joint) => joint.name === "socket" && joint.bodies.includes("carried"));
  if (probe === undefined) return;
  const boom = probe.bodies.find((body) => body !== "carried")!;
  if (AIRCRAFT.includes(boom)) return;
  const hinge = joints.find((joint) => joint.bodies.includes("carrier") && joint.bodies.includes(boom));
  if (hinge === undefined) {
    report(
      context,
      JOINTS,
      `no joint holds "${boom}", which holds the probe, on the carrier`,
      "the root hinge of the boom",
    );
    return;
  }
  const root = pointAt(context, ["mechanism", "boom", "hinge"]);
  const length = quantityAt(context, ["mechanism", "boom", "length"])?.si;
  const angle = quantityAt(context, [...LINKAGE, "stowed", "boomAngle"])?.si;
  if (root === undefined) return;
  const drawnRoot = pointAt(context, [...hinge.path, "at"]);
  if (drawnRoot !== undefined && distance(drawnRoot, root) > CLOSURE) {
    const message = `the hinge lies ${millimetres(drawnRoot, root)} from mechanism.boom.hinge`;
    report(context, [...hinge.path, "at"], message, `within 1 mm of ${spellPoint(root)}`);
  }
  if (length === undefined || angle === undefined || isReported(context, [...LINKAGE, "stowed", "boomAngle"])) return;
  const tip: Point = [root[0] + length * Math.cos(angle), root[1], root[2] - length * Math.sin(angle)];
  compare(context, [...probe.path, "at"], tip, "the end of the boom");
  const placed = carriedPoints(context, tip);
  for (const { path } of joints) {
    const name = wordAt(context, [...path, "at"]);
    const point = name === undefined ? undefined : placed(name);
    if (point !== undefined) compare(context, [...path, "drawnAt"], point, `${name} of the carried aircraft`);
  }
}

const isReported = (context: Context, path: readonly string[]) =>
  context.issues.some((issue) => issue.path === path.join("."));

function compare(context: Context, path: readonly string[], point: Point, what: string): void {
  const drawn = pointAt(context, path);
  if (drawn === undefined || distance(drawn, point) <= CLOSURE) return;
  const message = `the linkage does not close at the stated pose: ${what} lies ${millimetres(drawn, point)} away`;
  report(context, path, message, `within 1 mm of ${spellPoint(point)}`);
}

/**
 * Named points of the carried aircraft in the carrier's stations, probe tip at `tip`, pitch θ nose up:
 *
 *     FS = FS_tip + ΔFS cos θ + ΔWL sin θ,   WL = WL_tip − ΔFS sin θ + ΔWL cos θ                   (6)
 */
function carriedPoints(context: Context, tip: Point): (name: string) => Point | undefined {
  const pitch = quantityAt(context, [...LINKAGE, "stowed", "carriedPitch"])?.si;
  const own = (name: string) => pointAt(context, ["carried", "points", name]);
  const probe = own("probeTip");
  return (name) => {
    const ends = name === "aftPinCentre" ? [own("aftPinLeft"), own("aftPinRight")] : [own(name), own(name)];
    const [a, b] = ends;
    if (pitch === undefined || probe === undefined || a === undefined || b === undefined) return undefined;
    const [x, y, z] = [0, 1, 2].map((k) => (a[k]! + b[k]!) / 2 - probe[k]!) as [number, number, number];
    const [sin, cos] = [Math.sin(pitch), Math.cos(pitch)];
    return [tip[0] + x * cos + z * sin, tip[1] + y, tip[2] - x * sin + z * cos];
  };
}

const distance = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
const millimetres = (a: Point, b: Point) => `${spell(1000 * distance(a, b))} mm`;
const spellPoint = (point: Point) => {
  const [FS, BL, WL] = point.map((value) => Number(value.toFixed(4)) + 0);
  return `FS ${FS} m, BL ${BL} m, WL ${WL} m`;
};
