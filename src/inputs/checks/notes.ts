import type { Issue } from "../../math/errors.ts";
import { formatIssue } from "../../math/errors.ts";
import type { Tree } from "../tree/index.ts";
import { placeOf } from "../tree/index.ts";
import type { Value } from "./context.ts";

const MOST = 5;

/** Remarks that are no errors: values that say neither source nor maturity, values that rest on an estimate. */
export function notesOn(values: ReadonlyMap<string, Value>, tree: Tree): string[] {
  const silent: string[] = [];
  for (const [path, value] of values) {
    if (typeof value !== "object") continue;
    const { source, maturity } = value.provenance;
    if (source === undefined && maturity === undefined) silent.push(path);
  }
  if (silent.length === 0) return [];
  const first = silent[0]!;
  const more = silent.length > MOST ? `, and ${silent.length - MOST} more` : "";
  const note: Issue = {
    path: first,
    ...placeOf(tree, first.split(".")),
    message: `${silent.length} values state no provenance and the file has none: ${silent.slice(0, MOST).join(", ")}${more}`,
  };
  return [formatIssue(note)];
}
