import type { Schema } from "../schema/index.ts";
import { below, decidingKey, isOptional, PATCHABLE, VALUE_KEYS } from "../schema/index.ts";
import { nearest } from "../text/index.ts";
import type { Tree } from "../tree/index.ts";
import { dotted, find } from "../tree/index.ts";

/** Whether a path may be patched, with the nearest path that may when it may not. */
export type PathCheck =
  | {
      readonly ok: true;
      /** The pair stands without it. */
      readonly optional: boolean;
    }
  | { readonly ok: false; readonly near: string | undefined };

/**
 * Whether `path` names something that a variant or `--set` may change.
 *
 * Keys that the schema knows may be set even where the pair does not write them; names that the pair gives
 * (loadings, conditions) and list entries must exist.
 *
 * @param schema  of the pair
 * @param tree    of the pair
 * @param path    parts of the path
 * @param hint    whether to look for the nearest path, which costs time
 */
export function checkPath(schema: Schema, tree: Tree, path: readonly string[], hint: boolean): PathCheck {
  let at = schema;
  for (let i = 0; i < path.length; i++) {
    const known = childrenAt(at, find(tree, path.slice(0, i)), i);
    const child = known.get(path[i]!);
    if (child === undefined) return { ok: false, near: hint ? repair(schema, tree, path) : undefined };
    at = child;
  }
  return path.length > 0 ? { ok: true, optional: isOptional(at) } : { ok: false, near: undefined };
}

function childrenAt(schema: Schema, tree: Tree | undefined, level: number): ReadonlyMap<string, Schema> {
  const deciding = decidingKey(schema);
  const chosen = deciding === undefined ? undefined : find(tree, [deciding]);
  const data = chosen?.kind === "scalar" ? { [deciding!]: chosen.text } : undefined;
  const part = below(schema, data);
  const children = new Map<string, Schema>();
  if (part.kind === "keys") for (const [key, child] of Object.entries(part.shape)) children.set(key, child);
  if (part.kind === "names" && tree?.kind === "map")
    for (const key of tree.entries.keys()) children.set(key, part.value);
  if (part.kind === "list" && tree?.kind === "list") {
    tree.items.forEach((_, i) => {
      children.set(String(i), part.element);
    });
  }
  // inside the map form of a value
  if (part.kind === "value" && tree?.kind === "map") {
    for (const key of tree.entries.keys()) children.set(key, schema);
    if (tree.entries.has("value")) for (const key of VALUE_KEYS) children.set(key, schema);
  }
  if (level === 0) for (const key of children.keys()) if (!PATCHABLE.includes(key)) children.delete(key);
  return children;
}

/** The nearest patchable path: each wrong key replaced by its nearest, else one that ends alike, else the nearest of all. */
function repair(schema: Schema, tree: Tree, path: readonly string[]): string | undefined {
  const fixed: string[] = [];
  let at = schema;
  for (let i = 0; i < path.length; i++) {
    const children = childrenAt(at, find(tree, fixed), i);
    const key = children.has(path[i]!) ? path[i]! : nearest(path[i]!, children.keys());
    if (key === undefined) {
      const all = [...allPaths(schema, tree)];
      return all.find((each) => each.endsWith(`.${dotted(path)}`)) ?? nearest(dotted(path), all);
    }
    fixed.push(key);
    at = children.get(key)!;
  }
  return dotted(fixed);
}

function* allPaths(schema: Schema, tree: Tree): Generator<string> {
  const open: { schema: Schema; path: string[] }[] = [{ schema, path: [] }];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    for (const [key, child] of childrenAt(next.schema, find(tree, next.path), next.path.length)) {
      const path = [...next.path, key];
      yield dotted(path);
      if (below(child, undefined).kind !== "value") open.push({ schema: child, path });
    }
  }
}
