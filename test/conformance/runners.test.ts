/** One suite for every runner: in this thread, in threads, by workers at a queue. What they give is the same bytes. */
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readBatch } from "../../src/host/batch/index.ts";
import {
  type BatchTask,
  openJob,
  type Runner,
  type TaskRows,
  taskRunner,
  tasksOf,
} from "../../src/host/batch-plan/index.ts";
import { queueRunner, threadsRunner } from "../../src/host/batch-runners/index.ts";
import { CannotRun, CannotWrite } from "../../src/host/index.ts";
import { DomainError } from "../../src/math/errors.ts";
import { bytesOf, inline, run, testJob } from "../support/batch-job.ts";
import { type BatchProgram, buildBatchProgram, type Started } from "../support/batch-program.ts";
import { TEST_STUDIES } from "../support/batch-study.ts";
import { TestRedis } from "../support/redis.ts";

const TIMING = { lock: 1_000, stalled: 500, sweep: 300 };
let folder = "";
let program: BatchProgram;
let redis: TestRedis;
/** The file that makes one thread end, once. */
let crash = "";
let workers: Started[] = [];
let reference: ReturnType<typeof bytesOf>;
let counter = 0;
const fresh = (): string => join(folder, `batch-${counter++}`);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "davit-runners-"));
  crash = join(folder, "crash");
  // threads of this process see it too
  process.env.DAVIT_TEST_CRASH = crash;
  [program, redis] = await Promise.all([buildBatchProgram(), TestRedis.start()]);
  workers = [0, 1].map(() => program.start(["worker", "--queue", redis.url, "--workers", "2"]));
  const place = fresh();
  await run(place);
  reference = bytesOf(place);
});
afterAll(async () => {
  for (const { child } of workers) child.kill("SIGKILL");
  await redis?.stop();
  program?.remove();
  rmSync(folder, { recursive: true, force: true });
});

const RUNNERS: readonly { readonly name: string; readonly make: () => Promise<Runner>; readonly crashes: boolean }[] = [
  { name: "in this thread", make: async () => inline(), crashes: false },
  { name: "in 2 threads", make: () => threadsRunner(program.sampler, 2), crashes: true },
  { name: "by workers at a queue", make: () => queueRunner(redis.url, TIMING), crashes: true },
];

it.each([1, 7])("%i threads: the same bytes", async (threads) => {
  const place = fresh();
  await run(place, { runner: await threadsRunner(program.sampler, threads) });
  expect(bytesOf(place)).toEqual(reference);
});

