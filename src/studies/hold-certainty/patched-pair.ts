import type { Airspeed, Pair, Quantity } from "../../inputs/index.ts";
import { BugError } from "../../math/errors.ts";

/** A value of the pair that carries an uncertainty. */
export type Uncertain = (Quantity | Airspeed) & { readonly uncertainty: NonNullable<Quantity["uncertainty"]> };

type Changeable = { -readonly [K in keyof Quantity]: Quantity[K] };

/** A copy of a pair in which the uncertain values can be set. */
export interface PatchedPair {
  readonly pair: Pair;
  /** Every uncertain value of the pair, by path, as it was written. */
  readonly uncertain: ReadonlyMap<string, Uncertain>;
  /** Sets a value. @throws {BugError} for a path that carries no uncertainty */
  set(path: string, si: number): void;
}

function isValue(part: object): part is Quantity | Airspeed {
  return "type" in part && (part.type === "quantity" || part.type === "airspeed");
}

/**
 * Copies the maps and lists of a pair, and its uncertain values; everything else is shared.
 *
 * Reading the copy again is how a sample becomes physics arguments: no list of setters has to follow the form of the pair.
 */
export function patchedPair(pair: Pair): PatchedPair {
  const changeable = new Map<string, Changeable>();
  const uncertain = new Map<string, Uncertain>();
  const copy = (part: unknown): unknown => {
    if (typeof part !== "object" || part === null) return part;
    if (Array.isArray(part)) return part.map(copy);
    if (isValue(part)) {
      if (part.uncertainty === undefined) return part;
      const own = { ...part } as Changeable;
      changeable.set(part.path, own);
      uncertain.set(part.path, part as Uncertain);
      return own;
    }
    if ("type" in part && (part.type === "table" || part.type === "mesh")) return part;
    return Object.fromEntries(Object.entries(part).map(([key, value]) => [key, copy(value)]));
  };
  const copied = copy(pair) as Pair;
  return {
    pair: copied,
    uncertain,
    set(path, si) {
      const value = changeable.get(path);
      if (value === undefined) throw new BugError(`${path} is no uncertain value`);
      value.si = si;
    },
  };
}
