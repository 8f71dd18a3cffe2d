import { nearest } from "../text/index.ts";
import { checkMission } from "./balance-mission.ts";
import type { Context } from "./context.ts";
import { checkCase, isFaulty, keysAt, lengthAt, quantityAt, report, spell, tableAt, wordAt } from "./context.ts";

const WEIGHTS = ["carrier", "weights"];
const TANKS = [...WEIGHTS, "tanks"];
const STUDY = ["studies", "balance"];

/** Weights of the carrier against each other; settings of the study `balance` against them. */
export function checkBalance(context: Context): void {
  if (keysAt(context, WEIGHTS).length > 0) checkWeights(context);
  checkElevator(context);
  if (keysAt(context, STUDY).length === 0) return;
  if (keysAt(context, WEIGHTS).length === 0) {
    report(context, STUDY, "needs carrier.weights, which the pair leaves out");
    return;
  }
  checkName(context, [...STUDY, "condition"], keysAt(context, ["conditions"]), "condition");
  for (const when of ["out", "back", "light"]) {
    checkName(context, [...STUDY, "carried", when], keysAt(context, ["carried", "massStates"]), "loading");
  }
  checkFuel(context);
  checkMission(context);
  checkStuck(context);
  const [least, most] = ["from", "to"].map((end) => quantityAt(context, [...STUDY, "criteria", "noseShare", end]));
  if (least !== undefined && most !== undefined && !(least.si < most.si)) {
    report(
      context,
      [...STUDY, "criteria", "noseShare", "to"],
      "the range does not run upwards",
      `more than ${least.text}`,
    );
  }
}

/** The name at a path is one of the known ones. */
function checkName(
  context: Context,
  path: readonly (string | number)[],
  known: readonly string[],
  what: string,
): boolean {
  const word = wordAt(context, path);
  if (word === undefined || known.includes(word)) return true;
  const near = nearest(word, known);
  report(
    context,
    path,
    `unknown ${what}${near === undefined ? "" : `; did you mean ${near}?`}`,
    known.join(", ") || "none",
  );
  return false;
}

function checkWeights(context: Context): void {
  const tanks = keysAt(context, TANKS);
  checkCase(context, TANKS, tanks);
  for (const group of ["crew", "payload"])
    checkCase(context, [...WEIGHTS, group], keysAt(context, [...WEIGHTS, group]));
  for (const tank of tanks) checkTank(context, [...TANKS, tank]);
  checkBurnOrder(context, tanks);
  checkEnvelope(context);
  const largest = (key: string) => quantityAt(context, [...WEIGHTS, "largest", key]);
  for (const [less, more] of [
    ["zeroFuel", "landing"],
    ["landing", "takeOff"],
  ] as const) {
    const [a, b] = [largest(less), largest(more)];
    if (a === undefined || b === undefined || a.si <= b.si) continue;
    report(context, [...WEIGHTS, "largest", less], `is larger than ${more}`, `up to ${b.text}`);
  }
  const [whole, swings] = [["mass"], ["boom", "mass"]].map((key) => quantityAt(context, [...WEIGHTS, "kit", ...key]));
  if (whole !== undefined && swings !== undefined && swings.si > whole.si) {
    const message = "what swings with the boom is heavier than the kit that it is a part of";
    report(context, [...WEIGHTS, "kit", "boom", "mass"], message, `up to ${whole.text}`);
  }
}

/** One place for its fuel, or a table that covers it from empty to full. */
function checkTank(context: Context, path: readonly string[]): void {
  const keys = keysAt(context, path);
  if (keys.includes("at") === keys.includes("stations")) {
    const message = keys.includes("at") ? "the centre of its fuel is given twice" : "does not say where its fuel is";
    report(context, path, message, "either at, or stations");
  }
  const table = tableAt(context, [...path, "stations"]);
  const capacity = quantityAt(context, [...path, "capacity"]);
  if (table === undefined || capacity === undefined || table.rows === 0) return;
  const { contents } = table.columns;
  const [first, last] = [contents![0]!, contents![table.rows - 1]!];
  if (first === 0 && last >= capacity.si * (1 - 1e-9)) return;
  const found = `it runs from ${spell(first)} kg to ${spell(last)} kg`;
  const message = `the contents in ${table.file} do not run from empty to full: ${found}`;
  report(context, [...path, "stations"], message, `0 to ${spell(capacity.si)} kg`);
}

