import type { Context } from "./context.ts";
import { airspeedAt, keysAt, lengthAt, quantityAt, report, spell, wordAt } from "./context.ts";

/** Sea-level density of the standard atmosphere [kg/m³] and standard gravity [m/s²]. */
const SEA_LEVEL_DENSITY = 1.225;
const GRAVITY = 9.80665;

/** A loading with its stall as equivalent airspeed [m/s]. */
interface Stall {
  readonly name: string;
  readonly speed: number;
}

/**
 * Equivalent airspeeds below the stall.
 *
 * The airspeed of a condition must exceed the stall of each of its loadings; the speed band of a study must not start
 * below the stall of all loadings of a condition, because no point of the pair could be flown there. Other kinds of
 * airspeed need an atmosphere; the studies check those.
 */
export function checkStall(context: Context): void {
  const stalls = new Map(keysAt(context, ["conditions"]).map((name) => [name, stallsOf(context, name)]));
  for (const [condition, list] of stalls) {
    const path = ["conditions", condition, "airspeed"];
    const speed = airspeedAt(context, path);
    const slow = speed?.kind === "EAS" ? list.filter((each) => speed.si < each.speed) : [];
    if (slow.length > 0)
      report(context, path, `is below the stall of ${spellStalls(slow)}`, "airspeeds above the stall");
  }
  checkBand(context, stalls);
}

function checkBand(context: Context, stalls: ReadonlyMap<string, readonly Stall[]>): void {
  const hold = ["studies", "hold"];
  const path = [...hold, "speedBand", "from"];
  const from = airspeedAt(context, path);
  if (from?.kind !== "EAS") return;
  for (let i = 0; i < lengthAt(context, [...hold, "conditions"]); i++) {
    const condition = wordAt(context, [...hold, "conditions", i]) ?? "";
    const list = stalls.get(condition) ?? [];
    if (list.length === 0 || list.some((each) => from.si >= each.speed)) continue;
    const message = `is below the stall of every loading of ${condition}: ${spellStalls(list)}`;
    report(context, path, message, "airspeeds above the stall");
  }
}

/**
 * Stall of the loadings of a condition.
 *
 *     V = sqrt(2 m g (1 − s)/(ρ0 S CLmax))                                            (3)
 *
 * with s the share of the weight that the mechanism holds.
 *
 * @returns the loadings whose mass could be read, equivalent airspeeds [m/s]
 */
function stallsOf(context: Context, condition: string): Stall[] {
  const path = ["conditions", condition];
  const area = quantityAt(context, ["carried", "reference", "area"])?.si;
  const lift = quantityAt(context, ["carried", "CLmax"])?.si;
  const share = quantityAt(context, [...path, "weightShare"])?.si;
  const found: Stall[] = [];
  if (area === undefined || lift === undefined || share === undefined) return found;
  for (let i = 0; i < lengthAt(context, [...path, "masses"]); i++) {
    const name = wordAt(context, [...path, "masses", i]);
    const mass = name === undefined ? undefined : quantityAt(context, ["carried", "massStates", name, "mass"])?.si;
    if (name === undefined || mass === undefined) continue;
    const speed = Math.sqrt((2 * mass * GRAVITY * (1 - share)) / (SEA_LEVEL_DENSITY * area * lift));
    found.push({ name, speed });
  }
  return found;
}

function spellStalls(list: readonly Stall[]): string {
  return list.map(({ name, speed }) => `${name} at ${spell(speed)} m/s EAS`).join(", ");
}
