/** The order of moves that a map permits, in words. */
import type { FitResult, GearMap, ZoneResult } from "../../studies/fit/types.ts";
import { pairName, partName, sidelessName, wordsOf } from "../names/index.ts";
import { millimetres } from "./matrix.ts";

/** Name of a map: the group, and what is held. */
export function mapName({ group, held }: GearMap): string {
  return held === null
    ? `${wordsOf(group)} × stroke`
    : `${wordsOf(group)} × stroke, ${wordsOf(held.body)} held at ${Math.round(100 * held.fraction_1)} %`;
}

/** Where groups stand while something else moves: `gear as drawn, bay doors extended`. */
export function standing(groups: readonly { readonly group: string; readonly standsAt_1: number }[]): string {
  const place = (at: number) => (at === 0 ? "as drawn" : at === 1 ? "extended" : `at ${(100 * at).toFixed(0)} %`);
  return groups.map(({ group, standsAt_1 }) => `${wordsOf(group)} ${place(standsAt_1)}`).join(", ");
}

/** Shares of the cells by state, those that occur: `free 73.6 %, near 9.6 %`. */
export function cellShares({ counts, state }: GearMap): string {
  return (["free", "near", "collides", "unresolved"] as const)
    .filter((one) => counts[one] > 0)
    .map((one) => `${one} ${((100 * counts[one]) / state.length).toFixed(1)} %`)
    .join(", ");
}

/** How many separate sets of free and near cells there are. */
export function regionCount({ regions }: GearMap): string {
  if (regions.length === 0) return "no region to move in";
  return regions.length === 1 ? "one region to move in" : `${regions.length} regions to move in`;
}

/** What limits the path, in one sentence; null without a path. */
export function pathSummary({ path }: GearMap): string | null {
  if (path === null) return null;
  const pair = path.leastPair === null ? "" : ` (${pairName(path.leastPair)})`;
  const near = path.throughNear ? "; it leads through near cells" : "";
  return `Certified least clearance on the way: ${millimetres(path.leastClearance_m)} mm${pair}${near}.`;
}

/** Steps in one line, each a sentence with its number. */
export function numbered(steps: readonly string[]): string {
  return steps.map((step, i) => `${i + 1}. ${step}`).join(" ");
}

/** What the two ends of a group's travel are called. */
export function travelEnds(group: string): readonly [string, string] {
  return /door/i.test(group) ? ["closed", "open"] : ["retracted", "extended"];
}

/** A map with a member that is stuck, mirrored ones that came out alike together. */
export interface HeldRow {
  readonly map: GearMap;
  /** `main gear, either side`, `bay door right`. */
  readonly name: string;
  readonly at: string;
  /** Ranges of the group's travel at which the boom may use its whole stroke. */
  readonly boom: string;
  /** Boom angles at which the others may use their whole travel. */
  readonly others: string;
}

/** Ranges in which something may move, one decimal, rounded inwards so that none is printed wider than it is. */
function ranges(all: readonly (readonly [number, number])[], factor: number, unit: string): string {
  const inwards = ([a, b]: readonly [number, number]) => {
    const [low, high] = [factor * Math.min(a, b), factor * Math.max(a, b)];
    const from = Math.ceil(10 * low - 1e-6) / 10;
    const to = Math.floor(10 * high + 1e-6) / 10;
    return `${from.toFixed(1)}${unit} to ${to.toFixed(1)}${unit}`;
  };
  return all.length === 0 ? "none" : all.map(inwards).join(", ");
}

/** Rows of all maps with a stuck member, those without a way out first. */
export function heldRows(maps: readonly GearMap[]): HeldRow[] {
  const found = new Map<string, HeldRow>();
  for (const map of maps) {
    if (map.held === null) continue;
    const { body, fraction_1 } = map.held;
    const [boom, others] = [ranges(map.boomMayMove_1, 100, " %"), ranges(map.groupMayMove_deg, 1, "°")];
    const bare = sidelessName(body);
    const key = [map.group, bare, fraction_1, map.path?.steps.join(" ") ?? "", boom, others].join("|");
    const name = found.has(key) ? `${bare}, either side` : partName(body);
    found.set(key, { map: found.get(key)?.map ?? map, name, at: `${Math.round(100 * fraction_1)} %`, boom, others });
  }
  const open = ({ map }: HeldRow) => (map.path === null ? 0 : map.counts.free + map.counts.near);
  return [...found.values()].sort((a, b) => open(a) - open(b));
}

/** At which boom angles the whole group may move, and at which of its travels the boom may. */
export function mayMove({ group, groupMayMove_deg, boomMayMove_1 }: GearMap): string {
  const name = wordsOf(group);
  const [angles, travels] = [ranges(groupMayMove_deg, 1, "°"), ranges(boomMayMove_1, 100, " %")];
  const first = angles === "none" ? "at no boom angle" : `at boom angles ${angles}`;
  const second = travels === "none" ? `at no travel of the ${name}` : `with the ${name} at ${travels}`;
  return `The ${name} may move through the whole travel ${first}; the boom may move through the whole stroke ${second}.`;
}

/** Why there is no path. */
export function refusal({ path, noPathBecause }: GearMap): string | null {
  if (path !== null) return null;
  return `No safe order of moves${noPathBecause === null ? "" : `: ${noPathBecause.replace(/\.$/, "")}`}.`;
}

/** Angles between which a part is in a zone: `14.0° to 21.5°`. */
export function zoneStretches({ angles_deg }: ZoneResult): string {
  return angles_deg.map(([from, to]) => `${from.toFixed(1)}° to ${to.toFixed(1)}°`).join(", ");
}

/** Every part inside a zone; of the others the nearest to each zone, mirrored zones together. */
export function telling(zones: readonly ZoneResult[]): ZoneResult[] {
  const nearest = new Map<string, ZoneResult>();
  for (const zone of zones) {
    if (zone.inside) continue;
    const name = sidelessName(zone.zone);
    const other = nearest.get(name);
    if (other === undefined || zone.least_m < other.least_m) nearest.set(name, zone);
  }
  return [...zones.filter(({ inside }) => inside), ...nearest.values()];
}

/** Pairs that were not looked at, gathered by the reason. */
export function leftOutWords(leftOut: FitResult["leftOut"]): string[] {
  const found = new Map<string, string[]>();
  for (const { pair, because } of leftOut) found.set(because, [...(found.get(because) ?? []), pairName(pair)]);
  return [...found].map(([because, pairs]) => `${because}: ${pairs.join("; ")}`);
}