/** Every tank once, none that does not exist. */
function checkBurnOrder(context: Context, tanks: readonly string[]): void {
  const path = [...WEIGHTS, "burnOrder"];
  const seen = new Set<string>();
  for (let i = 0; i < lengthAt(context, path); i++) {
    for (let k = 0; k < lengthAt(context, [...path, i]); k++) {
      const at = [...path, i, k];
      const tank = wordAt(context, at);
      if (tank === undefined || !checkName(context, at, tanks, "tank")) continue;
      if (seen.has(tank)) report(context, at, "is named a second time", "each tank once");
      seen.add(tank);
    }
  }
  const left = tanks.filter((tank) => !seen.has(tank));
  if (left.length === 0 || lengthAt(context, path) === 0) return;
  report(
    context,
    path,
    `leaves out ${left.join(", ")}: their fuel could not be used`,
    `every tank: ${tanks.join(", ")}`,
  );
}

/** The forward limit stays ahead of the aft limit. */
function checkEnvelope(context: Context): void {
  const path = [...WEIGHTS, "envelope"];
  const table = tableAt(context, path);
  if (table === undefined) return;
  const { mass, forward, aft } = table.columns;
  for (let i = 0; i < table.rows; i++) {
    if (forward![i]! < aft![i]!) continue;
    const found = `forward ${spell(100 * forward![i]!)} %, aft ${spell(100 * aft![i]!)} % at ${spell(mass![i]!)} kg`;
    report(context, path, `the limits in ${table.file} cross: ${found}`, "forward smaller than aft in every row");
    return;
  }
}

/** Control power is either known or not. */
function checkElevator(context: Context): void {
  const path = ["carrier", "dynamics", "derivatives"];
  const [lift, moment] = [
    ["lift", "CLelevator"],
    ["pitch", "Cmelevator"],
  ].map((key) => quantityAt(context, [...path, ...key]));
  if ((lift === undefined) === (moment === undefined)) return;
  const [there, missing] = lift === undefined ? ["Cmelevator", "CLelevator"] : ["CLelevator", "Cmelevator"];
  report(context, path, `has ${there} without ${missing}: the change of trim needs both`, "both or neither");
}

function checkFuel(context: Context): void {
  const path = [...STUDY, "fuel"];
  const tanks = keysAt(context, TANKS);
  for (const tank of keysAt(context, path)) {
    const at = [...path, tank];
    if (!tanks.includes(tank)) {
      const near = nearest(tank, tanks);
      report(context, at, `unknown tank${near === undefined ? "" : `; did you mean ${near}?`}`, tanks.join(", "));
      continue;
    }
    const [fuel, capacity] = [quantityAt(context, at), quantityAt(context, [...TANKS, tank, "capacity"])];
    if (fuel === undefined || capacity === undefined || fuel.si <= capacity.si) continue;
    report(context, at, "is more than the tank holds", `up to ${capacity.text}`);
  }
}

/** Angles at which the boom may stick lie on its stroke, each once. */
function checkStuck(context: Context): void {
  const ends = ["stowed", "extended"].map((end) => quantityAt(context, ["mechanism", "boom", "angle", end]));
  const seen = new Set<number>();
  for (let i = 0; i < lengthAt(context, [...STUDY, "stuck"]); i++) {
    const at = [...STUDY, "stuck", i];
    const angle = quantityAt(context, at);
    if (angle === undefined || isFaulty(context, at.join("."))) continue;
    if (seen.has(angle.si)) report(context, at, "is named a second time", "each angle once");
    seen.add(angle.si);
    const [a, b] = ends;
    if (a === undefined || b === undefined) continue;
    const [low, high] = [Math.min(a.si, b.si), Math.max(a.si, b.si)];
    if (angle.si >= low - 1e-9 && angle.si <= high + 1e-9) continue;
    report(context, at, "lies outside stowed to extended", `${a.text} to ${b.text}`);
  }
}
