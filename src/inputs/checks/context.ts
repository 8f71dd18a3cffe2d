import type { Issue } from "../../math/errors.ts";
import type { Airspeed, Quantity } from "../quantity/index.ts";
import type { MeshValue, Table } from "../schema/index.ts";
import type { Tree } from "../tree/index.ts";
import { describe, dotted, find, placeOf } from "../tree/index.ts";

/** Any checked value of a pair. */
export type Value = Quantity | Airspeed | Table | MeshValue | string | boolean | number;

/** What the cross checks look at: the values that could be read, by path, and where they stand. */
export interface Context {
  readonly values: ReadonlyMap<string, Value>;
  readonly tree: Tree;
  readonly issues: Issue[];
}

type Path = readonly (string | number)[];

/** The value with a unit at a path, if it could be read. */
export function quantityAt(context: Context, path: Path): Quantity | undefined {
  const value = context.values.get(dotted(path));
  return typeof value === "object" && value.type === "quantity" ? value : undefined;
}

export function airspeedAt(context: Context, path: Path): Airspeed | undefined {
  const value = context.values.get(dotted(path));
  return typeof value === "object" && value.type === "airspeed" ? value : undefined;
}

export function tableAt(context: Context, path: Path): Table | undefined {
  const value = context.values.get(dotted(path));
  return typeof value === "object" && value.type === "table" ? value : undefined;
}

export function wordAt(context: Context, path: Path): string | undefined {
  const value = context.values.get(dotted(path));
  return typeof value === "string" ? value : undefined;
}

/** Keys of the map at a path, in file order. */
export function keysAt(context: Context, path: Path): readonly string[] {
  const at = find(context.tree, path);
  return at?.kind === "map" ? [...at.entries.keys()] : [];
}

/** Number of entries of the list at a path. */
export function lengthAt(context: Context, path: Path): number {
  const at = find(context.tree, path);
  return at?.kind === "list" ? at.items.length : 0;
}

/** Adds an issue at the value (or key) that `path` names. */
export function report(context: Context, path: Path, message: string, allowed?: string): void {
  const value = describe(find(context.tree, path));
  context.issues.push({
    path: dotted(path),
    ...placeOf(context.tree, path),
    message,
    ...(value === undefined || value === "a map" ? {} : { value }),
    ...(allowed === undefined ? {} : { allowed }),
  });
}

/** Whether a problem was found at the value that a dotted path names: what rests on it need not be named too. */
export function isFaulty({ issues }: Context, path: string): boolean {
  return issues.some((issue) => issue.path === path);
}

/** Three lengths or parts FS, BL, WL of the map at a path, if all could be read. */
export function pointAt(context: Context, path: Path): readonly [number, number, number] | undefined {
  const [FS, BL, WL] = ["FS", "BL", "WL"].map((axis) => quantityAt(context, [...path, axis])?.si);
  return FS === undefined || BL === undefined || WL === undefined ? undefined : [FS, BL, WL];
}

/** Names that differ only in case. */
export function checkCase(context: Context, path: readonly string[], names: readonly string[]): void {
  const seen = new Map<string, string>();
  names.forEach((name) => {
    const twin = seen.get(name.toLowerCase());
    seen.set(name.toLowerCase(), twin ?? name);
    if (twin === undefined) return;
    const message = `has the same name as "${twin}"; names must differ in more than case`;
    report(context, [...path, name], message, "a name of its own");
  });
}

/** At most four digits and no needless zeros, for messages. */
export function spell(value: number): string {
  return String(Number(value.toPrecision(4)));
}
