/** The import check finds what is planted for it, and nothing in innocent files. */
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, expect, it } from "vitest";
import { root } from "./davit.ts";

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** Files that are there in every case; all of them are in order. */
const INNOCENT = {
  "src/math/errors.ts": "export class BugError extends Error {}\n",
  "src/math/dense/index.ts": 'export { solve } from "./solve.ts";\n',
  "src/math/dense/solve.ts":
    'import { BugError } from "../errors.ts";\nexport const solve = () => new BugError("x");\n',
  "src/math/dense/solve.test.ts":
    'import { it } from "vitest";\nimport { readFileSync } from "node:fs";\nit("x", () => readFileSync("a"));\n',
  "src/physics/boom/types.ts": "export type A = number;\n",
  "src/physics/boom/index.ts":
    'export type { A } from "./types.ts";\nexport { solve } from "../../math/dense/index.ts";\n',
  "src/physics/snubber/index.ts": [
    'import type { A } from "../boom/types.ts";',
    '// new Date() and import x from "../../cli/run.ts" in a comment',
    "export const text = \"Math.random() and console.log are words here; import z from 'node:fs'\";",
    `export const also = \`process.exit \${1 + 1} /* not a comment */\`;`,
    "export const pattern = /[\"'`/*]/;",
    "export const update: A = 4 / 2 / 1; // Date.now()",
    "",
  ].join("\n"),
};

function check(planted: Readonly<Record<string, string>>): {
  readonly code: number | null;
  readonly problems: string[];
} {
  const folder = mkdtempSync(join(tmpdir(), "davit-imports-"));
  folders.push(folder);
  for (const [path, text] of Object.entries({ ...INNOCENT, ...planted })) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  const { status, stderr } = spawnSync(process.execPath, [join(root, "scripts/check-imports.mjs"), folder], {
    encoding: "utf8",
  });
  return { code: status, problems: stderr.split("\n").filter((line) => line !== "") };
}

it("finds nothing in files that keep the table, whatever their strings and comments say", () => {
  expect(check({})).toEqual({ code: 0, problems: [] });
});

it.each([
  ["src/math/a/x.ts", 'import { y } from "../../physics/boom/index.ts";', "math may not import physics"],
  ["src/physics/a/x.ts", 'import type { y } from "../../inputs/b/index.ts";', "physics may not import inputs"],
  ["src/physics/a/x.ts", 'export type B = import("../../math/dense/solve.ts").C;', "inner file of src/math/dense"],
  ["src/physics/a/x.ts", 'export { solve } from "../../math/dense/solve.ts";', "inner file of src/math/dense"],
  ["src/physics/a/x.ts", 'import {\n  solve,\n} from "../../math/dense/solve.ts";', "inner file of src/math/dense"],
  ["src/physics/a/x.ts", 'import { parse } from "yaml";', "may not import the package yaml"],
  ["src/physics/a/x.ts", 'import "../../math/dense/index.js";', "write the name with .ts"],
  ["src/physics/a/x.ts", 'import "../b/index.ts";', "does not exist"],
  ["src/studies/a/x.ts", 'import { readFileSync } from "node:fs";', "may not import Node's node:fs"],
  ["src/studies/a/x.ts", `export const x = \`\${new Date()}\`;`, "the clock"],
  ["src/studies/a/x.ts", "export const x = 1 / Math.random();", "chance"],
  ["src/outputs/a/x.ts", "console.log(1);", "the console"],
  ["src/outputs/a/x.ts", "export const x = await import(name);", "computed name"],
  ["src/inputs/a/x.ts", 'import "../../../test/e2e/davit.ts";', "outside src/"],
  ["src/inputs/a/x.test.ts", 'import { run } from "../../studies/hold/index.ts";', "inputs may not import studies"],
  ["src/desk/a/x.ts", "export const x = 1;", "not a room"],
])("%s: %s", (path, text, what) => {
  const extra = {
    "src/inputs/b/index.ts": "export const y = 1;\n",
    "src/studies/hold/index.ts": "export const run = 1;\n",
  };
  const { code, problems } = check({ ...extra, [path]: `${text}\n` });
  expect(code).toBe(1);
  expect(problems).toHaveLength(1);
  expect(problems[0]).toContain(what);
  expect(problems[0]).toMatch(new RegExp(`^${path}:1: `));
});

it("finds a cycle between folders, through type-only imports too", () => {
  const { problems } = check({
    "src/math/a/index.ts": 'import type { B } from "../b/index.ts";\nexport type A = B;\n',
    "src/math/b/index.ts": 'import type { C } from "../c/index.ts";\nexport type B = C;\n',
    "src/math/c/index.ts": 'import type { A } from "../a/index.ts";\nexport type C = A;\n',
  });
  expect(problems).toHaveLength(1);
  expect(problems[0]).toContain("src/math/a → src/math/b → src/math/c → src/math/a: a cycle");
});
