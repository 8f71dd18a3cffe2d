import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";
import { expect, test } from "vitest";

test("a run allocates nothing in its loop: ticks, steps, events, gusts", { timeout: 120_000 }, () => {
  const folder = mkdtempSync(join(tmpdir(), "davit-"));
  try {
    const outfile = join(folder, "allocation.mjs");
    const entry = fileURLToPath(new URL("../../../test/support/hookon-allocation.ts", import.meta.url));
    buildSync({ entryPoints: [entry], bundle: true, platform: "node", format: "esm", outfile, logLevel: "error" });
    // compiled at once, so that nothing is left to a compiler beside
    const flags = ["--expose-gc", "--no-concurrent-recompilation"];
    const bytes = (...how: string[]): number =>
      Number(execFileSync(process.execPath, [...flags, outfile, ...how], { encoding: "utf8" }));
    // a boxed number is 12 to 16 bytes; a few are left per tick of some twenty evaluations
    expect(bytes()).toBeLessThan(8);
    expect(bytes("careless")).toBeGreaterThan(16);
  } finally {
    rmSync(folder, { recursive: true });
  }
});
