#!/usr/bin/env node
/**
 * Writes the pages that are generated from the source: `npm run docs`. With `--check` writes nothing and fails when a page is stale.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { tsImport } from "tsx/esm/api";
import { root } from "./source.mjs";

const { commandReference } = await tsImport("../src/cli/reference.ts", import.meta.url);
const pages = { "docs/commands.md": commandReference() };

const check = process.argv.includes("--check");
let stale = 0;
for (const [path, text] of Object.entries(pages)) {
  const file = join(root, path);
  const same = existsSync(file) && readFileSync(file, "utf8") === text;
  if (same) console.log(`${path}: up to date`);
  else if (check) {
    stale += 1;
    console.error(`${path}: is stale; run \`npm run docs\` and commit it`);
  } else {
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
    console.log(`${path}: written`);
  }
}
process.exitCode = stale === 0 ? 0 : 1;
