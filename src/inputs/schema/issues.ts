import type * as z from "zod";
import type { Issue } from "../../math/errors.ts";
import { nearest } from "../text/index.ts";
import type { Tree } from "../tree/index.ts";
import { describe, dotted, find, placeOf } from "../tree/index.ts";
import { unknownKey } from "./forms.ts";
import type { ProblemFacts } from "./leaf.ts";
import { ALLOWED_NAME, isReserved, RESERVED_NAME } from "./names.ts";
import type { Schema } from "./walk.ts";
import { below, childOf } from "./walk.ts";

type Found = z.core.$ZodIssue;

/** Our issues for what the schema library found, each with its place in the files. */
export function explainIssues(found: readonly Found[], tree: Tree, plain: unknown, schema: Schema): Issue[] {
  return found.flatMap((issue) => explainOne(issue, tree, plain, schema));
}

function explainOne(issue: Found, tree: Tree, plain: unknown, schema: Schema): Issue[] {
  if (issue.code === "unrecognized_keys") return unknownKeys(issue, tree, plain, schema);
  const at = find(tree, issue.path);
  const base = { path: dotted(issue.path), ...placeOf(tree, issue.path) };
  if (issue.code === "custom") return [custom(issue, at, base)];
  if (at === undefined) return [{ ...base, message: "is missing", ...allowedBelow(issue, plain, schema) }];
  const value = describe(at);
  const seen = value === undefined ? base : { ...base, value };
  if (at.kind === "scalar" && at.empty) return [{ ...base, message: "has no value" }];
  switch (issue.code) {
    case "invalid_type": {
      const list = issue.expected === "array";
      const allowed = list ? "[one, two]" : allowedBelow(issue, plain, schema).allowed;
      return [{ ...seen, message: `must be a ${list ? "list" : "map"}`, ...(allowed ? { allowed } : {}) }];
    }
    case "invalid_union":
      if ("options" in issue && issue.options !== undefined) {
        return [{ ...seen, message: "is not one of the choices", allowed: issue.options.map(String).join(", ") }];
      }
      return explainWordOrMap(issue, tree, plain, schema);
    case "invalid_key": {
      const key = String(issue.path.at(-1));
      if (isReserved(key)) return [{ ...seen, message: RESERVED_NAME, value: key, allowed: "another name" }];
      return [{ ...seen, message: "is not a proper name", value: key, allowed: ALLOWED_NAME }];
    }
    case "too_small":
      return [
        { ...seen, message: "has too few entries", allowed: `${issue.exact ? "" : "at least "}${issue.minimum}` },
      ];
    case "too_big":
      return [
        { ...seen, message: "has too many entries", allowed: `${issue.exact ? "" : "at most "}${issue.maximum}` },
      ];
    default:
      return [{ ...seen, message: "is not accepted" }];
  }
}

/** A word that stands for a map, or the map itself: the problems of the one that was written. */
function explainWordOrMap(
  issue: Found & { readonly code: "invalid_union" },
  tree: Tree,
  plain: unknown,
  schema: Schema,
): Issue[] {
  const at = find(tree, issue.path);
  const [ofWord = [], ofMap = []] = issue.errors;
  const written = at?.kind === "map" ? ofMap : ofWord;
  if (written.length === 0 || at?.kind === "list") {
    const value = describe(at);
    const base = { path: dotted(issue.path), ...placeOf(tree, issue.path), ...(value === undefined ? {} : { value }) };
    return [{ ...base, message: "must be a word or a map", ...allowedBelow(issue, plain, schema) }];
  }
  const found = written.map((each) => ({ ...each, path: [...issue.path, ...each.path] }) as Found);
  return explainIssues(found, tree, plain, schema);
}

/** Unknown keys of one map for which the nearest known one is looked for. */
const MOST_HINTS = 50;

type Base = Pick<Issue, "path" | "file" | "line" | "column">;

function custom(issue: Found & { readonly code: "custom" }, at: Tree | undefined, base: Base): Issue {
  const facts = (issue.params ?? {}) as ProblemFacts;
  const value = describe(at);
  let place = base;
  if (at?.kind === "scalar" && facts.index !== undefined && at.textColumn !== undefined) {
    const lead = at.text.length - at.text.trimStart().length;
    place = { ...base, column: at.textColumn + lead + facts.index };
  }
  const allowed = facts.allowed === undefined || facts.allowed === "" ? {} : { allowed: facts.allowed };
  const seen = value === undefined || facts.missing ? {} : { value };
  return { ...place, message: issue.message, ...seen, ...allowed };
}

function unknownKeys(
  issue: Found & { readonly code: "unrecognized_keys" },
  tree: Tree,
  plain: unknown,
  schema: Schema,
): Issue[] {
  const at = find(tree, issue.path);
  const known = keysAt(issue.path, plain, schema);
  const present = at?.kind === "map" ? at.entries : new Map();
  const absent = known.filter((each) => !present.has(each));
  return issue.keys.map((key, i) => {
    const place = at?.kind === "map" ? at.entries.get(key)?.keyPlace : undefined;
    const near = i < MOST_HINTS ? (nearest(key, absent) ?? nearest(key, known)) : undefined;
    const base = { path: dotted([...issue.path, key]), ...(place ?? placeOf(tree, issue.path)) };
    return { ...base, message: unknownKey(key, near), allowed: known.join(", ") };
  });
}

/** The keys that may stand at a path. */
export function keysAt(path: readonly PropertyKey[], plain: unknown, schema: Schema): string[] {
  let at: Schema | undefined = schema;
  let data = plain;
  for (const key of path) {
    const part = below(at, data);
    data = (data as Record<PropertyKey, unknown> | undefined)?.[key];
    at = part.kind === "list" ? part.element : childOf(part, String(key));
    if (at === undefined) return [];
  }
  const part = below(at, data);
  return part.kind === "keys" ? Object.keys(part.shape) : [];
}

function allowedBelow(issue: Found, plain: unknown, schema: Schema): { allowed?: string } {
  if (issue.code === "invalid_union" && "options" in issue && issue.options !== undefined) {
    return { allowed: issue.options.map(String).join(", ") };
  }
  const keys = keysAt(issue.path, plain, schema);
  return keys.length === 0 ? {} : { allowed: `a map with ${keys.join(", ")}` };
}
