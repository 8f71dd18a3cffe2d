import * as z from "zod";
import type { Issue } from "../../math/errors.ts";
import type { Value } from "../checks/index.ts";
import { crossCheck } from "../checks/index.ts";
import type { Pair } from "../schema/index.ts";
import { explainIssues, pairSchema } from "../schema/index.ts";
import type { Mapping } from "../tree/index.ts";
import { toPlain } from "../tree/index.ts";
import { completeMeshes } from "./meshes.ts";
import type { Completing } from "./values.ts";
import { completeValues } from "./values.ts";

/** A pair whose values all stand, or the problems that keep it from standing. */
export interface Validated {
  readonly tree: Mapping;
  /** Only meaningful without issues. */
  readonly pair: Pair;
  readonly values: ReadonlyMap<string, Value>;
  readonly issues: readonly Issue[];
}

/**
 * Checks one set of values of the pair: each alone, then together.
 *
 * The cross checks run on whatever could be read, so that all problems are reported at once.
 *
 * @param like values that these differ from a little, so that what is the same need not be read again
 */
export function validate(tree: Mapping, place: Omit<Completing, "tree" | "issues">, like?: Validated): Validated {
  const quick = like === undefined ? undefined : validateLike(tree, place, like);
  if (quick !== undefined) return quick;
  const issues: Issue[] = [];
  const plain = toPlain(tree);
  const parsed = pairSchema.safeParse(plain);
  const context: Completing = { ...place, tree, issues };
  if (!parsed.success) issues.push(...explainIssues(parsed.error.issues, tree, plain, pairSchema));
  const data = parsed.success ? parsed.data : plain;
  const values = completeValues(pairSchema, data, parsed.success ? (raw) => raw : parseAlone, context);
  completeMeshes(data, values, context);
  crossCheck({ values, tree, issues });
  return { tree, pair: data as Pair, values, issues };
}

type Section = keyof typeof pairSchema.shape;

/**
 * The same for values that differ from others, found right, in a few sections only: the rest is taken over. A patch shares
 * what it leaves alone, so that sections are compared by identity.
 *
 * @returns undefined when everything must be looked at: sections come or go, something is wrong, or meshes are to be read
 */
function validateLike(
  tree: Mapping,
  place: Omit<Completing, "tree" | "issues">,
  like: Validated,
): Validated | undefined {
  const keys = [...tree.entries.keys()] as Section[];
  if (like.issues.length > 0 || keys.length !== like.tree.entries.size) return undefined;
  const changed = keys.filter((key) => tree.entries.get(key)?.value !== like.tree.entries.get(key)?.value);
  if (changed.includes("provenance") || [...like.values.values()].some(isMesh)) return undefined;
  const data: Record<string, unknown> = {};
  for (const key of changed) {
    const parsed = pairSchema.shape[key]?.safeParse(toPlain(tree.entries.get(key)!.value));
    if (parsed === undefined || !parsed.success) return undefined;
    data[key] = parsed.data;
  }
  const issues: Issue[] = [];
  const values = new Map<string, Value>();
  const redone = (path: string): boolean => changed.some((key) => path === key || path.startsWith(`${key}.`));
  for (const [path, value] of like.values) if (!redone(path)) values.set(path, value);
  const own = completeValues(pairSchema, data, (raw) => raw, { ...place, tree, issues });
  for (const [path, value] of own) values.set(path, value);
  crossCheck({ values, tree, issues });
  if (issues.length > 0 || [...own.values()].some(isMesh)) return undefined;
  return { tree, pair: { ...like.pair, ...data } as Pair, values, issues };
}

function isMesh(value: Value): boolean {
  return typeof value === "object" && value.type === "mesh";
}

/** A value read on its own, when the whole could not be; undefined when it is at fault itself. */
const parseAlone: Parameters<typeof completeValues>[2] = (raw, schema) => {
  const result = z.safeParse(schema, raw);
  return result.success ? result.data : undefined;
};
