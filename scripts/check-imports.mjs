#!/usr/bin/env node
/**
 * Enforces who may import whom in `src/` (the table is explained in ARCHITECTURE.md). Type-only imports count.
 *
 * - A room imports only the rooms and packages of its row; Node's own modules only where the row says so.
 * - Across capability folders only `index.ts` or `types.ts` is imported, or a file that lies directly in a room.
 * - No cycle between folders.
 * - Pure rooms do not touch the clock, chance, the process, the console or timers.
 * - Unit tests (`*.test.ts`) may import any package, Node, `reference/` and `test/`, but keep the direction of rooms.
 */
import { dirname, posix } from "node:path";
import { pathToFileURL } from "node:url";
import { filesBelow, lineAt, readSource, root, stripped } from "./source.mjs";

const PURE = ["math", "inputs", "physics", "studies", "outputs", "wire"];

/** The import table: room → what it may import. */
export const ROOMS = {
  math: { rooms: [], packages: [] },
  inputs: { rooms: ["math"], packages: ["yaml", "zod", "csv-parse", "@noble/hashes"] },
  physics: { rooms: ["math"], packages: [] },
  studies: { rooms: ["math", "inputs", "physics"], packages: [] },
  outputs: { rooms: ["math", "inputs", "studies"], packages: ["@observablehq/plot"] },
  wire: { rooms: ["inputs", "studies", "outputs"], packages: ["zod"] },
  host: { rooms: PURE, packages: ["linkedom", "piscina", "bullmq", "ioredis", "@duckdb/node-api"], node: true },
  cli: { rooms: ["math", "inputs", "studies", "outputs", "wire", "host"], packages: ["commander"], node: true },
};

