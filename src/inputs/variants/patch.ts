import type { Issue } from "../../math/errors.ts";
import type { Schema } from "../schema/index.ts";
import { PATCHABLE } from "../schema/index.ts";
import type { Mapping, Place, Tree } from "../tree/index.ts";
import { dotted, replaceAt } from "../tree/index.ts";
import { readYaml } from "../yaml/index.ts";
import { checkPath } from "./paths.ts";

/** One replacement of a value. */
export interface Patch {
  readonly path: readonly string[];
  /** Undefined takes the value out. */
  readonly value: Tree | undefined;
  readonly place: Place;
}

/** File name under which values from the command line are reported. */
export const SET_FILE = "--set";

/** The patches of one variant of the pair; problems are reported at the variant's lines. */
export function variantPatches(
  tree: Tree,
  variant: Mapping,
  issuePath: string,
  schema: Schema,
  issues: Issue[],
): Patch[] {
  const patches: Patch[] = [];
  for (const { key, keyPlace, value } of variant.entries.values()) {
    const path = key.split(".");
    const at = { path: `${issuePath}.${key}`, ...keyPlace };
    const patch = makePatch(tree, path, value, keyPlace, at, schema, issues);
    if (patch !== undefined) patches.push(patch);
  }
  reportOverlap(patches, issuePath, issues);
  return patches;
}

/** Two patches of which one lies inside the other would depend on their order. */
function reportOverlap(patches: readonly Patch[], issuePath: string, issues: Issue[]): void {
  for (const patch of patches) {
    const key = dotted(patch.path);
    const around = patches.find((other) => other !== patch && key.startsWith(`${dotted(other.path)}.`));
    if (around === undefined) continue;
    const message = `lies inside ${dotted(around.path)}, which the same variant replaces`;
    issues.push({ path: `${issuePath}.${key}`, ...patch.place, message, allowed: "one of the two" });
  }
}

/** Issues after which the nearest path is no longer looked for. */
const MOST_HINTS = 50;

/** One patch, if its path exists and its value stands; otherwise an issue at `at`. */
function makePatch(
  tree: Tree,
  path: readonly string[],
  value: Tree,
  place: Place,
  at: Place & { path: string },
  schema: Schema,
  issues: Issue[],
): Patch | undefined {
  const check = checkPath(schema, tree, path, issues.length < MOST_HINTS);
  if (!check.ok) {
    const near = check.near === undefined ? "" : `; did you mean ${check.near}?`;
    const allowed = `paths below ${PATCHABLE.join(", ")}`;
    issues.push({ ...at, message: `unknown path "${dotted(path)}"${near}`, allowed });
    return undefined;
  }
  if (value.kind !== "scalar" || !value.empty) return { path, value, place };
  if (value.removal && check.optional) return { path, value: undefined, place };
  const message = value.removal ? "is needed and cannot be taken out" : "has no value";
  issues.push({ ...at, message, allowed: check.optional ? "a value, or ~ to take the value out" : "a value" });
  return undefined;
}

/** The patches of `PATH=VALUE` texts from the command line. */
export function setPatches(tree: Tree, texts: readonly string[], schema: Schema, issues: Issue[]): Patch[] {
  const patches: Patch[] = [];
  for (const text of texts) {
    const cut = text.indexOf("=");
    const place: Place = { file: SET_FILE };
    if (cut <= 0) {
      issues.push({ path: "", ...place, message: "is not a setting", value: text, allowed: "PATH=VALUE" });
      continue;
    }
    const key = text.slice(0, cut).trim();
    const path = key.split(".");
    const read = readYaml(text.slice(cut + 1), SET_FILE);
    if (read.tree === undefined || read.issues.length > 0) {
      const message = read.issues[0]?.message ?? "has no value";
      issues.push({ path: key, ...place, message, value: text.slice(cut + 1), allowed: "a value as in the pair file" });
      continue;
    }
    const patch = makePatch(tree, path, unplaced(read.tree), place, { path: key, ...place }, schema, issues);
    if (patch !== undefined) patches.push(patch);
  }
  return patches;
}

/** The tree with every place reduced to its file, because lines of a command mean nothing. */
function unplaced(tree: Tree): Tree {
  const place = { file: tree.place.file };
  if (tree.kind === "scalar") {
    const { text, empty, removal } = tree;
    return { kind: "scalar", text, empty, removal, place };
  }
  if (tree.kind === "list") return { ...tree, items: tree.items.map(unplaced), place };
  const entries = new Map(
    [...tree.entries].map(([key, e]) => [key, { key, keyPlace: place, value: unplaced(e.value) }]),
  );
  return { kind: "map", entries, place };
}

/** The tree after every patch, in order. */
export function applyPatches(tree: Mapping, patches: readonly Patch[]): Mapping {
  let at: Tree = tree;
  for (const { path, value, place } of patches) at = replaceAt(at, path, { keyPlace: place, value });
  return at.kind === "map" ? at : tree;
}
