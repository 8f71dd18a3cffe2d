/** `./davit` starts from anywhere and says in plain words why it cannot. */
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { davit, launcher, requireFreshBuild, root } from "./davit.ts";

let folder = "";
beforeAll(() => {
  requireFreshBuild();
  folder = mkdtempSync(join(tmpdir(), "davit-launcher-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it("works from another folder, and through a chain of symbolic links", async () => {
  symlinkSync(launcher, join(folder, "one"));
  symlinkSync("one", join(folder, "two"));
  for (const program of [launcher, join(folder, "two")]) {
    expect(await davit(["--version"], { program, cwd: folder })).toMatchObject({ code: 0, stderr: "" });
  }
});

it("says what to do when nothing is built", async () => {
  mkdirSync(join(folder, "copy", "bin"), { recursive: true });
  const program = join(folder, "copy", "bin", "davit.cjs");
  copyFileSync(join(root, "bin", "davit.cjs"), program);
  const { code, stdout, stderr } = await davit(["--version"], { program });
  expect({ code, stdout }).toEqual({ code: 3, stdout: "" });
  expect(stderr).toMatch(/^davit is not built: .*npm ci.*\n$/);
});

it("says which Node it needs on an older one", async () => {
  const old = 'Object.defineProperty(process.versions, "node", { value: "18.20.0" });';
  const env = { NODE_OPTIONS: `--import=data:text/javascript,${encodeURIComponent(old)}` };
  const { code, stdout, stderr } = await davit(["--version"], { env });
  expect({ code, stdout }).toEqual({ code: 3, stdout: "" });
  expect(stderr).toContain("davit needs Node 20 or newer; this is Node 18.20.0.\n");
});
