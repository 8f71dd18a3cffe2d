import type { Context } from "./context.ts";
import { checkCase, keysAt, quantityAt, report, spell, tableAt, wordAt } from "./context.ts";
import { checkGrid } from "./grid.ts";

const PATH = ["approach"] as const;
type Path = readonly string[];

const TICKS: readonly Path[] = [
  ["navigation", "interval"],
  ["navigation", "latency"],
  ["boomSteering", "delay"],
];

/** Pairs of which the second must not be smaller than the first, below `approach`. */
const IN_ORDER: readonly (readonly [Path, Path])[] = [
  [
    ["schedule", "preContact", "aft"],
    ["schedule", "observation", "aft"],
  ],
  [
    ["schedule", "goAround", "leastClosure"],
    ["schedule", "closure"],
  ],
  [
    ["schedule", "closure"],
    ["schedule", "goAround", "mostClosure"],
  ],
  [
    ["schedule", "goAround", "mostClosure"],
    ["breakaway", "closure"],
  ],
  [
    ["schedule", "alignment"],
    ["schedule", "goAround", "gate"],
  ],
  [
    ["schedule", "goAround", "within"],
    ["schedule", "preContact", "aft"],
  ],
  [
    ["schedule", "goAround", "overrun"],
    ["breakaway", "overrun"],
  ],
  [
    ["schedule", "goAround", "longestDropout"],
    ["breakaway", "dropout"],
  ],
  [
    ["thrust", "idle"],
    ["thrust", "most"],
  ],
  [
    ["hooked", "thrust"],
    ["thrust", "most"],
  ],
  [
    ["breakaway", "thrust"],
    ["thrust", "most"],
  ],
];

/** What the parts of an approach need of each other: whole ticks, limits that leave room, tables that are full grids. */
export function checkApproach(context: Context): void {
  if (keysAt(context, PATH).length === 0) return;
  checkControllers(context);
  checkTicks(context);
  for (const [low, high] of IN_ORDER) inOrder(context, low, high);
  checkGrid(context, [...PATH, "disturbances", "bowWave"], ["aft", "below"]);
  checkGrid(context, [...PATH, "disturbances", "wake"], ["aft", "right", "below"]);
  checkAxes(context, "bowWave", ["aft", "below"]);
  checkAxes(context, "wake", ["aft", "right", "below"]);
  if (keysAt(context, ["control", "actuators"]).length === 0) {
    const message = "needs control.actuators, which the pair leaves out";
    report(context, PATH, message, "control.actuators in the pair");
  }
  const gains = keysAt(context, ["control", "gains", "hooked"]);
  if (wordAt(context, [...PATH, "hooked", "law"]) === "gains" && gains.length === 0) {
    const message = "needs control.gains.hooked, which the pair leaves out";
    report(context, [...PATH, "hooked", "law"], message, "control.gains.hooked in the pair, or controls held");
  }
}

function checkControllers(context: Context): void {
  const path = [...PATH, "controllers"];
  const names = keysAt(context, path);
  checkCase(context, path, names);
  if (names.length === 0 && keysAt(context, PATH).includes("controllers")) {
    report(context, path, "names no controller", "one controller or more");
  }
  for (const name of names) {
    const lag = quantityAt(context, [...path, name, "neuromuscularLag"]);
    const tick = quantityAt(context, [...PATH, "tick"]);
    if (lag === undefined || tick === undefined || lag.si >= 0.5 * tick.si) continue;
    report(
      context,
      [...path, name, "neuromuscularLag"],
      "is shorter than half a tick",
      `${spell(0.5 * tick.si)} s or more`,
    );
  }
}

function checkTicks(context: Context): void {
  const tick = quantityAt(context, [...PATH, "tick"]);
  if (tick === undefined) return;
  const delays = keysAt(context, [...PATH, "controllers"]).map((name) => ["controllers", name, "delay"]);
  for (const below of [...TICKS, ...delays]) {
    const value = quantityAt(context, [...PATH, ...below]);
    if (value === undefined) continue;
    const count = value.si / tick.si;
    if (Math.abs(count - Math.round(count)) <= 1e-6) continue;
    report(context, [...PATH, ...below], "is no whole number of ticks", `a multiple of ${tick.text}`);
  }
}

function inOrder(context: Context, low: Path, high: Path): void {
  const least = quantityAt(context, [...PATH, ...low]);
  const most = quantityAt(context, [...PATH, ...high]);
  if (least === undefined || most === undefined || least.si <= most.si) return;
  const message = `is smaller than approach.${low.join(".")}`;
  report(context, [...PATH, ...high], message, `${least.text} or more`);
}

/** One place along an axis says nothing about how the flow changes along it. */
function checkAxes(context: Context, key: string, axes: readonly string[]): void {
  const path = [...PATH, "disturbances", key];
  const table = tableAt(context, path);
  if (table === undefined || table.rows === 0) return;
  for (const axis of axes) {
    if (new Set(table.columns[axis]).size >= 2) continue;
    report(context, path, `${table.file} has one place ${axis} only`, "two or more along each axis");
  }
}
