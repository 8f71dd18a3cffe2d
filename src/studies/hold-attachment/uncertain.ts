import type { Pair, Quantity } from "../../inputs/index.ts";
import { type HoldInputs, type OpenReads, readHoldInputs } from "../hold/index.ts";

/** A value of the pair that states how far it may be off. */
export interface UncertainValue {
  readonly path: string;
  readonly value: number;
  /** Standard deviation, SI. */
  readonly sigma: number;
  /** Largest deviation that its distribution allows, SI; Infinity for a normal one. */
  readonly most: number;
}

/**
 * Values among some pair paths that state an uncertainty.
 *
 * @param open  opens a view of the pair
 * @param paths pair paths, repeats allowed
 */
export function uncertainValues(open: OpenReads, paths: readonly string[]): UncertainValue[] {
  const { pair } = open();
  return [...new Set(paths)].sort().flatMap((path) => {
    const found = at(pair, path);
    if (found === null || found.uncertainty === undefined || !(found.uncertainty.sigma > 0)) return [];
    const { sigma, halfWidth } = found.uncertainty;
    return [{ path, value: found.si, sigma, most: halfWidth ?? Number.POSITIVE_INFINITY }];
  });
}

function at(pair: Pair, path: string): Quantity | null {
  let node: unknown = pair;
  for (const key of path.split(".")) {
    if (typeof node !== "object" || node === null) return null;
    node = (node as Record<string, unknown>)[key];
  }
  const found = node as Partial<Quantity> | undefined;
  return found?.type === "quantity" ? (found as Quantity) : null;
}

/**
 * Inputs of `hold` with one value of the pair changed; everything that follows from it follows.
 *
 * @param open  opens a view of the pair
 * @param path  pair path of a quantity
 * @param value new value, SI
 */
export function inputsWith(open: OpenReads, path: string, value: number): HoldInputs {
  const { pair } = open();
  const changed = put(pair, path.split("."), value) as Pair;
  return readHoldInputs(() => ({ pair: changed, paths: () => [] })).inputs;
}

function put(node: unknown, keys: readonly string[], value: number): unknown {
  const [key, ...rest] = keys;
  if (key === undefined) return { ...(node as object), si: value };
  const copy: Record<string, unknown> | unknown[] = Array.isArray(node) ? [...node] : { ...(node as object) };
  const old = (node as Record<string, unknown>)[key];
  (copy as Record<string, unknown>)[key] = put(old, rest, value);
  return copy;
}
