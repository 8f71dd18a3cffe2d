import type { Context } from "./context.ts";
import { keysAt, quantityAt, report, spell, wordAt } from "./context.ts";

const AT = ["mechanism", "hydraulics"];
const STUDY = ["studies", "hold", "snubber"];
const ZERO = 273.15;

/** Pressures, viscosities and passages of the snubber against each other, and the study against the hardware. */
export function checkHydraulics(context: Context): void {
  if (keysAt(context, STUDY).length > 0 && keysAt(context, AT).length === 0) {
    report(context, STUDY, "needs mechanism.hydraulics, which says what the snubber is made of");
  }
  checkViscosity(context);
  checkPressures(context);
  checkGap(context);
  checkTemperatures(context);
  checkAmplitude(context);
}

function checkViscosity(context: Context): void {
  const path = [...AT, "fluid", "viscosity"];
  const at = (which: string, key: string) => quantityAt(context, [...path, which, key])?.si;
  const [cold, warm] = [at("cold", "temperature"), at("warm", "temperature")];
  if (cold !== undefined && warm !== undefined && !(cold < warm)) {
    const allowed = `above ${spell(cold - ZERO)} degC, that of the colder viscosity`;
    report(context, [...path, "warm", "temperature"], "the two viscosities stand in the wrong order", allowed);
  }
  const [thick, thin] = [at("cold", "value"), at("warm", "value")];
  if (thick !== undefined && thin !== undefined && !(thick > thin)) {
    const allowed = `below ${spell(thick * 1e6)} mm^2/s: oil gets thinner when it gets warm`;
    report(context, [...path, "warm", "value"], "the warmer oil is not the thinner one", allowed);
  }
}

function checkPressures(context: Context): void {
  const si = (path: readonly string[]) => quantityAt(context, [...AT, ...path])?.si;
  const supply = si(["jack", "supplyPressure"]);
  if (supply === undefined) return;
  const allowed = `below ${spell(supply / 1e6)} MPa, the supply pressure`;
  const against: [string[], string][] = [
    [["accumulator", "precharge"], "the precharge is above the supply pressure: no oil ever enters the accumulator"],
    [["jack", "counterPressure"], "the counter pressure is above the supply pressure"],
    [["snubber", "relief", "pressure"], "the relief valve opens above the supply pressure"],
  ];
  for (const [path, message] of against) {
    const value = si(path);
    if (value !== undefined && !(value < supply)) report(context, [...AT, ...path], message, allowed);
  }
}

function checkGap(context: Context): void {
  const path = [...AT, "snubber", "bleed"];
  if (wordAt(context, [...path, "kind"]) !== "annular gap") return;
  const diameter = quantityAt(context, [...path, "diameter"])?.si;
  const width = quantityAt(context, [...path, "width"])?.si;
  if (diameter === undefined || width === undefined || width < diameter / 2) return;
  report(context, [...path, "width"], "the gap is as wide as its radius", `below ${spell(500 * diameter)} mm`);
}

function checkTemperatures(context: Context): void {
  const path = [...STUDY, "temperatures"];
  const at = (key: string) => quantityAt(context, [...path, key])?.si;
  const [cold, normal, hot] = [at("cold"), at("normal"), at("hot")];
  if (cold !== undefined && normal !== undefined && !(cold < normal)) {
    const allowed = `above ${spell(cold - ZERO)} degC, the coldest`;
    report(context, [...path, "normal"], "the normal oil is not warmer than the coldest", allowed);
  }
  if (normal !== undefined && hot !== undefined && !(normal < hot)) {
    const allowed = `above ${spell(normal - ZERO)} degC, the normal one`;
    report(context, [...path, "hot"], "the hottest oil is not warmer than the normal one", allowed);
  }
}

/** Motion larger than what is looked for cannot be judged. */
function checkAmplitude(context: Context): void {
  const limit = quantityAt(context, [...STUDY, "criteria", "nodding"])?.si;
  const largest = quantityAt(context, [...STUDY, "largestAmplitude"])?.si;
  if (limit === undefined || largest === undefined || largest >= limit) return;
  const allowed = `at least ${spell(1e3 * limit)} mm, the criterion of the nodding`;
  report(context, [...STUDY, "largestAmplitude"], "is smaller than the nodding that the criterion allows", allowed);
}
