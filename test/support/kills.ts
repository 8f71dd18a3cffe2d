/** Runs a batch at a queue while `kill -9` hits its worker, its coordinator and its server at random moments. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { RandomStream } from "../../src/math/random/index.ts";
import { bytesOf } from "./batch-job.ts";
import type { BatchProgram, Started } from "./batch-program.ts";
import { TestRedis } from "./redis.ts";
import { writeSmallPair } from "./small-pair.ts";

export interface KillPlan {
  readonly kills: number;
  /** Rows of each of the three conditions. */
  readonly samples: number;
  /** What chance hits whom and when. */
  readonly seed: number;
  /** Longest time between two kills [ms]. */
  readonly pause: number;
}

export interface KillOutcome {
  readonly kills: Readonly<Record<Victim, number>>;
  readonly rows: ReturnType<typeof bytesOf>;
  /** Of a batch that nothing happened to. */
  readonly undisturbed: ReturnType<typeof bytesOf>;
  readonly csvRows: readonly string[];
}

const VICTIMS = ["worker", "coordinator", "server"] as const;
type Victim = (typeof VICTIMS)[number];

export async function runWithKills(program: BatchProgram, plan: KillPlan): Promise<KillOutcome> {
  const folder = mkdtempSync(join(tmpdir(), "davit-kills-"));
  const redis = await TestRedis.start();
  const chance = new RandomStream(plan.seed, 0);
  const kills = { worker: 0, coordinator: 0, server: 0 };
  const pair = writeSmallPair(join(folder, "pair"));
  const asked = ["batch", pair, "--study", "tosses", "--samples", String(plan.samples), "--task-size", "20"];
  const out = join(folder, "disturbed");
  // slow until the last kill, so that there is something to disturb
  let env: Readonly<Record<string, string>> = { DAVIT_TEST_MS: "15" };
  const worker = (): Started => program.start(["worker", "--queue", redis.url, "--workers", "1"], env);
  const coordinator = (): Started => program.start([...asked, "--out", out, "--resume", "--queue", redis.url]);
  const running = { workers: [worker(), worker()], coordinator: coordinator() };
  // A coordinator that starts just while the server is dead says so and ends: whoever started it starts it again.
  const again = async (): Promise<boolean> => {
    const { child, said, ended } = running.coordinator;
    if (child.exitCode !== null) await ended;
    const unreachable = child.exitCode === 3 && said.stderr.includes("cannot be reached");
    if (unreachable) running.coordinator = coordinator();
    return unreachable;
  };
  try {
    const quiet = program.start([...asked, "--out", join(folder, "quiet"), "--workers", "0"]);
    if ((await quiet.ended) !== 0) throw new Error(`the undisturbed batch: ${quiet.said.stderr}`);
    for (let count = 0; count < plan.kills; count++) {
      await sleep(plan.pause * chance.uniform());
      const victim = VICTIMS[Math.floor(3 * chance.uniform())]!;
      if (count === plan.kills - 1) env = {};
      kills[victim] += 1;
      if (victim === "server") {
        await redis.kill();
        await sleep(200 * chance.uniform());
        await redis.up();
      } else if (victim === "coordinator") {
        if (!(await again()) && running.coordinator.child.exitCode !== null)
          throw new Error(tooEarly(count, running.coordinator));
        running.coordinator.child.kill("SIGKILL");
        await running.coordinator.ended;
        running.coordinator = coordinator();
      } else {
        const which = chance.uniform() < 0.5 ? 0 : 1;
        running.workers[which]!.child.kill("SIGKILL");
        running.workers[which] = worker();
      }
    }
    // the last workers are quick
    for (const { child } of running.workers) child.kill("SIGKILL");
    running.workers = [worker(), worker()];
    let code = await running.coordinator.ended;
    while (await again()) code = await running.coordinator.ended;
    if (code !== 0) throw new Error(`the coordinator ended with ${code}: ${running.coordinator.said.stderr}`);
    const rows = bytesOf(out);
    const csvRows = rows.csv.trimEnd().split("\n").slice(1);
    return { kills, rows, undisturbed: bytesOf(join(folder, "quiet")), csvRows };
  } finally {
    for (const { child } of [...running.workers, running.coordinator]) child.kill("SIGKILL");
    await redis.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

const tooEarly = (count: number, { child, said }: Started): string =>
  `the coordinator ended with ${child.exitCode} before kill ${count + 1}: ${said.stderr}${said.stdout}`;
