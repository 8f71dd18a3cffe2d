// Checks that every claim of verification points at a reference entry, and that every entry is used.
//
//   node scripts/check-reference.mjs [ROOT]
//
// An entry is reference/published/<slug>/ (source.json, values.json, note.md), reference/generated/<slug>/ (note.md or
// README.md, and its files) or reference/analytic/<name>, a folder or a .ts file. reference/index.json maps
// "published/<slug>" and so on to the test files that use the entry. Exits 1 with a list of what is wrong.
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, relative, resolve, sep } from "node:path";
import { fileURLToPath } from "node:url";

const root = resolve(process.argv[2] ?? join(dirname(fileURLToPath(import.meta.url)), ".."));
const statuses = ["read in the primary", "read second-hand", "from memory"];
const sourceKeys = ["title", "authors", "edition", "report", "places", "status"];
const problems = [];

const path = (...parts) => join(root, ...parts);
const shown = (file) => relative(root, file).split(sep).join("/");

function filesUnder(folder, wanted) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true }).flatMap((item) => {
    if (item.name === "node_modules" || item.name.startsWith(".")) return [];
    const full = join(folder, item.name);
    if (item.isDirectory()) return filesUnder(full, wanted);
    return wanted(item.name) ? [full] : [];
  });
}

function readJson(file) {
  try {
    return JSON.parse(readFileSync(file, "utf8"));
  } catch (error) {
    problems.push(`${shown(file)}: ${error instanceof Error ? error.message : String(error)}`);
    return undefined;
  }
}

/** All entries: name → status ("computed" for those that are not published). */
function findEntries() {
  const entries = new Map();
  const folder = (kind) => (existsSync(path("reference", kind)) ? readdirSync(path("reference", kind)) : []);
  for (const slug of folder("published")) {
    const name = `published/${slug}`;
    for (const file of ["source.json", "values.json", "note.md"]) {
      if (!existsSync(path("reference", name, file))) problems.push(`reference/${name}: ${file} is missing`);
    }
    const source = readJson(path("reference", name, "source.json")) ?? {};
    readJson(path("reference", name, "values.json"));
    for (const key of sourceKeys) {
      if (typeof source[key] !== "string" || source[key] === "") {
        problems.push(`reference/${name}/source.json: "${key}" is missing`);
      }
    }
    if (!statuses.includes(source.status)) {
      problems.push(`reference/${name}/source.json: status "${source.status}" is none of: ${statuses.join(", ")}`);
    }
    entries.set(name, source.status);
  }
  for (const slug of folder("generated")) {
    if (!statSync(path("reference", "generated", slug)).isDirectory()) continue;
    if (!["note.md", "README.md"].some((file) => existsSync(path("reference", "generated", slug, file)))) {
      problems.push(`reference/generated/${slug}: note.md or README.md is missing`);
    }
    entries.set(`generated/${slug}`, "computed");
  }
  for (const file of folder("analytic")) {
    const isFolder = statSync(path("reference", "analytic", file)).isDirectory();
    if (isFolder) entries.set(`analytic/${file}`, "computed");
    else if (/(?<!\.test)\.ts$/.test(file)) entries.set(`analytic/${file.slice(0, -3)}`, "computed");
  }
  return entries;
}

/** References in the @source and @verified tags of doc comments: [{ entry, line, verified }]. */
function claimsOf(text) {
  const claims = [];
  for (const comment of text.matchAll(/\/\*\*[\s\S]*?\*\//g)) {
    for (const tag of comment[0].matchAll(/@(source|verified)\b([\s\S]*?)(?=\n\s*\*?\s*@\w|\*\/)/g)) {
      for (const found of tag[2].matchAll(/\b(?:published|analytic|generated)\/[A-Za-z0-9][A-Za-z0-9-]*/g)) {
        const at = comment.index + tag.index + tag[0].indexOf(tag[2]) + found.index;
        claims.push({ entry: found[0], line: text.slice(0, at).split("\n").length, verified: tag[1] === "verified" });
      }
    }
  }
  return claims;
}

/** How often a test mentions an entry: a published one by its slug, others by their full name; longer names not counted. */
function mentionsOf(text, entry) {
  const name = entry.replace(/^published\//, "");
  return [...text.matchAll(new RegExp(`(?<![A-Za-z0-9-])${name}(?![A-Za-z0-9-])`, "g"))].length;
}

function checkClaims(entries) {
  for (const file of filesUnder(path("src"), (name) => /\.tsx?$/.test(name))) {
    for (const { entry, line, verified } of claimsOf(readFileSync(file, "utf8"))) {
      if (!entries.has(entry)) problems.push(`${shown(file)}:${line}: ${entry} is not an entry of reference/`);
      else if (verified && entries.get(entry) === "from memory") {
        problems.push(`${shown(file)}:${line}: ${entry} is from memory and verifies nothing`);
      }
    }
  }
}

function checkUse(entries) {
  const index = readJson(path("reference", "index.json")) ?? {};
  for (const name of Object.keys(index)) {
    if (!entries.has(name)) problems.push(`reference/index.json: ${name} is not an entry of reference/`);
  }
  for (const name of entries.keys()) {
    const tests = index[name];
    if (!Array.isArray(tests) || tests.length === 0) {
      problems.push(`reference/index.json: no test is listed for ${name}`);
      continue;
    }
    for (const test of tests) {
      if (!/\.test\.tsx?$/.test(test) || !existsSync(path(test))) {
        problems.push(`reference/index.json: ${name} lists ${test}, which is not a test file`);
      } else if (mentionsOf(readFileSync(path(test), "utf8"), name) === 0) {
        problems.push(`${test}: listed for ${name} in reference/index.json but does not mention it`);
      }
    }
  }
}

/** A value from memory guides and never gates: tests may name such an entry only as the first argument of `guide`. */
function checkRecalled(entries) {
  const recalled = [...entries].filter(([, status]) => status === "from memory").map(([name]) => name);
  const tests = [
    ...filesUnder(path("src"), (name) => /\.test\.tsx?$/.test(name)),
    ...["test", "reference"].flatMap((folder) => filesUnder(path(folder), (name) => /\.tsx?$/.test(name))),
  ];
  for (const file of tests) {
    const text = readFileSync(file, "utf8");
    for (const name of recalled) {
      const guided = [...text.matchAll(new RegExp(`\\bguide\\(\\s*"${name}"`, "g"))].length;
      if (mentionsOf(text, name) > guided) {
        problems.push(`${shown(file)}: ${name} is from memory and may only be named by guide("${name}", …)`);
      }
    }
  }
}

const entries = findEntries();
checkClaims(entries);
checkUse(entries);
checkRecalled(entries);
if (problems.length > 0) {
  console.error(problems.join("\n"));
  console.error(`${problems.length} problem${problems.length === 1 ? "" : "s"} with references`);
  process.exit(1);
}
console.log(`${entries.size} reference entries, every claim points at one and every one is used`);
