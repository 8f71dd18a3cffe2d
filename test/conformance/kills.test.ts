/** `kill -9` of worker, coordinator and server at random moments ends with exactly the planned rows. More in `scripts/soak.mjs`. */
import { afterAll, beforeAll, expect, it } from "vitest";
import { type BatchProgram, buildBatchProgram } from "../support/batch-program.ts";
import { runWithKills } from "../support/kills.ts";

let program: BatchProgram;
beforeAll(async () => {
  program = await buildBatchProgram();
});
afterAll(() => program?.remove());

const seed = Number(process.env.DAVIT_KILL_SEED ?? Date.now() % 1_000_000);

it(`after 21 kills at random moments: every planned row once, the same bytes (DAVIT_KILL_SEED=${seed})`, async () => {
  const plan = { kills: 21, samples: 1_000, seed, pause: 600 };
  const { kills, rows, undisturbed, csvRows } = await runWithKills(program, plan);
  expect(kills.worker + kills.coordinator + kills.server).toBe(21);
  const keys = csvRows.map((row) => row.split(",").slice(0, 2).join(","));
  expect(new Set(keys).size).toBe(3_000);
  expect(keys).toHaveLength(3_000);
  expect(rows.csv).toBe(undisturbed.csv);
  expect(rows.parquet === undisturbed.parquet).toBe(true);
});
