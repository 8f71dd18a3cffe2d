import type { Context } from "./context.ts";
import { keysAt, lengthAt, quantityAt, report, spell, wordAt } from "./context.ts";

const STUDY = ["studies", "balance"];
const MISSION = [...STUDY, "mission"];

/** Aircraft and boom at the end of a leg. */
type Place = "aboard, stowed" | "aboard, extended" | "away, boom stowed" | "away, boom extended";

/** From where each state may begin; and where it ends. */
const STATES: Readonly<Record<string, { readonly after: readonly Place[]; readonly ends: Place }>> = {
  stowed: { after: ["aboard, stowed"], ends: "aboard, stowed" },
  lowering: { after: ["aboard, stowed"], ends: "aboard, extended" },
  extended: { after: ["aboard, extended", "away, boom extended"], ends: "aboard, extended" },
  raising: { after: ["aboard, extended"], ends: "aboard, stowed" },
  away: { after: ["aboard, extended", "away, boom stowed", "away, boom extended"], ends: "away, boom stowed" },
};

/** Legs in an order that can be flown, with the fuel that is there. */
export function checkMission(context: Context): void {
  checkOrder(context);
  checkFuelUsed(context);
}

function checkOrder(context: Context): void {
  let place: Place | undefined;
  const count = lengthAt(context, MISSION);
  for (let i = 0; i < count; i++) {
    const path = [...MISSION, i];
    const state = wordAt(context, [...path, "aircraft"]);
    checkKeys(context, path, state);
    const rule = state === undefined ? undefined : STATES[state];
    if (state === undefined || rule === undefined) {
      place = undefined;
      continue;
    }
    const boom = wordAt(context, [...path, "boom"]);
    if (i === 0 && state !== "stowed" && state !== "away") {
      const message = "the mission starts on the ground, with the boom stowed";
      report(context, [...path, "aircraft"], message, "stowed, away");
    } else if (place !== undefined && !rule.after.includes(place)) {
      const name = wordAt(context, [...MISSION, i - 1, "name"]) ?? String(i);
      const next = Object.keys(STATES).filter((one) => STATES[one]!.after.includes(place!));
      const message = `cannot follow the leg "${name}", which ends with the aircraft ${place}`;
      report(context, [...path, "aircraft"], message, next.join(", "));
    }
    place = state === "away" && boom === "extended" ? "away, boom extended" : rule.ends;
  }
  if (count > 0 && (place === "aboard, extended" || place === "away, boom extended")) {
    const message = "the mission ends with the boom extended, which cannot land";
    report(context, [...MISSION, count - 1, "aircraft"], message, "stowed, raising, or away with the boom stowed");
  }
}

/** Keys that say nothing in this state. */
function checkKeys(context: Context, path: readonly (string | number)[], state: string | undefined): void {
  if (state === undefined) return;
  const keys = keysAt(context, path);
  for (const key of ["held", "weightShare"]) {
    if (!keys.includes(key) || state === "extended") continue;
    report(context, [...path, key], `means nothing while the aircraft is ${state}`, "with aircraft: extended alone");
  }
  if (keys.includes("boom") && state !== "away") {
    report(context, [...path, "boom"], `means nothing while the aircraft is ${state}`, "with aircraft: away alone");
  }
  const share = quantityAt(context, [...path, "weightShare"]);
  if (share === undefined || share.si >= 0) return;
  report(context, [...path, "weightShare"], "is negative: the boom would push the aircraft down", "0 to 100 %");
}

/** Said once, at the leg in which the tanks run empty. */
function checkFuelUsed(context: Context): void {
  let left = 0;
  for (const tank of keysAt(context, [...STUDY, "fuel"])) {
    const fuel = quantityAt(context, [...STUDY, "fuel", tank]);
    if (fuel === undefined) return;
    left += fuel.si;
  }
  for (let i = 0; i < lengthAt(context, MISSION); i++) {
    const used = quantityAt(context, [...MISSION, i, "fuel"]);
    if (used === undefined) return;
    left -= used.si;
    if (left >= -1e-6) continue;
    const name = wordAt(context, [...MISSION, i, "name"]) ?? String(i + 1);
    const message = `the tanks run empty in the leg "${name}": ${spell(-left)} kg are missing at its end`;
    report(context, [...MISSION, i, "fuel"], message, `up to ${spell(left + used.si)} kg`);
    return;
  }
}
