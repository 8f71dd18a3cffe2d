/**
 * A batch in 1 and 2 threads, on samples of about 5 ms each that do nothing but arithmetic.
 *
 *     tsx bench/batch/batch.bench.ts
 *
 * In alternating rounds of one run:
 *
 *   two over one  rows per second in 2 threads over those in 1: at least 1.9
 *   store share   time that the coordinator spends on storing rows, exports included, over the time of the run, in 1 thread: below 5 %
 *
 * A sample is a fixed amount of arithmetic. On a machine that others use
 * too, the clock of the run tells nothing about two threads: the processor time that the run was given, over its clock time, is
 * printed beside, and the ratio is judged only where two threads were given at least 1.95 processors. The start of threads and the
 * opening of the pair are left out of the rates: they are paid once.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { availableParallelism, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { runBatch } from "../../src/host/batch/index.ts";
import { threadsRunner } from "../../src/host/batch-runners/index.ts";
import { testJob } from "../../test/support/batch-job.ts";
import { buildBatchProgram } from "../../test/support/batch-program.ts";

const ROUNDS = 3;
const SAMPLES = Number(process.env.DAVIT_BENCH_SAMPLES ?? "700");
process.env.DAVIT_TEST_WORK = "1";

const program = await buildBatchProgram();
const folder = mkdtempSync(join(tmpdir(), "davit-bench-"));

interface Round {
  readonly rate: number;
  readonly store: number;
  readonly given: number;
}

async function round(threads: number, name: string): Promise<Round> {
  const marks: { rows: number; at: number; cpu: NodeJS.CpuUsage }[] = [];
  const outcome = await runBatch({
    folder: join(folder, name),
    job: testJob({ samples: SAMPLES, taskSize: 50 }),
    runner: await threadsRunner(program.sampler, threads),
    resume: false,
    signal: new AbortController().signal,
    now: () => new Date(),
    progress: ({ rows }) => void (rows > 0 && marks.push({ rows, at: performance.now(), cpu: process.cpuUsage() })),
    say: (words) => console.log(words),
  });
  // from when every thread is under way until the first runs dry
  const [first, last] = [marks[2 * threads]!, marks[marks.length - 1 - threads]!];
  const seconds = (last.at - first.at) / 1000;
  const cpu = last.cpu.user + last.cpu.system - first.cpu.user - first.cpu.system;
  return {
    rate: (last.rows - first.rows) / seconds,
    store: outcome.storeSeconds / outcome.seconds,
    given: cpu / 1e6 / seconds,
  };
}

try {
  console.log(`load ${loadavg()[0]!.toFixed(2)} on ${availableParallelism()} processors, ${3 * SAMPLES} rows a round`);
  const rounds: { one: Round; two: Round }[] = [];
  for (let i = 0; i < ROUNDS; i++) rounds.push({ one: await round(1, `one-${i}`), two: await round(2, `two-${i}`) });
  const show = (name: string, { rate, store, given }: Round) =>
    `${name} ${rate.toFixed(0)} rows/s, store ${(100 * store).toFixed(1)} %, ${given.toFixed(2)} processors`;
  for (const { one, two } of rounds) {
    console.log(`${show("1 thread", one)} | ${show("2 threads", two)} | ratio ${(two.rate / one.rate).toFixed(2)}`);
  }
  const best = Math.max(...rounds.map(({ one, two }) => two.rate / one.rate));
  const store = [...rounds].map(({ one }) => one.store).sort((a, b) => a - b)[Math.floor(ROUNDS / 2)]!;
  // rows for each second of processor time: what the threads cost each other, apart from waiting for a processor
  const each = rounds.map(({ one, two }) => (2 * two.rate * one.given) / (two.given * one.rate));
  console.log(
    `two over one, were both given all of their processors: ${each.map((ratio) => ratio.toFixed(2)).join(", ")}`,
  );
  const fair = rounds.some(({ two }) => two.given >= 1.95);
  const judged = fair ? (best >= 1.9 ? "ok" : "TOO SLOW") : "not judged: two processors were not free";
  console.log(`two over one: best ${best.toFixed(2)}, at least 1.9 wanted: ${judged}`);
  console.log(
    `store share: median ${(100 * store).toFixed(1)} %, below 5 % wanted: ${store < 0.05 ? "ok" : "TOO MUCH"}`,
  );
  if ((fair && best < 1.9) || store >= 0.05) process.exitCode = 1;
} finally {
  program.remove();
  rmSync(folder, { recursive: true, force: true });
}
