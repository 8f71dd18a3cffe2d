/**
 * Speed of the hook-on motion on the invented pair: time per evaluation of the right-hand side, best and median of rounds, and runs per
 * second of approaches of 15 s that end without contact, and with ring-down. Bundled first, as the program is shipped.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";

const folder = mkdtempSync(join(tmpdir(), "davit-"));
try {
  const outfile = join(folder, "hookon.mjs");
  const entry = fileURLToPath(new URL("./measure.ts", import.meta.url));
  buildSync({ entryPoints: [entry], bundle: true, platform: "node", format: "esm", outfile, logLevel: "error" });
  console.log(`load ${loadavg()[0].toFixed(2)} before the start`);
  const { status } = spawnSync(process.execPath, [outfile], { stdio: "inherit" });
  process.exitCode = status ?? 1;
} finally {
  rmSync(folder, { recursive: true });
}
