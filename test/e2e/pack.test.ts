/** The packed package, installed elsewhere without development dependencies, does the job. */
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { davit, requireFreshBuild, root } from "./davit.ts";

const MEGABYTE = 1024 * 1024;
let folder = "";
let program = "";
let tarball = "";

function npm(cwd: string, ...args: string[]): string {
  const { status, stdout, stderr } = spawnSync("npm", args, {
    cwd,
    encoding: "utf8",
    stdio: ["ignore", "pipe", "pipe"],
  });
  if (status !== 0) throw new Error(`npm ${args.join(" ")}: ${stderr}`);
  return stdout;
}

beforeAll(() => {
  requireFreshBuild();
  folder = mkdtempSync(join(tmpdir(), "davit-pack-"));
  // The gate has built dist/ already; building again here would pull it from under the other tests.
  npm(root, "pack", "--ignore-scripts", "--silent", "--pack-destination", folder);
  tarball = join(folder, readdirSync(folder).find((name) => name.endsWith(".tgz"))!);
  writeFileSync(join(folder, "package.json"), JSON.stringify({ name: "elsewhere", private: true }));
  npm(folder, "install", "--omit=dev", "--offline", "--no-audit", "--no-fund", tarball);
  program = join(folder, "node_modules", ".bin", "davit");
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const installed = (...parts: string[]): string => join(folder, "node_modules", "davit", ...parts);

it("brings no other package and stays small", () => {
  const visible = readdirSync(join(folder, "node_modules")).filter((name) => !name.startsWith("."));
  expect(visible).toEqual(["davit"]);
  expect(statSync(tarball).size).toBeLessThan(3 * MEGABYTE);
});

it("carries its licence, those of the bundled libraries, the pages and the demo pair, and no source", () => {
  for (const file of [
    "LICENSE",
    "README.md",
    "NOTATION.md",
    "demo/longshore/longshore.pair.yaml",
    "docs/commands.md",
  ]) {
    expect(existsSync(installed(file)), file).toBe(true);
  }
  for (const leftOut of ["src", "test", "scripts"]) expect(existsSync(installed(leftOut)), leftOut).toBe(false);
  const licences = readFileSync(installed("dist/THIRD-PARTY-LICENSES.txt"), "utf8");
  for (const library of ["yaml", "zod", "csv-parse", "@noble/hashes", "@observablehq/plot", "linkedom", "commander"]) {
    expect(licences, library).toMatch(new RegExp(`^${library} \\d+\\.\\d+\\.\\d+$`, "m"));
  }
});

it("runs check, hold and clear through npm's own starter", async () => {
  const pair = installed("demo/longshore/longshore.pair.yaml");
  const run = (...args: string[]) => davit(args, { program, cwd: folder });
  expect(await run("--version")).toMatchObject({
    code: 0,
    stdout: `${JSON.parse(readFileSync(installed("package.json"), "utf8")).version}\n`,
  });
  expect(await run("check", pair)).toMatchObject({ code: 0, stderr: "" });
  const hold = await run("hold", pair, "--variant", "Rev B", "--parts", "none", "--json", "-");
  expect(hold).toMatchObject({ code: 1, stderr: "" });
  expect(JSON.parse(hold.stdout)).toMatchObject({ pair: "Longshore", variant: "Rev B" });
  expect(
    await run(
      "clear",
      pair,
      "--parts",
      "none",
      "--set",
      "studies.hookon=~",
      "--set",
      "studies.release=~",
      "--out",
      "report",
    ),
  ).toMatchObject({
    code: 1,
    stderr: "",
  });
  expect(readFileSync(join(folder, "report", "clearance.html"), "utf8")).toContain("<svg");
});
