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
  /** Only meaningful without issues. */
  readonly pair: Pair;
  readonly values: ReadonlyMap<string, Value>;
  readonly issues: readonly Issue[];
}

/**
 * Checks one set of values of the pair: each alone, then together.
 *
 * The cross checks run on whatever could be read, so that all problems are reported at once.
 */
export function validate(tree: Mapping, place: Omit<Completing, "tree" | "issues">): Validated {
  const issues: Issue[] = [];
  const plain = toPlain(tree);
  const parsed = pairSchema.safeParse(plain);
  const context: Completing = { ...place, tree, issues };
  if (!parsed.success) issues.push(...explainIssues(parsed.error.issues, tree, plain, pairSchema));
  const data = parsed.success ? parsed.data : plain;
  const values = completeValues(pairSchema, data, parsed.success ? (raw) => raw : parseAlone, context);
  completeMeshes(data, values, context);
  crossCheck({ values, tree, issues });
  return { pair: data as Pair, values, issues };
}

/** A value read on its own, when the whole could not be; undefined when it is at fault itself. */
const parseAlone: Parameters<typeof completeValues>[2] = (raw, schema) => {
  const result = z.safeParse(schema, raw);
  return result.success ? result.data : undefined;
};
