/** Where something stands; line and column count from 1. A value set on the command line has no line. */
export interface Place {
  readonly file: string;
  readonly line?: number;
  readonly column?: number;
}

/** A single value, kept as it was written. */
export interface Scalar {
  readonly kind: "scalar";
  /** As written, without quotes. */
  readonly text: string;
  /** Nothing was written, or the null word. */
  readonly empty: boolean;
  /** The null word (`~` or `null`) was written out. */
  readonly removal: boolean;
  /** Column of `text[0]` when the text stands literally in one line of the file. */
  readonly textColumn?: number;
  readonly place: Place;
}

export interface Entry {
  readonly key: string;
  readonly keyPlace: Place;
  readonly value: Tree;
}

export interface Mapping {
  readonly kind: "map";
  readonly entries: ReadonlyMap<string, Entry>;
  readonly place: Place;
}

export interface List {
  readonly kind: "list";
  readonly items: readonly Tree[];
  readonly place: Place;
}

/** Content of a file with the place of every part; never changed once made, so parts may be shared. */
export type Tree = Scalar | Mapping | List;

export type Key = string | number;

/** `carried.massStates.full`, `conditions.0`. */
export function dotted(path: readonly PropertyKey[]): string {
  return path.map(String).join(".");
}

/** The part below `tree` that `path` names, or undefined. */
export function find(tree: Tree | undefined, path: readonly PropertyKey[]): Tree | undefined {
  let at = tree;
  for (const key of path) {
    if (at === undefined) return undefined;
    if (at.kind === "map") at = at.entries.get(String(key))?.value;
    else if (at.kind === "list") at = at.items[Number(key)];
    else return undefined;
  }
  return at;
}

/** Place of the value at `path`; where it does not exist, of the key of the nearest part around it. */
export function placeOf(tree: Tree, path: readonly PropertyKey[]): Place {
  let at: Tree = tree;
  let place = tree.place;
  for (const key of path) {
    if (at.kind === "map") {
      const entry: Entry | undefined = at.entries.get(String(key));
      if (entry === undefined) return place;
      at = entry.value;
      place = at.kind === "scalar" ? at.place : entry.keyPlace;
    } else if (at.kind === "list") {
      const item: Tree | undefined = at.items[Number(key)];
      if (item === undefined) return place;
      at = item;
      place = item.place;
    } else return place;
  }
  return place;
}

/** Plain data for the schema: every value as its text, `null` for an empty one. Maps have no prototype. */
export function toPlain(tree: Tree): unknown {
  if (tree.kind === "scalar") return tree.empty ? null : tree.text;
  if (tree.kind === "list") return tree.items.map(toPlain);
  const out: Record<string, unknown> = Object.create(null) as Record<string, unknown>;
  for (const { key, value } of tree.entries.values()) out[key] = toPlain(value);
  return out;
}

/** What was found, in a few words, for messages. */
export function describe(tree: Tree | undefined): string | undefined {
  if (tree === undefined) return undefined;
  if (tree.kind === "scalar") return tree.text === "" ? undefined : shorten(tree.text);
  return tree.kind === "map" ? "a map" : "a list";
}

/** One line of at most 60 characters. */
export function shorten(text: string): string {
  const line = text.replace(/\s+/g, " ").trim();
  return line.length <= 60 ? line : `${line.slice(0, 57)}…`;
}
