import type { Context } from "./context.ts";
import { keysAt, quantityAt, report, spell } from "./context.ts";

/** Length, centres of gravity and points of the carried aircraft against each other. */
export function checkGeometry(context: Context): void {
  const from = quantityAt(context, ["carried", "length", "from"])?.si;
  const to = quantityAt(context, ["carried", "length", "to"])?.si;
  if (from === undefined || to === undefined) return;
  if (!(from < to)) {
    report(context, ["carried", "length", "to"], "the tail does not lie aft of the nose", `more than ${spell(from)} m`);
    return;
  }
  const span = quantityAt(context, ["carried", "reference", "span"])?.si;
  for (const state of keysAt(context, ["carried", "massStates"])) {
    const path = ["carried", "massStates", state, "cg"];
    within(context, [...path, "FS"], from, to, "the c.g. lies outside the stated length");
    if (span !== undefined) within(context, [...path, "BL"], -span / 2, span / 2, "the c.g. lies outside the span");
    within(context, [...path, "WL"], from - to, to - from, "the c.g. lies more than a length above or below the datum");
  }
  const length = to - from;
  for (const point of keysAt(context, ["carried", "points"])) {
    const path = ["carried", "points", point];
    within(context, [...path, "FS"], from - length, to + length, "lies more than a length away from the aircraft");
    for (const axis of ["BL", "WL"]) {
      within(context, [...path, axis], -length, length, "lies more than a length away from the aircraft");
    }
  }
}

function within(context: Context, path: readonly string[], low: number, high: number, message: string): void {
  const value = quantityAt(context, path);
  if (value === undefined || (value.si >= low && value.si <= high)) return;
  report(context, path, message, `${spell(low)} m to ${spell(high)} m`);
}
