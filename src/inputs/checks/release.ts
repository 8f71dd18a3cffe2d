import { nearest } from "../text/index.ts";
import type { Context } from "./context.ts";
import { airspeedAt, checkCase, keysAt, lengthAt, quantityAt, report, tableAt, wordAt } from "./context.ts";
import { checkGrid } from "./grid.ts";

const STUDY = ["studies", "release"];
const AXES = ["aft", "right", "below", "alpha"];

/** Names that the study refers to, lists that rise, and the parts of the pair that it needs. */
export function checkRelease(context: Context): void {
  if (keysAt(context, STUDY).length === 0) return;
  needed(context);
  name(context, ["condition"], keysAt(context, ["conditions"]), "condition");
  checkMasses(context);
  const sigmas = keysAt(context, [...STUDY, "dispersion", "sigmas"]);
  checkCase(context, [...STUDY, "dispersion", "sigmas"], sigmas);
  name(context, ["dispersion", "design"], sigmas, "intensity of sigmas");
  checkCase(context, [...STUDY, "cases"], keysAt(context, [...STUDY, "cases"]));
  for (const one of keysAt(context, [...STUDY, "cases"])) checkChange(context, one);
  rising(context, ["envelope", "loadFactors"], "load factors");
  rising(context, ["envelope", "thrusts"], "thrusts");
  checkSpeeds(context);
  checkBodies(context);
  checkSequence(context);
  checkGrid(context, [...STUDY, "proximity"], AXES);
  checkReach(context);
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
  const socket = keysAt(context, ["mechanism", "socket"]);
  const missing = [
    ...(socket.includes("funnel") ? [] : ["mechanism.socket.funnel"]),
    ...(keysAt(context, ["mechanism", "latch"]).length === 0 ? ["mechanism.latch"] : []),
    ...(keysAt(context, ["studies", "hold"]).length === 0 ? ["studies.hold"] : []),
  ];
  if (missing.length === 0) return;
  report(context, STUDY, `needs ${missing.join(", ")}, which the pair leaves out`);
}

function checkMasses(context: Context): void {
  const known = keysAt(context, ["carried", "massStates"]);
  const seen = new Set<string>();
  for (let i = 0; i < lengthAt(context, [...STUDY, "masses"]); i++) {
    const path = ["masses", i];
    name(context, path, known, "loading");
    const word = wordAt(context, [...STUDY, ...path]);
    if (word !== undefined && seen.has(word)) {
      report(context, [...STUDY, ...path], `names the loading "${word}" twice`, "each loading once");
    }
    if (word !== undefined) seen.add(word);
  }
}

/** A case that says how long, but not what; a nose that stays with what only its command moves. */
function checkChange(context: Context, one: string): void {
  const path = [...STUDY, "cases", one];
  const keys = keysAt(context, path);
  for (const [needs, what] of [
    ["lateBy", "latePin"],
    ["gustLength", "gust"],
    ["carrierPullFor", "carrierPull"],
  ] as const) {
    if (keys.includes(needs) && !keys.includes(what)) {
      report(context, [...path, needs], `belongs to ${what}, which the case leaves out`, `${what} beside it`);
    }
  }
  if (keys.includes("latePin") && !keys.includes("lateBy")) {
    report(context, [...path, "latePin"], "does not say how late", "lateBy beside it");
  }
  const [stuck, late] = [wordAt(context, [...path, "stuckPin"]), wordAt(context, [...path, "latePin"])];
  if (stuck !== undefined && stuck === late) {
    report(context, [...path, "latePin"], `the ${late} pin is stuck in this case`, stuck === "left" ? "right" : "left");
  }
  const pins = ["stuckPin", "latePin"].filter((key) => keys.includes(key));
  if (wordAt(context, [...path, "attachment"]) === "single point" && pins.length > 0) {
    report(context, [...path, pins[0]], "no aft pin is latched in this case", "attachment: three point");
  }
}

function rising(context: Context, list: readonly string[], what: string): void {
  const path = [...STUDY, ...list];
  for (let i = 1; i < lengthAt(context, path); i++) {
    const [before, value] = [quantityAt(context, [...path, i - 1]), quantityAt(context, [...path, i])];
    if (before === undefined || value === undefined || before.si < value.si) continue;
    report(context, [...path, i], `the ${what} do not rise`, `more than ${before.text}`);
  }
}

function checkSpeeds(context: Context): void {
  const path = [...STUDY, "envelope", "airspeed"];
  const [from, to] = ["from", "to"].map((end) => airspeedAt(context, [...path, end]));
  if (from === undefined || to === undefined) return;
  if (from.kind !== to.kind) {
    report(
      context,
      [...path, "to"],
      `is ${to.kind}, the lowest airspeed is ${from.kind}`,
      "the same kind at both ends",
    );
  } else if (from.si >= to.si) {
    report(context, [...path, "to"], "is not above the lowest airspeed", `more than ${from.text}`);
  }
}

/** Bodies and groups that are named are drawn. */
function checkBodies(context: Context): void {
  const links = keysAt(context, ["mechanism", "linkage", "bodies"]);
  const away = [...STUDY, "sequence", "swungAway"];
  const moving = keysAt(context, ["carrier", "moving"]);
  const groups = moving.map((each) => wordAt(context, ["carrier", "moving", each, "group"]) ?? each);
  for (const group of keysAt(context, [...STUDY, "groups"])) {
    if (groups.includes(group) || groups.length === 0) continue;
    const near = nearest(group, groups);
    const message = `names no group of gear or doors${near === undefined ? "" : `; did you mean ${near}?`}`;
    report(context, [...STUDY, "groups", group], message, [...new Set(groups)].join(", "));
  }
  for (let i = 0; i < lengthAt(context, away); i++)
    name(context, ["sequence", "swungAway", i], links, "body of the linkage");
}

/** What the normal release does comes in its order. */
function checkSequence(context: Context): void {
  const [pins, nose] = ["aftPins", "nose"].map((key) => quantityAt(context, [...STUDY, "sequence", key]));
  const duration = quantityAt(context, [...STUDY, "duration"]);
  if (pins !== undefined && nose !== undefined && nose.si < pins.si) {
    report(context, [...STUDY, "sequence", "nose"], "the nose opens before the aft pins", `from ${pins.text} on`);
  }
  if (nose !== undefined && duration !== undefined && duration.si <= nose.si) {
    report(context, [...STUDY, "duration"], "ends before the nose opens", `more than ${nose.text}`);
  }
  const stub = quantityAt(context, [...STUDY, "severance", "stub"]);
  const stem = quantityAt(context, ["mechanism", "socket", "probe", "stemLength"]);
  if (stub !== undefined && stem !== undefined && stub.si > stem.si) {
    report(context, [...STUDY, "severance", "stub"], "is longer than the stem of the probe", `up to ${stem.text}`);
  }
}

/** A table with one place or one attitude holds nowhere else: a run would leave it at once. */
function checkReach(context: Context): void {
  const table = tableAt(context, [...STUDY, "proximity"]);
  if (table === undefined || table.rows === 0) return;
  for (const axis of AXES) {
    if (new Set(table.columns[axis]).size > 1) continue;
    report(context, [...STUDY, "proximity"], `${table.file} has one value of ${axis}`, "two or more");
  }
}