const FORBIDDEN_IN_PURE = [
  [/\bnew\s+Date\b|\bDate\s*\.\s*now\b|\bDate\s*\(/g, "the clock: pass the time in"],
  [/\bMath\s*\.\s*random\b/g, "chance: pass a random stream in"],
  [/(?<![.\w$])(?:process|globalThis|performance|crypto)\s*[.[(]/g, "the surroundings: pass the effect in"],
  [/(?<![.\w$])console\s*\./g, "the console: return what there is to say"],
  [/(?<![.\w$])(?:setTimeout|setInterval|setImmediate|queueMicrotask)\s*\(/g, "timers"],
  [/(?<![.\w$])require\s*\(/g, "require"],
];

const IMPORTS = [
  /\b(?:import|export)\b(?:\s+type\b)?[^;"'`()]*?\bfrom\s*["']([^"']+)["']/g,
  /(?<![.\w$])import\s*["']([^"']+)["']/g,
  /(?<![.\w$])import\s*\(\s*["']([^"']+)["']\s*\)/g,
];
const COMPUTED_IMPORT = /(?<![.\w$])import\s*\(\s*(?!["'])/g;

/** Every import in a source text: the name and the line it stands on. */
export function importsOf(text) {
  const { withStrings, code } = stripped(text);
  const found = [];
  for (const pattern of IMPORTS) {
    for (const match of withStrings.matchAll(pattern)) {
      // A match that begins inside a string is no import.
      if (code.slice(match.index, match.index + 6) === match[0].slice(0, 6)) {
        found.push({ name: match[1], line: lineAt(withStrings, match.index) });
      }
    }
  }
  return found;
}

/** `src/math/eigen/qr.ts` → its room, its folder (or the file itself when it lies directly in the room). */
export function placeOf(path) {
  const parts = path.split("/");
  const room = parts[1];
  return { room, inFolder: parts.length > 3, folder: parts.length > 3 ? parts.slice(0, 3).join("/") : path };
}

/**
 * @param sources path → text of every file of `src/`
 * @returns problems, one a line: `file:line: what`
 */
export function checkImports(sources) {
  const problems = [];
  const edges = new Map();
  for (const [path, text] of Object.entries(sources)) {
    const isTest = path.endsWith(".test.ts");
    const from = placeOf(path);
    const row = ROOMS[from.room];
    if (row === undefined) {
      problems.push(`${path}:1: src/${from.room} is not a room of the table`);
      continue;
    }
    for (const { name, line } of importsOf(text)) {
      const problem = name.startsWith(".")
        ? relativeProblem(path, from, row, isTest, posix.join(dirname(path), name), sources, edges)
        : packageProblem(from.room, row, isTest, name);
      if (problem !== undefined) problems.push(`${path}:${line}: ${problem}`);
    }
    if (PURE.includes(from.room) && !isTest) problems.push(...impurities(path, text));
  }
  return [...problems, ...cycles(edges)];
}

function relativeProblem(path, from, row, isTest, target, sources, edges) {
  if (!target.startsWith("src/")) {
    return isTest && /^(reference|test)\//.test(target) ? undefined : `imports ${target}, which lies outside src/`;
  }
  if (!target.endsWith(".ts")) return `imports ${target}: write the name with .ts`;
  if (sources[target] === undefined) return `imports ${target}, which does not exist`;
  const to = placeOf(target);
  if (to.room !== from.room && !row.rooms.includes(to.room)) {
    return `${from.room} may not import ${to.room} (allowed: ${row.rooms.join(", ") || "nothing"})`;
  }
  if (to.folder === from.folder) return undefined;
  if (!isTest) {
    if (!edges.has(from.folder)) edges.set(from.folder, new Map());
    edges.get(from.folder).set(to.folder, path);
  }
  const door = posix.basename(target);
  if (to.inFolder && door !== "index.ts" && door !== "types.ts") {
    // A room's own table of lazily loaded parts may name them.
    if (from.room === to.room && !from.inFolder) return undefined;
    return `imports an inner file of ${to.folder}; what others may use is in its index.ts or types.ts`;
  }
  return undefined;
}

function packageProblem(room, row, isTest, name) {
  if (isTest) return undefined;
  if (name.startsWith("node:")) return row.node === true ? undefined : `${room} may not import Node's ${name}`;
  const parts = name.split("/");
  const packageName = parts.slice(0, name.startsWith("@") ? 2 : 1).join("/");
  if (row.packages.includes(packageName)) return undefined;
  return `${room} may not import the package ${packageName} (allowed: ${row.packages.join(", ") || "none"})`;
}

function impurities(path, text) {
  const { withStrings, code } = stripped(text);
  const found = [];
  for (const [pattern, what] of FORBIDDEN_IN_PURE) {
    for (const match of code.matchAll(pattern))
      found.push(`${path}:${lineAt(code, match.index)}: a pure room touches ${what}`);
  }
  for (const match of withStrings.matchAll(COMPUTED_IMPORT)) {
    if (code.startsWith("import", match.index))
      found.push(`${path}:${lineAt(code, match.index)}: an import with a computed name`);
  }
  return found;
}

/** Each cycle between folders once, named by its smallest member. */
function cycles(edges) {
  const found = new Map();
  const done = new Set();
  const visit = (folder, trail) => {
    const start = trail.indexOf(folder);
    if (start >= 0) {
      const ring = trail.slice(start);
      found.set([...ring].sort()[0], `${[...ring, folder].join(" → ")}: a cycle between folders`);
      return;
    }
    if (done.has(folder)) return;
    for (const next of edges.get(folder)?.keys() ?? []) visit(next, [...trail, folder]);
    done.add(folder);
  };
  for (const folder of edges.keys()) visit(folder, []);
  return [...found.values()];
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  // Another tree may be named, so that the check itself can be checked.
  const base = process.argv[2] ?? root;
  const paths = filesBelow("src", [".ts", ".tsx"], base);
  const problems = checkImports(Object.fromEntries(paths.map((path) => [path, readSource(path, base)])));
  for (const problem of problems) console.error(problem);
  console.log(`check-imports: ${paths.length} files, ${problems.length} problems`);
  process.exitCode = problems.length === 0 ? 0 : 1;
}
