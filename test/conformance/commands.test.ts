/** The commands as a user starts them: batch, interruption, resume, replay; what they say and how they end. */
import { spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, it } from "vitest";
import { type BatchProgram, buildBatchProgram } from "../support/batch-program.ts";
import { writeSmallPair } from "../support/small-pair.ts";

let program: BatchProgram;
let folder = "";
let pair = "";
beforeAll(async () => {
  program = await buildBatchProgram();
  folder = mkdtempSync(join(tmpdir(), "davit-commands-"));
  pair = writeSmallPair(join(folder, "pair"));
});
afterAll(() => {
  program?.remove();
  rmSync(folder, { recursive: true, force: true });
});

async function davit(...args: string[]): Promise<{ code: number | null; stdout: string; stderr: string }> {
  const { ended, said } = program.start(args);
  return { code: await ended, ...said };
}
const batch = (...more: string[]) => ["batch", pair, "--study", "tosses", "--samples", "500", ...more];
const rows = (name: string): string => readFileSync(join(folder, name, "rows.csv"), "utf8");

it("batch: rows, shares with both intervals, and the same bytes for 0 and 2 workers", async () => {
  const out = join(folder, "a");
  const { code, stdout, stderr } = await davit(...batch("--out", out, "--workers", "0"));
  expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
  expect(stdout).toContain("tosses, Longshore");
  expect(stdout).toMatch(/calm +500 +\d+ +\d\d\.\d % +\d\d\.\d % to \d\d\.\d % +\d\d\.\d % to \d\d\.\d %/);
  expect(stdout).toContain(`Rows: ${out}/rows.parquet`);
  expect(rows("a").split("\n").slice(0, 2)[0]).toBe("condition,sample,hit,how,miss_m,closure_m_per_s");
  expect(rows("a").trimEnd().split("\n")).toHaveLength(1501);
  await davit(...batch("--out", join(folder, "b"), "--workers", "2"));
  expect(rows("b")).toBe(rows("a"));
});

it("batch: Ctrl-C ends with 3, keeps every row, and --resume alone continues", async () => {
  const out = join(folder, "c");
  const started = program.start(batch("--out", out, "--workers", "1", "--set", "carried.CLmax=1.3"), {
    DAVIT_TEST_MS: "5",
  });
  const shards = () => {
    try {
      return readdirSync(join(out, "shards")).length;
    } catch {
      return 0;
    }
  };
  while (shards() < 3) await sleep(20);
  started.child.kill("SIGINT");
  expect(await started.ended).toBe(3);
  expect(started.said.stdout).toMatch(/Interrupted: \d+ of 1500 rows are kept in .*; continue with --resume\./);
  const kept = Number(/Interrupted: (\d+)/.exec(started.said.stdout)![1]);
  const again = await davit("batch", pair, "--out", out, "--workers", "0", "--resume");
  expect(again.code).toBe(0);
  expect(again.stdout).toContain(`${1500 - kept} rows computed`);
  expect(again.stdout).toContain(`${kept} rows were there`);
  // the override changes nothing that is drawn
  expect(rows("c")).toBe(rows("a"));
  const other = await davit("batch", pair, "--out", out, "--samples", "400", "--resume");
  expect(other.code).toBe(2);
  expect(other.stderr).toContain("--samples: is not that of the batch in the folder (found 400; allowed: 500)");
});

it("batch: every wrong option at once, exit 2", async () => {
  const wrong = ["--samples", "0", "--seed", "-1", "--until-width", "200 %", "--task-size", "x", "--workers", "1.5"];
  const { code, stderr } = await davit("batch", pair, "--study", "none", "--out", join(folder, "w"), ...wrong);
  expect(code).toBe(2);
  for (const name of ["--study", "--samples", "--seed", "--until-width", "--task-size", "--workers"]) {
    expect(stderr).toContain(`${name}: `);
  }
  const address = ["--queue", "http://queue.example"];
  const queue = await davit(...batch("--out", join(folder, "w"), ...address));
  expect(queue).toMatchObject({ code: 2, stderr: expect.stringContaining("--queue: is no address of a queue") });
  expect(existsSync(join(folder, "w"))).toBe(false);
  const worker = await davit("worker", ...address);
  expect(worker).toMatchObject({ code: 2, stderr: expect.stringContaining("--queue: is no address of a queue") });
  const condition = await davit(...batch("--out", join(folder, "w"), "--conditions", "calm,stormy"));
  expect(condition.stderr).toContain("found stormy; allowed: calm, rough, rough-night");
  const one = ["--condition", "stormy", "--sample", "0", "--out", join(folder, "w")];
  const replayed = await davit("replay", pair, "--study", "tosses", ...one);
  expect(replayed.stderr).toContain("--condition: tosses has no such condition (found stormy");
});

it("batch: --until-width ends each condition early and says so", async () => {
  const { code, stdout } = await davit(...batch("--out", join(folder, "u"), "--until-width", "20 %", "--workers", "0"));
  expect(code).toBe(0);
  expect(stdout).toContain("calm *");
  expect(stdout).toContain("ended early");
  expect(rows("a").startsWith(rows("u").split("\n").slice(0, 20).join("\n"))).toBe(true);
});

it("replay: from the pair and from the folder, the same history; the row is the one in the batch", async () => {
  const asked = ["--condition", "rough", "--sample", "17"];
  const first = await davit("replay", pair, "--study", "tosses", ...asked, "--out", join(folder, "r1"));
  expect(first).toMatchObject({ code: 0, stderr: "" });
  const second = await davit("replay", join(folder, "a"), ...asked, "--out", join(folder, "r2"));
  expect(second).toMatchObject({ code: 0, stderr: "" });
  expect(second.stdout).toContain("The row is the one in the batch.");
  for (const name of ["tosses-rough-17.csv", "tosses-rough-17-events.csv", "tosses-rough-17.parquet"]) {
    const [one, two] = ["r1", "r2"].map((place) => readFileSync(join(folder, place, name)));
    expect(one!.equals(two!), name).toBe(true);
  }
  const csv = readFileSync(join(folder, "r1", "tosses-rough-17.csv"), "utf8").split("\n");
  expect(csv[0]).toBe("time_s,gap_m,how");
  expect(csv[2]).toMatch(/^3,\d+\.\d+,clean$/);
  const other = await davit("replay", join(folder, "a"), ...asked, "--seed", "9", "--out", join(folder, "r3"));
  expect(other.code).toBe(2);
  expect(other.stderr).toContain("--seed: is not that of the batch");
});

it("without the library for Parquet: batch says what to install, replay writes the rest", () => {
  const alone = join(folder, "alone");
  cpSync(fileURLToPath(new URL(".", program.sampler)), alone, { recursive: true });
  const start = (...args: string[]) =>
    spawnSync(process.execPath, [join(alone, "batch-main.js"), ...args], { encoding: "utf8" });
  const refused = start(...batch("--out", join(folder, "n")));
  expect(refused.status).toBe(3);
  expect(refused.stderr).toContain("which is not installed; install it beside davit: npm install @duckdb/node-api@");
  const asked = ["--condition", "calm", "--sample", "3", "--out", join(folder, "r4")];
  const replayed = start("replay", pair, "--study", "tosses", ...asked);
  expect(replayed.status).toBe(0);
  expect(replayed.stdout).toContain("is not written: it needs the package @duckdb/node-api");
  expect(readdirSync(join(folder, "r4")).sort()).toEqual(["tosses-calm-3-events.csv", "tosses-calm-3.csv"]);
});
