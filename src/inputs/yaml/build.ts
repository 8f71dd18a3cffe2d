import type { Document, LineCounter, Node, Pair } from "yaml";
import { isAlias, isMap, isScalar, isSeq, Scalar } from "yaml";
import type { Issue } from "../../math/errors.ts";
import type { Entry, Place, Tree } from "../tree/index.ts";
import { LIMITS } from "./limits.ts";

/** A built part with its number of nodes and levels, so that an alias costs nothing to follow. */
interface Built {
  readonly tree: Tree;
  readonly nodes: number;
  readonly depth: number;
}

interface Builder {
  readonly file: string;
  readonly source: string;
  readonly lines: LineCounter;
  readonly issues: Issue[];
  /** Anchors met so far; undefined while the anchored part is still being built. */
  readonly anchors: Map<string, Built | undefined>;
  /** The first part that is too large once its aliases are followed. */
  over: Place | undefined;
}

/** The tree of a parsed document; problems (duplicate keys, aliases) go to `issues`. */
export function buildTree(
  document: Document.Parsed,
  file: string,
  source: string,
  lines: LineCounter,
  issues: Issue[],
): Tree | undefined {
  const builder: Builder = { file, source, lines, issues, anchors: new Map(), over: undefined };
  const root = document.contents as Node | null;
  if (root === null) return undefined;
  const built = build(builder, root);
  if (builder.over === undefined) return built.tree;
  const found =
    built.nodes > LIMITS.nodes ? `${spellCount(built.nodes)} values` : `${spellCount(built.depth)} levels of nesting`;
  issues.push({
    path: "",
    ...builder.over,
    message: "the file grows too large when its aliases are followed",
    value: found,
    allowed: `up to ${LIMITS.nodes} values and ${LIMITS.depth} levels`,
  });
  return undefined;
}

function spellCount(count: number): string {
  return count < 1e6 ? String(count) : `more than ${count >= 1e9 ? "a billion" : "a million"}`;
}

function placeAt(builder: Builder, offset: number): Place {
  const { line, col } = builder.lines.linePos(offset);
  return { file: builder.file, line: Math.max(line, 1), column: Math.max(col, 1) };
}

function build(builder: Builder, node: Node): Built {
  const place = placeAt(builder, node.range?.[0] ?? 0);
  if (isAlias(node)) return follow(builder, node.source, place);
  const anchor = "anchor" in node ? node.anchor : undefined;
  if (anchor !== undefined) builder.anchors.set(anchor, undefined);
  const built = isMap(node)
    ? buildMap(builder, node.items as readonly Pair<Node, Node | null>[], place)
    : isSeq(node)
      ? buildList(builder, node.items as readonly Node[], place)
      : buildScalar(builder, node, place);
  if (anchor !== undefined) builder.anchors.set(anchor, built);
  if (built.nodes > LIMITS.nodes || built.depth > LIMITS.depth) builder.over ??= place;
  return built;
}

function follow(builder: Builder, name: string, place: Place): Built {
  const known = builder.anchors.get(name);
  if (known !== undefined) return known;
  const message = builder.anchors.has(name) ? "an alias stands inside its own anchor" : "an alias names no anchor";
  builder.issues.push({ path: "", ...place, message, value: `*${name}`, allowed: "an anchor that ends further up" });
  return { tree: emptyScalar(place), nodes: 1, depth: 1 };
}

function emptyScalar(place: Place): Tree {
  return { kind: "scalar", text: "", empty: true, removal: false, place };
}

function buildScalar(builder: Builder, node: Node, place: Place): Built {
  if (!isScalar(node)) return { tree: emptyScalar(place), nodes: 1, depth: 1 };
  const plain = node.type === Scalar.PLAIN;
  const quoted = node.type === Scalar.QUOTE_DOUBLE || node.type === Scalar.QUOTE_SINGLE;
  const empty = plain && node.value === null;
  const written = node.source ?? "";
  const text = plain ? written : String(node.value);
  const start = (node.range?.[0] ?? 0) + (quoted ? 1 : 0);
  const literal = (plain || quoted) && builder.source.startsWith(text, start) && !text.includes("\n");
  const textColumn = literal && place.column !== undefined ? place.column + (quoted ? 1 : 0) : undefined;
  const base = { kind: "scalar" as const, text, empty, removal: empty && written !== "", place };
  return { tree: textColumn === undefined ? base : { ...base, textColumn }, nodes: 1, depth: 1 };
}

function buildList(builder: Builder, items: readonly Node[], place: Place): Built {
  let nodes = 1;
  let depth = 0;
  const trees = items.map((item) => {
    const built = build(builder, item);
    nodes += built.nodes;
    depth = Math.max(depth, built.depth);
    return built.tree;
  });
  return { tree: { kind: "list", items: trees, place }, nodes, depth: depth + 1 };
}

function buildMap(builder: Builder, items: readonly Pair<Node, Node | null>[], place: Place): Built {
  const own = new Map<string, Entry>();
  const merged: Tree[] = [];
  let nodes = 1;
  let depth = 0;
  for (const { key: keyNode, value } of items) {
    const keyPlace = placeAt(builder, keyNode?.range?.[0] ?? 0);
    if (!isScalar(keyNode)) {
      builder.issues.push({ path: "", ...keyPlace, message: "a key is not a word", allowed: "key: value" });
      continue;
    }
    const key = keyNode.type === Scalar.PLAIN ? (keyNode.source ?? "") : String(keyNode.value);
    const built = value === null ? { tree: emptyScalar(keyPlace), nodes: 1, depth: 1 } : build(builder, value);
    nodes += 1 + built.nodes;
    depth = Math.max(depth, built.depth);
    const before = own.get(key);
    // the one key that plain objects drop without a word
    if (key === "__proto__") {
      const message = "is a reserved word and cannot be a key";
      builder.issues.push({ path: "", ...keyPlace, message, value: key, allowed: "another word" });
    } else if (key === "<<" && keyNode.type === Scalar.PLAIN) merged.push(built.tree);
    else if (before === undefined) own.set(key, { key, keyPlace, value: built.tree });
    else duplicate(builder, key, keyPlace, before.keyPlace);
  }
  const entries = merged.length === 0 ? own : joinMerged(builder, merged, own);
  return { tree: { kind: "map", entries, place }, nodes, depth: depth + 1 };
}

function duplicate(builder: Builder, key: string, place: Place, first: Place): void {
  const message = `duplicate key "${key}"; it already stands in line ${first.line}`;
  builder.issues.push({ path: "", ...place, message, allowed: "each key once" });
}

/** Keys taken over with `<<`: the map's own keys win, then the maps in their order. */
function joinMerged(builder: Builder, merged: readonly Tree[], own: ReadonlyMap<string, Entry>): Map<string, Entry> {
  const joined = new Map(own);
  const sources = merged.flatMap((tree) => (tree.kind === "list" ? tree.items : [tree]));
  for (const source of sources) {
    if (source.kind !== "map") {
      const message = "<< takes over the keys of a map";
      builder.issues.push({ path: "", ...source.place, message, allowed: "an alias of a map, or a list of them" });
      continue;
    }
    for (const entry of source.entries.values()) if (!joined.has(entry.key)) joined.set(entry.key, entry);
  }
  return joined;
}
