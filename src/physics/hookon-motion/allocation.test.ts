import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";
import { expect, test } from "vitest";

test("steps allocate nothing; a whole run without gusts less than a number per evaluation", {
  timeout: 120_000,
}, () => {
  const folder = mkdtempSync(join(tmpdir(), "davit-"));
  try {
    const outfile = join(folder, "allocation.mjs");
    const entry = fileURLToPath(new URL("../../../test/support/hookon-allocation.ts", import.meta.url));
    buildSync({ entryPoints: [entry], bundle: true, platform: "node", format: "esm", outfile, logLevel: "error" });
    // compiled at once, so that nothing is left to a compiler beside; room for everything, so that nothing is collected meanwhile
    const flags = [
      "--expose-gc",
      "--no-concurrent-recompilation",
      "--min-semi-space-size=128",
      "--max-semi-space-size=128",
    ];
    const printed = execFileSync(process.execPath, [...flags, outfile], { encoding: "utf8" });
    const bytes = JSON.parse(printed) as Record<"whole" | "far" | "near" | "careless", number>;
    // a boxed number is 12 to 16 bytes
    expect(bytes.far).toBeLessThan(2);
    expect(bytes.near).toBeLessThan(2);
    expect(bytes.whole).toBeLessThan(12);
    expect(bytes.careless).toBeGreaterThan(12);
  } finally {
    rmSync(folder, { recursive: true });
  }
});
