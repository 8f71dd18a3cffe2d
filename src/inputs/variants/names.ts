import type { Issue } from "../../math/errors.ts";
import { isReserved, RESERVED_NAME } from "../schema/index.ts";
import { nearest } from "../text/index.ts";
import type { Mapping, Tree } from "../tree/index.ts";
import { find, placeOf } from "../tree/index.ts";
import { LIMITS } from "../yaml/index.ts";

/** The names under which the values of a pair can be asked for. */
export interface VariantNames {
  readonly base: string;
  /** Base first, then the variants in file order. */
  readonly all: readonly string[];
  /** What runs when nothing is asked for. */
  readonly chosen: string;
  /** Those that go into the clearance report, in the order of `all`. */
  readonly cleared: readonly string[];
}

const DEFAULT_BASE = "base";

/** Reads the names of base and variants; problems with them go to `issues`. */
export function readNames(tree: Mapping, issues: Issue[]): VariantNames {
  const base = textAt(tree, "base") ?? DEFAULT_BASE;
  if (isReserved(base)) {
    const at = { path: "base", ...placeOf(tree, ["base"]) };
    issues.push({ ...at, message: RESERVED_NAME, value: base, allowed: "another name" });
  }
  const variants = find(tree, ["variants"]);
  const all = [base];
  if (variants?.kind === "map") {
    for (const { key, keyPlace } of variants.entries.values()) {
      if (all.length > LIMITS.variants) {
        const allowed = `up to ${LIMITS.variants}`;
        issues.push({ path: "variants", ...keyPlace, message: "there are too many variants", allowed });
        break;
      }
      const same = all.find((name) => name.toLowerCase() === key.toLowerCase());
      if (same === undefined) all.push(key);
      else {
        const other = same === base ? `the base "${same}"` : `the variant "${same}"`;
        const message = `has the same name as ${other}`;
        issues.push({ path: `variants.${key}`, ...keyPlace, message, value: key, allowed: "a name of its own" });
      }
    }
  }
  const cleared = clearedOf(tree, all, issues);
  const wanted = textAt(tree, "defaultVariant");
  if (wanted === undefined || all.includes(wanted)) return { base, all, chosen: wanted ?? base, cleared };
  issues.push({ path: "defaultVariant", ...placeOf(tree, ["defaultVariant"]), ...unknownVariant(wanted, all) });
  return { base, all, chosen: base, cleared };
}

function clearedOf(tree: Mapping, all: readonly string[], issues: Issue[]): readonly string[] {
  const at = find(tree, ["clearVariants"]);
  if (at?.kind !== "list") return all;
  const named = new Set<string>();
  at.items.forEach((item, i) => {
    if (item.kind !== "scalar") return;
    const name = item.text.trim();
    if (all.includes(name)) named.add(name);
    else
      issues.push({
        path: `clearVariants.${i}`,
        ...placeOf(tree, ["clearVariants", String(i)]),
        ...unknownVariant(name, all),
      });
  });
  return all.filter((name) => named.has(name));
}

/** Message for a variant that does not exist. */
export function unknownVariant(wanted: string, all: readonly string[]): Pick<Issue, "message" | "value" | "allowed"> {
  const near = nearest(wanted, all);
  const message = `unknown variant${near === undefined ? "" : `; did you mean ${near}?`}`;
  return { message, value: wanted, allowed: all.join(", ") };
}

function textAt(tree: Tree, key: string): string | undefined {
  const at = find(tree, [key]);
  return at?.kind === "scalar" && !at.empty ? at.text.trim() : undefined;
}
