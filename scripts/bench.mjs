#!/usr/bin/env node
/**
 * Runs every benchmark, each `.bench.ts` file below `bench`, one after the other: `npm run bench`, or `npm run bench -- eig` for
 * those whose path contains a word. Each prints its own ratios, measured in one run; numbers of two machines are never compared.
 */

import { spawnSync } from "node:child_process";
import { loadavg } from "node:os";
import { filesBelow, root } from "./source.mjs";

const words = process.argv.slice(2);
const benches = filesBelow("bench", [".bench.ts", ".bench.mjs"]).filter((path) =>
  words.every((word) => path.includes(word)),
);
if (benches.length === 0) {
  console.error("bench: no benchmark has that name");
  process.exit(1);
}
console.log(`bench: load ${loadavg()[0].toFixed(2)} before the start`);
let failed = 0;
for (const path of benches) {
  console.log(`\n── ${path}`);
  const { status } = spawnSync(process.execPath, ["--import", "tsx", "--expose-gc", path], {
    cwd: root,
    stdio: ["ignore", "inherit", "inherit"],
    env: { ...process.env, OPENBLAS_NUM_THREADS: "1" },
  });
  if (status !== 0) failed += 1;
}
if (failed > 0) console.error(`\nbench: ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