describe.each(RUNNERS)("$name", ({ make, crashes }) => {
  it("the same bytes, and every row once", async () => {
    const place = fresh();
    const outcome = await run(place, { runner: await make() });
    expect(outcome).toMatchObject({ kind: "finished", computed: 900, kept: 0, damaged: 0 });
    expect(bytesOf(place)).toEqual(reference);
    const { tables } = await readBatch(place);
    for (const { index } of tables) expect([...index]).toEqual(Array.from({ length: 300 }, (_, i) => i));
  });

  it("hands every task that it is given to `deliver`, and settles after the last", async () => {
    const job = testJob({ samples: 60, taskSize: 7 });
    const tasks = tasksOf(job.plan);
    const waiting = [...tasks];
    const delivered = new Map<number, TaskRows>();
    const controller = new AbortController();
    await (await make()).run({
      job,
      run: `deliver-${counter++}`,
      next: () => waiting.shift(),
      wanted: () => true,
      deliver: async (rows) => void delivered.set(rows.task.id, rows),
      signal: controller.signal,
      say: () => {},
    });
    expect([...delivered.keys()].sort((a, b) => a - b)).toEqual(tasks.map(({ id }) => id));
    const compute = taskRunner(job.plan, await openJob(job, TEST_STUDIES, "test"));
    for (const { task, values } of delivered.values()) expect(values).toEqual(await compute(task as BatchTask));
  });

  it("interrupted: what is finished is kept, and the rest gives the same bytes", async () => {
    const place = fresh();
    const controller = new AbortController();
    // more tasks than a queue's coordinator hands out at once; the bytes do not depend on how rows are cut into tasks
    const job = testJob({ taskSize: 5 });
    const first = await run(place, {
      job,
      runner: await make(),
      signal: controller.signal,
      onProgress: (rows) => void (rows >= 200 && controller.abort()),
    });
    expect(first.kind).toBe("interrupted");
    expect(first.computed).toBeGreaterThanOrEqual(200);
    expect(readdirSync(place)).not.toContain("rows.parquet");
    const second = await run(place, { job, runner: await make(), resume: true });
    expect(second).toMatchObject({ kind: "finished", kept: first.computed, computed: 900 - first.computed });
    expect(bytesOf(place)).toEqual(reference);
  });

  it("ends early at the same row, whatever else was computed meanwhile", async () => {
    const [own, other] = [fresh(), fresh()];
    const job = testJob({ samples: 400, taskSize: 10, conditions: ["calm", "rough"] });
    const outcome = await run(own, { job, runner: await make(), untilWidth: 0.16 });
    await run(other, { job, untilWidth: 0.16 });
    expect(outcome.kind).toBe("finished");
    expect(outcome.counts.map(({ early }) => early)).toEqual([true, true]);
    for (const { rows } of outcome.counts) expect(rows).toBeLessThan(300);
    expect(bytesOf(own)).toEqual(bytesOf(other));
  });

  it("a sample that cannot be computed ends it in words, and what was stored can be continued", async () => {
    const place = fresh();
    const job = testJob({ study: "failing", samples: 80, taskSize: 20 });
    const failure = await run(place, { job, runner: await make() }).catch((error: unknown) => error);
    expect(failure).toBeInstanceOf(DomainError);
    expect((failure as Error).message).toMatch(/^failing, \S+, sample 61: airspeed is -3; allowed: above 0 m\/s$/);
    const again = await run(place, { job, runner: await make(), resume: true }).catch((error: unknown) => error);
    expect((again as Error).message).toMatch(/sample 61/);
  });

  it("a disk that refuses ends it with that error", async () => {
    const job = testJob({ samples: 60, taskSize: 10 });
    const waiting = [...tasksOf(job.plan)];
    const failure = await (await make())
      .run({
        job,
        run: `refused-${counter++}`,
        next: () => waiting.shift(),
        wanted: () => true,
        deliver: () => Promise.reject(new CannotWrite("x", "the disk is full")),
        signal: new AbortController().signal,
        say: () => {},
      })
      .catch((error: unknown) => error);
    expect(failure).toBeInstanceOf(CannotWrite);
  });

  it.runIf(crashes)("a thread that dies costs nothing but time", async () => {
    const place = fresh();
    writeFileSync(crash, "");
    await run(place, { runner: await make() });
    expect(readdirSync(folder)).not.toContain("crash");
    expect(bytesOf(place)).toEqual(reference);
  });
});

describe("versions", () => {
  it("in threads: another version than the plan's is refused in words", async () => {
    const job = testJob({ version: "0.0.1" });
    const threads = await threadsRunner(program.sampler, 1);
    const failure = await run(fresh(), { job, runner: threads }).catch((error: unknown) => error);
    expect(failure).toBeInstanceOf(CannotRun);
    expect((failure as Error).message).toContain("planned by davit 0.0.1 and this is davit test");
  });

  it("at a queue: the worker refuses in words and computes nothing, the coordinator says why it waits", async () => {
    const job = testJob({ version: "0.0.1" });
    const told: string[] = [];
    const controller = new AbortController();
    const place = fresh();
    const outcome = run(place, {
      job,
      runner: await queueRunner(redis.url, TIMING),
      signal: controller.signal,
      say: (words) => void told.push(words),
    });
    while (!workers.some(({ said }) => said.stderr.includes("refused: ")))
      await new Promise((next) => setTimeout(next, 50));
    controller.abort();
    expect(await outcome).toMatchObject({ kind: "interrupted", computed: 0 });
    expect(told.join("\n")).toContain("no worker of davit 0.0.1 is at the queue");
    expect(told.join("\n")).toContain("has davit test");
    const words = workers.map(({ said }) => said.stderr).join("");
    expect(words).toContain("planned by davit 0.0.1 and this is davit test");
  });
});
