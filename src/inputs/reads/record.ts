import type { LoadedPair } from "../pair/index.ts";
import type { Pair } from "../schema/index.ts";

/** A pair that remembers which of its values were read. */
export interface RecordedReads {
  readonly pair: Pair;
  /** Paths of the values read so far, sorted. */
  paths(): string[];
}

/**
 * A view of a pair that records the path of every value that is read through it.
 *
 * Maps and lists are not values; going through them records what is taken out of them.
 */
export function recordReads(loaded: LoadedPair): RecordedReads {
  const seen = new Set<string>();
  const views = new WeakMap<object, object>();
  const view = (part: object, path: string): object => {
    const known = views.get(part);
    if (known !== undefined) return known;
    const made = new Proxy(part, {
      get(target, key, receiver) {
        const value: unknown = Reflect.get(target, key, receiver);
        if (typeof key === "symbol" || typeof value === "function") return value;
        const at = path === "" ? key : `${path}.${key}`;
        if (loaded.values.has(at)) {
          seen.add(at);
          return value;
        }
        return typeof value === "object" && value !== null ? view(value, at) : value;
      },
    });
    views.set(part, made);
    return made;
  };
  return { pair: view(loaded.pair, "") as Pair, paths: () => [...seen].sort() };
}
