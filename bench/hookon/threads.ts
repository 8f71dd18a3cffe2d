/** Runs in one worker thread and in two, in turns: by the clock, and processor time per run, which free cores do not change. */
import { loadavg } from "node:os";
import { fileURLToPath } from "node:url";
import { isMainThread, parentPort, Worker } from "node:worker_threads";
import { benchCases, runSample } from "./cases.ts";

const RUNS = 16;
const ROUNDS = 9;
const WANTED = 1.9;

function work(): void {
  const one = benchCases(RUNS)[1]!;
  parentPort!.on("message", () => {
    for (let index = 0; index < RUNS; index++) runSample(one, index);
    parentPort!.postMessage("done");
  });
}

async function compare(): Promise<void> {
  const workers = [0, 1].map(() => new Worker(fileURLToPath(import.meta.url)));
  const once = (worker: Worker): Promise<void> =>
    new Promise((resolve) => {
      worker.once("message", () => resolve());
      worker.postMessage("go");
    });
  const time = async (count: number): Promise<readonly [number, number]> => {
    const before = process.cpuUsage();
    const from = process.hrtime.bigint();
    await Promise.all(workers.slice(0, count).map(once));
    const { user, system } = process.cpuUsage(before);
    return [Number(process.hrtime.bigint() - from) / 1e9 / count, (user + system) / 1e6 / count];
  };
  await time(2);
  await time(2);
  const [wall, processor]: number[][] = [[], []];
  for (let round = 0; round < ROUNDS; round++) {
    const one = await time(1);
    const two = await time(2);
    wall!.push(one[0] / two[0]);
    processor!.push(one[1] / two[1]);
  }
  const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;
  console.log(
    `two threads over one, ${RUNS} runs each: ${median(wall!).toFixed(2)} times the runs per second by the clock (best ${Math.max(...wall!).toFixed(2)}) at load ${loadavg()[0]!.toFixed(1)}; ` +
      `by processor time per run, as on two free cores, ${(2 * median(processor!)).toFixed(2)}; wanted ${WANTED}`,
  );
  for (const worker of workers) await worker.terminate();
}

if (isMainThread) await compare();
else work();
