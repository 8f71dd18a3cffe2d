import { nearest } from "../text/index.ts";
import type { UnitEntry } from "./units.table.ts";
import { AMBIGUOUS, OTHER_NAMES, PREFIXES, UNITS } from "./units.table.ts";

/** Every spelling that is understood, prefixed ones included. */
const SPELLINGS: ReadonlyMap<string, UnitEntry> = spellings();

function spellings(): Map<string, UnitEntry> {
  const all = new Map<string, UnitEntry>();
  for (const [name, entry] of UNITS) {
    for (const prefix of entry.prefixes ?? []) {
      all.set(prefix + name, { factor: PREFIXES.get(prefix)! * entry.factor, dimension: entry.dimension });
    }
  }
  for (const [name, entry] of UNITS) all.set(name, entry);
  return all;
}

/** The unit that `name` spells, or undefined. */
export function unitNamed(name: string): UnitEntry | undefined {
  return SPELLINGS.get(name);
}

/** What somebody who wrote the unknown unit `name` may have meant; a clause for a message, or undefined. */
export function unitHint(name: string): string | undefined {
  const ambiguous = AMBIGUOUS.get(name);
  if (ambiguous !== undefined) return ambiguous;
  const other = OTHER_NAMES.get(name);
  if (other !== undefined) return `did you mean ${other}?`;
  const power = /^(.*?)([2-9])$/.exec(name);
  if (power !== null && SPELLINGS.has(power[1]!)) return `did you mean ${power[1]!}^${power[2]!}?`;
  for (const spelling of SPELLINGS.keys()) {
    if (spelling.toLowerCase() === name.toLowerCase()) return `did you mean ${spelling}?`;
  }
  const lower = OTHER_NAMES.get(name.toLowerCase());
  if (lower !== undefined) return `did you mean ${lower}?`;
  for (let cut = 1; cut < name.length; cut++) {
    if (SPELLINGS.has(name.slice(0, cut)) && SPELLINGS.has(name.slice(cut))) {
      return `did you mean ${name.slice(0, cut)}*${name.slice(cut)}?`;
    }
  }
  const near = nearest(name, UNITS.keys());
  return near === undefined ? undefined : `did you mean ${near}?`;
}
