import { nearest } from "../text/index.ts";
import type { Context } from "./context.ts";
import { checkCase, keysAt, lengthAt, pointAt, quantityAt, report, spell, wordAt } from "./context.ts";

const STUDY = ["studies", "hookon"];
const SOCKET = ["mechanism", "socket"];
const SOCKET_PARTS = ["funnel", "probe", "contact", "gimbal", "buffer"];
const ACTUATORS = ["control", "actuators"];
const CONTROLLERS = ["approach", "controllers"];

/** Names that the study refers to, and the parts of the pair that it needs. */
export function checkHookon(context: Context): void {
  if (keysAt(context, STUDY).length === 0) return;
  needed(context);
  name(context, ["condition"], keysAt(context, ["conditions"]), "condition");
  name(context, ["mass"], keysAt(context, ["carried", "massStates"]), "loading");
  const sigmas = keysAt(context, [...STUDY, "sigmas"]);
  checkCase(context, [...STUDY, "sigmas"], sigmas);
  checkCase(context, [...STUDY, "light", "classes"], keysAt(context, [...STUDY, "light", "classes"]));
  for (const path of [["design"], ["light", "sigma"], ["bothAtOnce", "sigma"]]) {
    name(context, path, sigmas, "intensity of sigmas");
  }
  const controllers = keysAt(context, CONTROLLERS);
  const seen = new Set<string>();
  for (let i = 0; i < lengthAt(context, [...STUDY, "controllers"]); i++) {
    const path = ["controllers", i];
    const word = wordAt(context, [...STUDY, ...path]);
    if (word !== undefined && seen.has(word)) {
      report(context, [...STUDY, ...path], `names the controller "${word}" twice`, "each controller once");
    }
    if (word !== undefined) seen.add(word);
    name(context, path, controllers, "controller");
  }
  name(context, ["bothAtOnce", "controller"], controllers, "controller");
  checkPlan(context);
}

/** The name at a path of the study is one of the known ones; nothing is said where none is known. */
function name(context: Context, path: readonly (string | number)[], known: readonly string[], what: string): void {
  const word = wordAt(context, [...STUDY, ...path]);
  if (word === undefined || known.length === 0 || known.includes(word)) return;
  const near = nearest(word, known);
  const message = `unknown ${what}${near === undefined ? "" : `; did you mean ${near}?`}`;
  report(context, [...STUDY, ...path], message, known.join(", "));
}

function needed(context: Context): void {
  const socket = keysAt(context, SOCKET);
  const missing = [
    ...SOCKET_PARTS.filter((part) => !socket.includes(part)).map((part) => `mechanism.socket.${part}`),
    ...(keysAt(context, ["mechanism", "latch"]).length === 0 ? ["mechanism.latch"] : []),
    ...(keysAt(context, ACTUATORS).length === 0 ? ["control.actuators"] : []),
    ...(keysAt(context, ["approach"]).length === 0 ? ["approach"] : []),
    ...(keysAt(context, ["studies", "hold"]).length === 0 ? ["studies.hold"] : []),
  ];
  if (missing.length === 0) return;
  report(context, STUDY, `needs ${missing.join(", ")}, which the pair leaves out`);
}

/** Plan against itself: the tried closures reach beyond the closure of breakaway, and the ring-down ends. */
function checkPlan(context: Context): void {
  const map = quantityAt(context, [...STUDY, "map", "closure"]);
  const criterion = quantityAt(context, [...STUDY, "criteria", "closure"]);
  if (map !== undefined && criterion !== undefined && map.si < 0.5 * criterion.si) {
    const message = "does not reach half the closure that the criterion allows";
    report(context, [...STUDY, "map", "closure"], message, `at least ${spell(0.5 * criterion.si)} m/s`);
  }
  const list = [...STUDY, "map", "angles"];
  for (let i = 1; i < lengthAt(context, list); i++) {
    const [before, angle] = [quantityAt(context, [...list, i - 1]), quantityAt(context, [...list, i])];
    if (before === undefined || angle === undefined || before.si < angle.si) continue;
    report(context, [...list, i], "the angles do not rise", `more than ${before.text}`);
  }
  const times = [...STUDY, "breakaway", "reactions"];
  for (let i = 1; i < lengthAt(context, times); i++) {
    const [before, time] = [quantityAt(context, [...times, i - 1]), quantityAt(context, [...times, i])];
    if (before === undefined || time === undefined || before.si < time.si) continue;
    report(context, [...times, i], "the times of reaction do not rise", `more than ${before.text}`);
  }
}

