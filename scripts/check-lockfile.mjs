#!/usr/bin/env node
/** The lockfile must install from whatever registry a site uses: it names versions and checksums, never a host. */
import { readSource } from "./source.mjs";

const lock = JSON.parse(readSource("package-lock.json"));
const problems = [];
for (const [path, entry] of Object.entries(lock.packages)) {
  if (path === "") continue;
  if (entry.resolved !== undefined) problems.push(`${path}: names where it was fetched from`);
  if (entry.link !== true && entry.integrity === undefined) problems.push(`${path}: has no checksum`);
}
const { name, version } = JSON.parse(readSource("package.json"));
if (lock.name !== name || lock.version !== version) problems.push("name or version differ from package.json");
for (const problem of problems) console.error(`package-lock.json: ${problem}`);
console.log(`check-lockfile: ${Object.keys(lock.packages).length} packages, ${problems.length} problems`);
process.exitCode = problems.length === 0 ? 0 : 1;
