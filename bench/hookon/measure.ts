/**
 * Measurements of hookon.bench.ts; prints. Arguments: folder for data, with equations.py in it; scipy_run.py; the yardstick's program if there is one.
 */
import { type ChildProcessWithoutNullStreams, spawn } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { HOOKON_OUTCOMES, hookonRates } from "../../src/physics/hookon-motion/index.ts";
import { compareWithScipy } from "./against-scipy.ts";
import { benchCases, type Case, caseData, gustyCase, runSample } from "./cases.ts";

const SAMPLES = 12;
const ROUNDS = 15;
/** To how much final states may differ: events are located to 1e-10 s, and roundings grow. */
const AGREEMENT = 1e-9;
const WANTED = 0.6;

const [folder, script, program] = process.argv.slice(2);

/** Processor time [ns]. */
function used(): number {
  const { user, system } = process.cpuUsage();
  return 1000 * (user + system);
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;

function start(data: string) {
  const child: ChildProcessWithoutNullStreams = spawn(program!, [data]);
  child.stderr.pipe(process.stderr);
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  const next = async (): Promise<number[]> => {
    const line = await lines.next();
    if (line.done === true) throw new Error("the yardstick ended early");
    return line.value.split(" ").map(Number);
  };
  return { say: (line: string) => child.stdin.write(`${line}\n`), next, close: () => child.stdin.end() };
}
type Yardstick = ReturnType<typeof start>;

/** Largest difference of the final states over their sizes; refuses where runs differ in kind. */
async function compare(one: Case, yardstick: Yardstick): Promise<string> {
  yardstick.say("result");
  let worst = 0;
  const outcomes = new Map<number, number>();
  for (let index = 0; index < SAMPLES; index++) {
    const own = runSample(one, index);
    const other = await yardstick.next();
    const [outcome] = own;
    outcomes.set(outcome!, (outcomes.get(outcome!) ?? 0) + 1);
    // the yardstick does not judge whether a swing grows
    const sameOutcome = outcome === other[0] || (outcome === 1 && (other[0] === 0 || other[0] === 3));
    const sameSteps = own[1] === other[1] && own[2] === other[2];
    const sameWork = Math.abs(own[3]! - other[3]!) <= 0.01 * own[3]!;
    if (!sameOutcome || !sameSteps || !sameWork) {
      throw new Error(`sample ${index} differs: ${own.slice(0, 8).join(" ")} against ${other.slice(0, 8).join(" ")}`);
    }
    for (let i = 4; i < own.length; i++) {
      worst = Math.max(worst, Math.abs(own[i]! - other[i]!) / Math.max(1, Math.abs(own[i]!)));
    }
  }
  if (!(worst <= AGREEMENT)) throw new Error(`final states differ by ${worst}, more than ${AGREEMENT}`);
  const shares = [...outcomes].map(([outcome, count]) => `${count} × ${HOOKON_OUTCOMES[outcome]}`).join(", ");
  return `outcomes ${shares}; final states and loads differ by at most ${worst.toExponential(1)}`;
}

function timeOwn(one: Case): number {
  const from = used();
  for (let index = 0; index < SAMPLES; index++) runSample(one, index);
  return used() - from;
}

async function timeYardstick(yardstick: Yardstick): Promise<number> {
  yardstick.say(String(SAMPLES));
  return (await yardstick.next())[0]!;
}

function evaluationTimes(one: Case): void {
  const { motion } = one.run;
  for (const near of [0, 1]) {
    motion.U[21] = near;
    const times = Array.from({ length: ROUNDS }, () => {
      const from = used();
      for (let i = 0; i < 20_000; i++) hookonRates(motion.X, motion.U, motion.P, motion.W, motion.rates);
      return (used() - from) / 20_000;
    });
    const where = near === 0 ? "away from" : "near";
    console.log(
      `one evaluation ${where} the socket: best ${Math.min(...times).toFixed(0)} ns, median ${median(times).toFixed(0)} ns`,
    );
  }
}

const cases = benchCases(SAMPLES);
for (const [k, one] of cases.entries()) {
  const data = join(folder!, `case-${k}`);
  const numbers = caseData(one);
  const own: number[] = [];
  const other: number[] = [];
  let evaluations = -one.run.motion.evaluations;
  timeOwn(one);
  evaluations += one.run.motion.evaluations;
  console.log(`${one.name}: ${(evaluations / SAMPLES).toFixed(0)} evaluations a run`);
  if (program === undefined) {
    for (let round = 0; round < ROUNDS; round++) own.push(timeOwn(one));
  } else {
    writeFileSync(data, new Uint8Array(numbers.buffer));
    const yardstick = start(data);
    console.log(`  ${await compare(one, yardstick)}`);
    timeOwn(one);
    await timeYardstick(yardstick);
    for (let round = 0; round < ROUNDS; round++) {
      if (round % 2 === 0) own.push(timeOwn(one));
      other.push(await timeYardstick(yardstick));
      if (round % 2 === 1) own.push(timeOwn(one));
    }
    yardstick.close();
  }
  const each = (times: readonly number[]): string =>
    `${((SAMPLES * 1e9) / median(times)).toFixed(1)} runs/s, ${((SAMPLES * median(times)) / SAMPLES / evaluations).toFixed(0)} ns an evaluation with everything`;
  console.log(`  own: ${each(own)}`);
  if (other.length > 0) {
    const ratios = other.map((time, round) => time / own[round]!);
    const sorted = [...ratios].sort((a, b) => a - b);
    console.log(`  C:   ${each(other)}`);
    console.log(
      `  runs per second, own over C: median ${median(ratios).toFixed(2)} (${sorted[0]!.toFixed(2)} to ${sorted.at(-1)!.toFixed(2)} of ${ROUNDS} rounds); wanted ${WANTED}`,
    );
  }
}
evaluationTimes(cases[0]!);
compareWithScipy(gustyCase(), { folder: folder!, script: script!, equations: join(folder!, "equations.py") });