/** Sizes of funnel and probe against each other, directions that point somewhere, a gimbal that can tumble or not. */
export function checkSocket(context: Context): void {
  const si = (...path: string[]) => quantityAt(context, [...SOCKET, ...path])?.si;
  const [mouth, throat, head] = [si("funnel", "mouthRadius"), si("funnel", "throatRadius"), si("probe", "radius")];
  if (mouth !== undefined && throat !== undefined && !(throat < mouth)) {
    const allowed = `larger than ${spell(1000 * throat)} mm, the throat`;
    report(context, [...SOCKET, "funnel", "mouthRadius"], "the mouth is not wider than the throat", allowed);
  }
  if (head !== undefined && throat !== undefined && !(head < throat)) {
    const allowed = `less than ${spell(1000 * throat)} mm, the throat`;
    report(context, [...SOCKET, "probe", "radius"], "the head of the probe does not pass the throat", allowed);
  }
  const stem = si("probe", "stemRadius");
  if (head !== undefined && stem !== undefined && !(stem <= head)) {
    const allowed = `up to ${spell(1000 * head)} mm, the head`;
    report(context, [...SOCKET, "probe", "stemRadius"], "the stem is thicker than the head", allowed);
  }
  for (const path of [
    ["funnel", "mouth"],
    ["probe", "axis"],
  ]) {
    const direction = pointAt(context, [...SOCKET, ...path]);
    if (direction === undefined || Math.hypot(...direction) > 0) continue;
    report(context, [...SOCKET, ...path], "points nowhere", "a direction of any length but zero");
  }
  const [stop, tumbled] = [si("gimbal", "stop"), si("gimbal", "tumbled")];
  if (stop !== undefined && tumbled !== undefined && tumbled > stop * (1 + 1e-9)) {
    const allowed = `up to ${spell((180 * stop) / Math.PI)} deg, the stop`;
    report(context, [...SOCKET, "gimbal", "tumbled"], "lies beyond the stop, which is never reached", allowed);
  }
  const stroke = si("buffer", "stroke");
  if (stroke === 0) report(context, [...SOCKET, "buffer", "stroke"], "the buffer has no stroke", "larger than 0");
  checkLatch(context);
}

function checkLatch(context: Context): void {
  const path = ["mechanism", "latch"];
  const keys = keysAt(context, path);
  if (keys.length === 0) return;
  const [curve, energy, travel] = ["trip", "tripEnergy", "tripTravel"].map((key) => keys.includes(key));
  if (curve && (energy || travel)) {
    const message = "the work that trips it is given twice";
    report(context, path, message, "the curve trip, or tripEnergy with tripTravel");
  } else if (!curve && !(energy && travel)) {
    report(context, path, "does not say what trips it", "a curve trip, or tripEnergy with tripTravel");
  }
  checkTrip(context, [...path, "trip"]);
  const [locked, half] = ["holds", "holdsHalf"].map((key) => quantityAt(context, [...path, key]));
  if (locked !== undefined && half !== undefined && half.si > locked.si) {
    report(context, [...path, "holdsHalf"], "half-locked hooks hold more than locked ones", `up to ${locked.text}`);
  }
}

function checkTrip(context: Context, path: readonly string[]): void {
  const value = context.values.get(path.join("."));
  if (typeof value !== "object" || value.type !== "table" || value.rows === 0) return;
  const { travel, force } = value.columns;
  if (travel[0] !== 0) report(context, path, `${value.file} does not start at travel 0`, "a first row with travel 0");
  let work = 0;
  for (let i = 1; i < value.rows; i++) work += 0.5 * (force[i] + force[i - 1]) * (travel[i] - travel[i - 1]);
  if (!(work > 0)) report(context, path, `${value.file} needs no work to trip`, "forces above 0 over some travel");
}
