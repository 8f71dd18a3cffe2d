import type { Issue } from "../../math/errors.ts";
import { InputError } from "../../math/errors.ts";
import type { Value } from "../checks/index.ts";
import { notesOn } from "../checks/index.ts";
import type { ImportStep } from "../meshes/index.ts";
import type { Pair } from "../schema/index.ts";
import { pairSchema } from "../schema/index.ts";
import { fileNameOf } from "../text/index.ts";
import type { Mapping, Tree } from "../tree/index.ts";
import { find } from "../tree/index.ts";
import type { Patch, VariantNames } from "../variants/index.ts";
import { applyPatches, readNames, SET_FILE, setPatches, unknownVariant, variantPatches } from "../variants/index.ts";
import type { Files, FileUsed, ReadFile } from "../yaml/index.ts";
import { assemble, openFiles } from "../yaml/index.ts";
import { collectIssues, sortIssues } from "./issues.ts";
import type { Validated } from "./validate.ts";
import { validate } from "./validate.ts";
import { newShared } from "./values.ts";

/** What to load besides the base values. */
export interface LoadOptions {
  /** Name of a variant or of the base; the pair's default when left out. */
  readonly variant?: string;
  /** `PATH=VALUE` texts, applied last and in order. */
  readonly set?: readonly string[];
  /** Turns STEP files into triangles; without it they are refused. */
  readonly importStep?: ImportStep;
}

/** A pair that passed every check. */
export interface LoadedPair {
  readonly pair: Pair;
  /** Name of the variant, or of the base. */
  readonly variant: string;
  /** Base first, then the variants in file order. */
  readonly variants: readonly string[];
  /** Those of them that go into the clearance report. */
  readonly clearVariants: readonly string[];
  /** Every file read, the pair file first; paths are relative to its folder. */
  readonly files: readonly FileUsed[];
  /** Every value by its path. */
  readonly values: ReadonlyMap<string, Value>;
  /** Remarks that are no errors. */
  readonly notes: readonly string[];
}

/**
 * Reads, assembles and checks a pair file.
 *
 * The base and every variant are checked, so that a file is either right or not, whatever was asked for.
 *
 * @param path     of the pair file
 * @param read     reads a file
 * @param options  variant and single values
 * @throws {InputError} with every problem found, in the order of files and lines
 */
export function loadPair(path: string, read: ReadFile, options: LoadOptions = {}): LoadedPair {
  const issues: Issue[] = [];
  const inside = fileNameOf(path);
  const files = openFiles(path, read);
  const assembled = assemble(inside, files, issues);
  const order = () => [...assembled.order, ...files.used().map((file) => files.shown(file.path)), SET_FILE];
  if (assembled.tree === undefined) throw new InputError(sortIssues(issues, order()));
  const { tree, provenance } = assembled;
  const names = readNames(tree, issues);
  const wanted = options.variant ?? names.chosen;
  if (!names.all.includes(wanted)) issues.push({ path: "", file: "--variant", ...unknownVariant(wanted, names.all) });
  const sets = options.set ?? [];
  const place = { files, inside, provenance, shared: newShared(), importStep: options.importStep };
  const check = (subject: Mapping, like?: Validated) => validate(subject, place, like);
  const trees = variantTrees(tree, names, issues);
  const base = check(tree);
  collectIssues(issues, base.issues);
  let chosen: { tree: Mapping; result: Validated } = { tree, result: base };
  for (const [name, patched] of trees) {
    const result = check(patched, base);
    collectIssues(issues, result.issues, `in variant "${name}": `);
    if (name === wanted) chosen = { tree: patched, result };
  }
  if (sets.length > 0) {
    const patched = applyPatches(chosen.tree, setPatches(chosen.tree, sets, pairSchema, issues));
    chosen = { tree: patched, result: check(patched, chosen.result) };
    collectIssues(issues, chosen.result.issues, "with --set: ");
  }
  if (issues.length > 0) throw new InputError(sortIssues(issues, order()));
  return loaded(chosen.result, chosen.tree, wanted, names, files);
}

function variantTrees(tree: Mapping, names: VariantNames, issues: Issue[]): Map<string, Mapping> {
  const trees = new Map<string, Mapping>();
  for (const name of names.all.slice(1)) {
    const variant = find(tree, ["variants", name]);
    if (variant?.kind !== "map") continue;
    const patches: readonly Patch[] = variantPatches(tree, variant, `variants.${name}`, pairSchema, issues);
    trees.set(name, applyPatches(tree, patches));
  }
  return trees;
}

function loaded(result: Validated, tree: Tree, variant: string, names: VariantNames, files: Files): LoadedPair {
  return {
    pair: result.pair,
    variant,
    variants: names.all,
    clearVariants: names.cleared,
    files: files.used(),
    values: result.values,
    notes: notesOn(result.values, tree),
  };
}
