#!/usr/bin/env node
/**
 * Keeps files short: 400 lines at most, 30 for an `index.ts`. Files on the list below may be longer, each up to its
 * number; the numbers may only fall and the list may only shrink. Tests and `*.table.ts` are exempt.
 */
import { filesBelow, readSource } from "./source.mjs";

const LIMIT = 400;
const INDEX_LIMIT = 30;

/** path → lines it may have. */
const LONG_FILES = {};

const problems = [];
const paths = [...filesBelow("src", [".ts", ".tsx"]), ...filesBelow("scripts", [".mjs"])];
const lengths = new Map();
for (const path of paths) {
  if (/\.(test|table)\.tsx?$/.test(path)) continue;
  const lines = readSource(path).split("\n").length - 1;
  lengths.set(path, lines);
  if (path.endsWith("/index.ts") && lines > INDEX_LIMIT) {
    problems.push(`${path}: ${lines} lines; an index.ts has at most ${INDEX_LIMIT}`);
  }
  const allowed = LONG_FILES[path] ?? LIMIT;
  if (lines > allowed) problems.push(`${path}: ${lines} lines; at most ${allowed}. Which two subjects does it hold?`);
}
for (const [path, allowed] of Object.entries(LONG_FILES)) {
  const lines = lengths.get(path);
  if (lines === undefined) problems.push(`${path}: is on the list of long files but does not exist; take it off`);
  else if (lines <= LIMIT) problems.push(`${path}: has ${lines} lines now; take it off the list of long files`);
  else if (lines < allowed) problems.push(`${path}: has ${lines} lines now; lower its number from ${allowed}`);
}
for (const problem of problems) console.error(problem);
console.log(
  `check-ratchet: ${lengths.size} files, longest ${Math.max(...lengths.values())} lines, ${problems.length} problems`,
);
process.exitCode = problems.length === 0 ? 0 : 1;
