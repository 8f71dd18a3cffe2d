#!/usr/bin/env node
/**
 * Runs batches at a queue for as long as one likes while worker, coordinator and server are killed at random moments:
 * `node scripts/soak.mjs [ROUNDS] [KILLS]`, 10 rounds of 100 kills if not given. Ends with 1 at the first row that is missing,
 * double or different; the seed it prints repeats the order of events.
 */
import { tsImport } from "tsx/esm/api";

const [rounds = 10, kills = 100] = process.argv.slice(2).map(Number);
const { buildBatchProgram } = await tsImport("../test/support/batch-program.ts", import.meta.url);
const { runWithKills } = await tsImport("../test/support/kills.ts", import.meta.url);

const program = await buildBatchProgram();
try {
  for (let round = 1; round <= rounds; round++) {
    const seed = Date.now() % 1_000_000;
    const started = performance.now();
    // rows enough to last: two workers of 15 ms a row at most, over kills half a second apart
    const samples = Math.ceil((kills * 70) / 20) * 20;
    const result = await runWithKills(program, { kills, samples, seed, pause: 1_000 });
    const same = result.rows.csv === result.undisturbed.csv && result.rows.parquet === result.undisturbed.parquet;
    const count = `${result.csvRows.length} of ${3 * samples} rows`;
    const hit = Object.entries(result.kills).map(([who, times]) => `${who} ${times}`);
    const seconds = ((performance.now() - started) / 1000).toFixed(0);
    console.log(
      `round ${round}, seed ${seed}: ${hit.join(", ")}; ${count}, ${same ? "the same bytes" : "DIFFERENT"}, ${seconds} s`,
    );
    if (!same || result.csvRows.length !== 3 * samples) process.exitCode = 1;
    if (process.exitCode === 1) break;
  }
} finally {
  program.remove();
}
