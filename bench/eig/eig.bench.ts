/**
 * Time of `eigenvalues` against LAPACK's dgeev in C, one thread each, in alternating rounds of one run.
 *
 *     tsx bench/eig/eig.bench.ts [MATRICES.json]
 *
 * Without gcc and LAPACK it prints the own times alone and says so.
 */

import { type ChildProcessWithoutNullStreams, execFileSync, spawn, spawnSync } from "node:child_process";
import { mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { loadavg, tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import { createEigenWorkspace, eigenvalues } from "../../src/math/eigen/index.ts";
import { BugError } from "../../src/math/errors.ts";
import { defaultMatrices, readMatrices, type SquareMatrix } from "./matrices.ts";

const ROUNDS = 41;
/** Wanted duration of one round of either program [ns]. */
const ROUND_TIME = 20e6;

/** Of one pass over all matrices [ns]: by the clock, and of the processor (which other programs disturb less). */
interface Times {
  readonly wall: number;
  readonly used: number;
}

interface Lapack {
  readonly ask: (line: string) => Promise<string>;
  readonly close: () => void;
  readonly libraries: string;
}

/** Environment without the two settings that force a slower kernel on OpenBLAS, and one thread. */
function lapackEnvironment(): NodeJS.ProcessEnv {
  const { OPENBLAS_CORETYPE, OPENBLAS_L2_SIZE, ...rest } = process.env;
  return { ...rest, OPENBLAS_NUM_THREADS: "1", OMP_NUM_THREADS: "1" };
}

function startLapack(folder: string, matrices: readonly SquareMatrix[]): Lapack | undefined {
  const program = join(folder, "dgeev");
  const source = join(dirname(fileURLToPath(import.meta.url)), "dgeev.c");
  const built = spawnSync("gcc", ["-O3", "-o", program, source, "-llapack"], { encoding: "utf8" });
  if (built.status !== 0) {
    console.log(`no comparison: gcc -O3 -llapack failed (${built.error?.message ?? built.stderr.trim()})`);
    return undefined;
  }
  const numbers = [matrices.length, ...matrices.flatMap(({ n, elements }) => [n, ...elements])];
  const file = join(folder, "matrices");
  writeFileSync(file, new Uint8Array(Float64Array.from(numbers).buffer));
  const child: ChildProcessWithoutNullStreams = spawn(program, [file], { env: lapackEnvironment() });
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  return {
    ask: async (line) => {
      child.stdin.write(`${line}\n`);
      const reply = await lines.next();
      if (reply.done === true) throw new BugError("the LAPACK program ended early");
      return reply.value;
    },
    close: () => child.stdin.end(),
    libraries: linkedLibraries(program),
  };
}

/** The LAPACK and BLAS files that the program loads, links resolved. */
function linkedLibraries(program: string): string {
  const listed = execFileSync("ldd", [program], { encoding: "utf8" });
  const files = [...listed.matchAll(/=> (\S*(?:lapack|blas)\S*)/g)].map((match) => realpathSync(match[1]!));
  return [...new Set(files)].join(", ");
}

/** A pass over all matrices; the sum is printed, so that no work can be left out. */
function createOwn(matrices: readonly SquareMatrix[]): (passes: number) => number {
  const largest = Math.max(...matrices.map(({ n }) => n));
  const workspace = createEigenWorkspace(largest);
  const re = new Float64Array(largest);
  const im = new Float64Array(largest);
  return (passes) => {
    let sum = 0;
    for (let pass = 0; pass < passes; pass++) {
      for (const { n, elements } of matrices) {
        if (eigenvalues(elements, n, workspace, re, im) !== "converged") throw new BugError("no convergence");
        sum += re[0]!;
      }
    }
    return sum;
  };
}

function timeOwn(run: (passes: number) => number, passes: number): Times {
  const usedBefore = process.cpuUsage();
  const from = process.hrtime.bigint();
  run(passes);
  const wall = Number(process.hrtime.bigint() - from);
  const { user, system } = process.cpuUsage(usedBefore);
  return { wall: wall / passes, used: (1000 * (user + system)) / passes };
}

async function timeLapack(lapack: Lapack, passes: number): Promise<Times> {
  const [wall, used] = (await lapack.ask(String(passes))).split(" ").map(Number);
  return { wall: wall!, used: used! };
}

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.round(share * (sorted.length - 1))]!;
}

