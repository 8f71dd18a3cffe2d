/**
 * Studies that draw samples without physics, for tests of batches: what they draw depends on (seed, condition, index) alone.
 * The surroundings may make them slow (`DAVIT_TEST_MS`, or `DAVIT_TEST_WORK` for a fixed amount of arithmetic), or end their thread once (`DAVIT_TEST_CRASH`, a file that is there once).
 */
import { existsSync, rmSync } from "node:fs";
import { DomainError } from "../../src/math/errors.ts";
import { RandomStream } from "../../src/math/random/index.ts";
import type {
  SampleColumn,
  SampleHistory,
  Sampler,
  SampleStudy,
  SampleStudyEntry,
} from "../../src/studies/samples/types.ts";

const COLUMNS: readonly SampleColumn[] = [
  { name: "hit", title: "hit", unit: "" },
  { name: "how", title: "how it ended", unit: "", words: ["clean", "late, with a bounce", "never"] },
  { name: "miss_m", title: "miss distance", unit: "m" },
  { name: "closure_m_per_s", title: "closure", unit: "m/s" },
];
const CHANCE: Readonly<Record<string, number>> = { calm: 0.93, rough: 0.6, "rough-night": 0.3 };

/** Keeps the thread busy for so many milliseconds. */
function busy(milliseconds: number): void {
  const end = performance.now() + milliseconds;
  while (performance.now() < end) {}
}

let sum = 0;
/** A fixed amount of arithmetic, about 5 ms on a machine of 2024; how long it takes is for a benchmark to find out. */
function work(): void {
  for (let i = 0; i < 250_000; i++) sum = Math.sin(sum + i);
}

function sampler(seed: number, condition: string, before: (index: number) => void): Sampler {
  const stream = new RandomStream(seed, 0);
  const chance = CHANCE[condition]!;
  const use = Object.keys(CHANCE).indexOf(condition);
  const run = (index: number, row: Float64Array): void => {
    before(index);
    stream.restart(seed, index, use);
    const hit = stream.uniform() < chance;
    row[0] = hit ? 1 : 0;
    row[1] = hit ? (stream.uniform() < 0.5 ? 0 : 1) : 2;
    row[2] = hit ? Number.NaN : Math.abs(stream.normal());
    row[3] = 1.5 + 0.3 * stream.normal();
  };
  const row = new Float64Array(COLUMNS.length);
  const replay = (index: number): SampleHistory => {
    run(index, row);
    const values = new Float64Array(33).map((_, i) => [i, row[3] * i, i < 30 ? 0 : row[1]][i % 3]!);
    const columns = [{ name: "time_s", title: "time", unit: "s" }, { ...COLUMNS[3]!, name: "gap_m" }, COLUMNS[1]!];
    return { columns, values, events: [{ time: 10, what: `ended, "${COLUMNS[1]!.words![row[1]]}"` }] };
  };
  return { run, replay };
}

function entry(key: string, before: (index: number) => void): SampleStudyEntry {
  return {
    key,
    title: "Samples without physics",
    open({ reads, seed }): SampleStudy {
      // a value of the pair matters, so that the pair has to travel
      const mass = reads().pair.carried.massStates.full!.mass.si;
      const used = seed ?? 7;
      return {
        key,
        columns: COLUMNS,
        conditions: Object.keys(CHANCE).map((name) => ({ key: name, title: name.replace("-", ", ") })),
        samples: 300,
        seed: used,
        success: "hit",
        sampler: (condition) => sampler(used + Math.round(mass), condition, before),
      };
    },
  };
}

const slow = Number(process.env.DAVIT_TEST_MS ?? "0");
const working = process.env.DAVIT_TEST_WORK !== undefined;
const crash = process.env.DAVIT_TEST_CRASH;

export const TEST_STUDIES: readonly SampleStudyEntry[] = [
  entry("tosses", (index) => {
    if (slow > 0) busy(slow);
    if (working) work();
    if (crash !== undefined && index === 137 && existsSync(crash)) {
      rmSync(crash, { force: true });
      process.exit(9);
    }
  }),
  entry("failing", (index) => {
    if (index === 61) throw new DomainError("airspeed", -3, "above 0 m/s");
  }),
];
