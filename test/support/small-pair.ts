/** The demo pair without its variants, which take most of the time that opening it takes. */
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { parse, stringify } from "yaml";
import { type LoadedPair, loadPair, type ReadFile } from "../../src/inputs/index.ts";
import { DEMO, readDisk } from "./load-demo.ts";

const { variants, clearVariants, ...rest } = parse(readFileSync(DEMO, "utf8")) as Record<string, unknown>;
const TEXT = stringify(rest);

export const readSmall: ReadFile = (path) =>
  path === DEMO ? { ok: true, bytes: new TextEncoder().encode(TEXT) } : readDisk(path);

const known = new Map<string, LoadedPair>();

export function loadSmall(set: readonly string[]): LoadedPair {
  const key = set.join("\n");
  const loaded = known.get(key) ?? loadPair(DEMO, readSmall, { set });
  known.set(key, loaded);
  return loaded;
}

/** Writes it with its tables into a folder; returns the path of the pair file. */
export function writeSmallPair(folder: string): string {
  cpSync(dirname(DEMO), folder, { recursive: true });
  const path = join(folder, basename(DEMO));
  writeFileSync(path, TEXT);
  return path;
}