function show(label: string, values: readonly number[]): void {
  const [best, median, high] = [0, 0.5, 0.9].map((share) => quantile(values, share).toFixed(2));
  console.log(`  ${label.padEnd(46)} ${best} / ${median} / ${high}`);
}

/** Largest difference of the eigenvalue sums, over the size of the matrix. */
function difference(reply: string, matrices: readonly SquareMatrix[]): number {
  const sums = reply.split(" ").map(Number);
  return Math.max(
    ...matrices.map(({ n, elements }, m) => {
      const re = new Float64Array(n);
      eigenvalues(elements, n, createEigenWorkspace(n), re, new Float64Array(n));
      const size = elements.reduce((largest, value) => Math.max(largest, Math.abs(value)), 0);
      return Math.abs(re.reduce((sum, value) => sum + value, 0) - sums[m]!) / size;
    }),
  );
}

async function compare(title: string, matrices: readonly SquareMatrix[]): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "eig-"));
  const lapack = startLapack(folder, matrices);
  const own = createOwn(matrices);
  for (let warm = 0; warm < 20; warm++) own(20);
  const passes = Math.max(1, Math.round(ROUND_TIME / timeOwn(own, 20).wall));
  const ownTimes: Times[] = [];
  const lapackTimes: Times[] = [];
  if (lapack !== undefined) await timeLapack(lapack, passes);
  for (let round = 0; round < ROUNDS; round++) {
    const isOwnFirst = round % 2 === 0;
    if (isOwnFirst) ownTimes.push(timeOwn(own, passes));
    if (lapack !== undefined) lapackTimes.push(await timeLapack(lapack, passes));
    if (!isOwnFirst) ownTimes.push(timeOwn(own, passes));
  }
  console.log(`${title}: ${matrices.length} matrices, ${ROUNDS} rounds of ${passes} passes; best / median / p90`);
  for (const kind of ["wall", "used"] as const) {
    const name = kind === "wall" ? "clock" : "processor";
    const scale = 1000 * matrices.length;
    show(
      `own, ${name} [µs per matrix]`,
      ownTimes.map((times) => times[kind] / scale),
    );
    if (lapack === undefined) continue;
    show(
      `dgeev, ${name} [µs per matrix]`,
      lapackTimes.map((times) => times[kind] / scale),
    );
    show(
      `own / dgeev of each round, ${name}`,
      ownTimes.map((times, round) => times[kind] / lapackTimes[round]![kind]),
    );
  }
  if (lapack !== undefined) {
    const gap = difference(await lapack.ask("values"), matrices);
    console.log(`  sums of eigenvalues differ by at most ${gap.toExponential(1)} of the largest element`);
    console.log(`  dgeev from ${lapack.libraries}`);
    lapack.close();
  }
  rmSync(folder, { recursive: true });
}

const file = process.argv[2];
const all = file === undefined ? defaultMatrices() : readMatrices(file);
console.log(
  `load before: ${loadavg()
    .map((value) => value.toFixed(2))
    .join(" ")}; Node ${process.version}`,
);
for (const n of [...new Set(all.map((matrix) => matrix.n))].sort((a, b) => a - b)) {
  await compare(
    `n = ${n}`,
    all.filter((matrix) => matrix.n === n),
  );
}
console.log(
  `load after: ${loadavg()
    .map((value) => value.toFixed(2))
    .join(" ")}`,
);
