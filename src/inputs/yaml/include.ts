import type { Issue } from "../../math/errors.ts";
import { ALLOWED_REFERENCE, resolveInside } from "../text/index.ts";
import type { Mapping, Place, Tree } from "../tree/index.ts";
import { layer } from "../tree/index.ts";
import type { Files } from "./files.ts";
import { LIMITS } from "./limits.ts";
import { readYaml } from "./read.ts";

/** A pair file with everything it includes. */
export interface Assembled {
  /** Undefined when a file could not be read. */
  readonly tree: Mapping | undefined;
  /** The `provenance` of each file, by the name of the file in messages. */
  readonly provenance: ReadonlyMap<string, Tree>;
  /** Files in the order in which they were opened, by the name in messages. */
  readonly order: readonly string[];
}

interface Reading {
  readonly files: Files;
  readonly issues: Issue[];
  readonly provenance: Map<string, Tree>;
  readonly order: string[];
  /** Files read so far, a file read twice counted twice. */
  reads: number;
  failed: boolean;
}

/**
 * Reads a pair file and lays it upon the files it includes.
 *
 * `include` lists files that stand under the including one: a later entry wins over an earlier one, the file's own
 * values win over both. A file that includes itself by any way is an error that shows the way.
 *
 * @param inside  the pair file, relative to its folder
 * @param files   the files of the pair
 * @param issues  every problem found
 */
export function assemble(inside: string, files: Files, issues: Issue[]): Assembled {
  const reading: Reading = { files, issues, provenance: new Map(), order: [], reads: 0, failed: false };
  const tree = readOne(reading, inside, [], undefined);
  return {
    tree: reading.failed ? undefined : tree,
    provenance: reading.provenance,
    order: reading.order,
  };
}

function readOne(
  reading: Reading,
  inside: string,
  chain: readonly string[],
  from: (Place & { path: string }) | undefined,
): Mapping | undefined {
  const { files, issues, order } = reading;
  reading.reads++;
  const shown = files.shown(inside);
  const text = files.text(inside, LIMITS.yamlBytes, issues, from);
  if (text === undefined) return failed(reading);
  if (!order.includes(shown)) order.push(shown);
  const read = readYaml(text, shown);
  // a file included by two others is reported once
  for (const issue of read.issues) if (!issues.some((known) => sameIssue(known, issue))) issues.push(issue);
  if (read.tree === undefined && read.issues.length > 0) return failed(reading);
  if (read.tree === undefined || (read.tree.kind === "scalar" && read.tree.empty)) {
    issues.push({ path: "", file: shown, message: "the file is empty", allowed: "a pair file" });
    return failed(reading);
  }
  if (read.tree.kind !== "map") {
    issues.push({
      path: "",
      ...read.tree.place,
      message: "the file is not a map of keys",
      allowed: "key: value lines",
    });
    return failed(reading);
  }
  const provenance = read.tree.entries.get("provenance")?.value;
  if (provenance !== undefined) reading.provenance.set(shown, provenance);
  return underlay(reading, read.tree, inside, [...chain, inside]);
}

/** Lays a file's own values upon the files that it includes. */
function underlay(reading: Reading, own: Mapping, inside: string, chain: readonly string[]): Mapping {
  const include = own.entries.get("include")?.value;
  if (include === undefined || include.kind !== "list") return own;
  let base: Tree | undefined;
  include.items.forEach((item, i) => {
    const place = { ...item.place, path: `include.${i}` };
    if (item.kind !== "scalar" || item.empty) return;
    const target = resolveInside(inside, item.text);
    if (!target.ok) {
      const message = `the reference ${target.reason}`;
      reading.issues.push({ ...place, message, value: item.text, allowed: ALLOWED_REFERENCE });
      failed(reading);
    } else if (chain.includes(target.inside)) {
      const way = [...chain.slice(chain.indexOf(target.inside)), target.inside].join(" → ");
      const message = `files include each other: ${way}`;
      reading.issues.push({ ...place, message, value: item.text, allowed: "files that do not lead back" });
      failed(reading);
    } else if (reading.reads > LIMITS.includes) {
      const message = "too many files include each other";
      reading.issues.push({ ...place, message, value: item.text, allowed: `up to ${LIMITS.includes} files` });
      failed(reading);
    } else {
      const tree = readOne(reading, target.inside, chain, place);
      if (tree !== undefined) base = base === undefined ? tree : layer(base, tree);
    }
  });
  const top = { ...own, entries: new Map(own.entries) };
  return base === undefined ? top : (layer(base, top) as Mapping);
}

function failed(reading: Reading): undefined {
  reading.failed = true;
  return undefined;
}

function sameIssue(a: Issue, b: Issue): boolean {
  return a.file === b.file && a.line === b.line && a.column === b.column && a.message === b.message;
}
