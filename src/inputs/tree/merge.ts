import type { Entry, Mapping, Tree } from "./tree.ts";

/** `over` laid upon `under`: maps are joined key by key, anything else in `over` wins. */
export function layer(under: Tree, over: Tree): Tree {
  if (under.kind !== "map" || over.kind !== "map") return over;
  const entries = new Map<string, Entry>(under.entries);
  for (const entry of over.entries.values()) {
    const below = entries.get(entry.key);
    entries.set(entry.key, below === undefined ? entry : { ...entry, value: layer(below.value, entry.value) });
  }
  return { kind: "map", entries, place: over.place };
}

/** A copy of `tree` in which the value at `path` is `entry.value` (or is taken out when `entry.value` is undefined). */
export function replaceAt(
  tree: Tree,
  path: readonly string[],
  entry: { readonly keyPlace: Entry["keyPlace"]; readonly value: Tree | undefined },
): Tree {
  const [key, ...rest] = path;
  if (key === undefined) return entry.value ?? tree;
  if (tree.kind === "list") {
    const index = Number(key);
    const items = tree.items.map((item, i) => (i === index ? replaceAt(item, rest, entry) : item));
    return { ...tree, items };
  }
  const map: Mapping = tree.kind === "map" ? tree : { kind: "map", entries: new Map(), place: entry.keyPlace };
  const entries = new Map<string, Entry>(map.entries);
  const below = entries.get(key);
  if (rest.length > 0) {
    const empty: Mapping = { kind: "map", entries: new Map(), place: entry.keyPlace };
    const value = replaceAt(below?.value ?? empty, rest, entry);
    entries.set(key, { key, keyPlace: below?.keyPlace ?? entry.keyPlace, value });
  } else if (entry.value === undefined) entries.delete(key);
  else entries.set(key, { key, keyPlace: entry.keyPlace, value: entry.value });
  return { ...map, entries };
}
