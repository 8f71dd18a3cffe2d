import type { Issue } from "../../math/errors.ts";
import type { Value } from "../checks/index.ts";
import type { ReadTable } from "../csv/index.ts";
import { readTable } from "../csv/index.ts";
import type { ImportStep, MeshRead } from "../meshes/index.ts";
import type { Maturity, Provenance } from "../quantity/index.ts";
import type { PendingTable, Schema } from "../schema/index.ts";
import { PATCHABLE, visitValues } from "../schema/index.ts";
import { ALLOWED_REFERENCE, resolveInside } from "../text/index.ts";
import type { Place, Tree } from "../tree/index.ts";
import { dotted, find, placeOf } from "../tree/index.ts";
import { SET_FILE } from "../variants/index.ts";
import type { Files } from "../yaml/index.ts";
import { LIMITS } from "../yaml/index.ts";

/** What the values of one variant need to be completed. */
export interface Completing {
  readonly tree: Tree;
  readonly files: Files;
  /** The pair file, relative to its folder. */
  readonly inside: string;
  /** The `provenance` of each file by its name in messages. */
  readonly provenance: ReadonlyMap<string, Tree>;
  readonly issues: Issue[];
  readonly shared: Shared;
  readonly importStep: ImportStep | undefined;
}

/** What the base and all variants have in common, so that it is done once. */
export interface Shared {
  /** Provenance that the values of a file inherit, by the file's name in messages. */
  readonly inherited: Map<string, Provenance>;
  /** Tables that were read, by path in the pair and file. */
  readonly tables: Map<string, { readonly read: ReadTable | undefined; readonly issues: readonly Issue[] }>;
  /** Mesh files that were read, by file. */
  readonly meshes: Map<string, MeshOfFile>;
}

/** A mesh file as read, with the files that it names. */
export interface MeshOfFile {
  readonly read: MeshRead;
  readonly sha256: string;
}

export function newShared(): Shared {
  return { inherited: new Map(), tables: new Map(), meshes: new Map() };
}

const TOP: readonly string[] = [...PATCHABLE, "davit", "pair", "provenance", "correlations"];

/**
 * Gives every value its path and provenance, reads the tables, and lists all values by path.
 *
 * @param schema   of the pair
 * @param data     pair data; values are replaced in place
 * @param parse    turns what stands in `data` into a value; undefined when it cannot
 * @param context  where things stand
 */
export function completeValues(
  schema: Schema,
  data: unknown,
  parse: (raw: unknown, schema: Schema) => unknown,
  context: Completing,
): Map<string, Value> {
  const values = new Map<string, Value>();
  visitValues(schema, data, [], (path, raw, leaf) => {
    if (!TOP.includes(String(path[0]))) return raw;
    const complete = completeOne(path, parse(raw, leaf), context);
    if (complete !== undefined) values.set(dotted(path), complete as Value);
    return complete;
  });
  return values;
}

function completeOne(path: readonly PropertyKey[], value: unknown, context: Completing): unknown {
  if (typeof value !== "object" || value === null) return value;
  if (!("type" in value)) return undefined;
  const found = value as Exclude<Value, string | boolean | number>;
  const provenance = found.provenance.inherited ? inherited(path, context) : found.provenance;
  const complete = { ...found, path: dotted(path), provenance };
  if (complete.type === "table") return readPending(complete as PendingTable, path, context);
  return complete.type === "mesh" ? complete : Object.freeze(complete);
}

/** Provenance of the file in which a value stands, else of the pair; a value set by command says so. */
function inherited(path: readonly PropertyKey[], context: Completing): Provenance {
  const { file } = placeOf(context.tree, path);
  if (file === SET_FILE) return { source: "set on the command line", inherited: false };
  const known = context.shared.inherited.get(file);
  if (known !== undefined) return known;
  const stated = context.provenance.get(file) ?? find(context.tree, ["provenance"]);
  const word = (key: string) => {
    const at = find(stated, [key]);
    return at?.kind === "scalar" && !at.empty ? at.text.trim() : undefined;
  };
  const [source, date, maturity] = [word("source"), word("date"), word("maturity")];
  const provenance: Provenance = {
    ...(source === undefined ? {} : { source }),
    ...(date === undefined ? {} : { date }),
    ...(maturity === undefined ? {} : { maturity: maturity as Maturity }),
    inherited: true,
  };
  context.shared.inherited.set(file, provenance);
  return provenance;
}

function readPending(pending: PendingTable, path: readonly PropertyKey[], context: Completing): Value | undefined {
  const { tree, files, issues } = context;
  const from = { ...placeOf(tree, [...path, "file"]), path: dotted(path) };
  const inside = resolveReference(pending.file, from, context);
  if (inside === undefined) return undefined;
  const text = files.text(inside, LIMITS.csvBytes, issues, from);
  if (text === undefined) return undefined;
  const key = `${dotted(path)} ${inside}`;
  let known = context.shared.tables.get(key);
  if (known === undefined) {
    const found: Issue[] = [];
    const read = readTable(text, files.shown(inside), dotted(path), pending.spec, found);
    known = { read, issues: found };
    context.shared.tables.set(key, known);
  }
  issues.push(...known.issues);
  const { read } = known;
  if (read === undefined) return undefined;
  const { spec: _, ...table } = pending;
  const { columns, words } = read;
  const rows = Object.values(columns)[0]?.length ?? 0;
  const worded = Object.keys(words).length > 0 ? { words } : {};
  return Object.freeze({ ...table, file: inside, sha256: files.hash(inside), rows, columns, ...worded });
}

/**
 * The file that a value refers to, relative to the pair's folder; an issue when it may not be referred to.
 *
 * @param reference  as written
 * @param from       where it is written
 */
export function resolveReference(
  reference: string,
  from: Place & { path: string },
  context: Completing,
): string | undefined {
  const inPair = from.file === SET_FILE ? context.inside : insideOf(from.file, context);
  const target = resolveInside(inPair, reference);
  if (target.ok) return target.inside;
  const message = `the reference ${target.reason}`;
  context.issues.push({ ...from, message, value: reference, allowed: ALLOWED_REFERENCE });
  return undefined;
}

/** Path inside the pair's folder of a file named in messages. */
function insideOf(shown: string, context: Completing): string {
  const head = context.files.shown("");
  return shown.startsWith(head) ? shown.slice(head.length) : shown;
}
