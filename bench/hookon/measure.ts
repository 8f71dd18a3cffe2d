/** Measurements of hookon.bench.ts; prints. */
import {
  COLUMN,
  HOOKON_COLUMNS,
  HookonRun,
  hookonRates,
  straightStart,
} from "../../src/physics/hookon-motion/index.ts";
import { socketAxes } from "../../src/physics/socket/index.ts";
import { drydenFilter, turbulenceScales } from "../../src/physics/turbulence/index.ts";
import { testPair, testSocket } from "../../test/support/hookon-pair.ts";

const scales = turbulenceScales("MIL-HDBK-1797", "Dryden", 3000);
const gusts = drydenFilter({ scales, sigma: 1.5, speed: 110, span: 7.4 }, 1.2);
const pair = testPair({ gusts, orbit: { radius: 0.05, period: 4 } }, { revision: "Rev B" });
const axes = socketAxes(testSocket().restAxis_H);
const row = new Float64Array(HOOKON_COLUMNS.length);

function best(name: string, rounds: number, work: () => number): void {
  const times = Array.from({ length: rounds }, () => {
    const start = process.hrtime.bigint();
    const count = work();
    return Number(process.hrtime.bigint() - start) / count;
  }).sort((a, b) => a - b);
  const [least, middle] = [times[0], times[rounds >> 1]];
  console.log(`${name}: best ${least.toFixed(0)} ns, median ${middle.toFixed(0)} ns`);
}

const run = new HookonRun({ ...pair, limits: { ...pair.limits, approachTime: 15 } });
const { motion } = run;
const far = straightStart(axes, { distance: 40, closure: 0, right: 0, up: 0 });
run.run(1, 0, row, far);
for (const near of [0, 1]) {
  motion.U[21] = near;
  best(`one evaluation, ${near === 0 ? "away from" : "near"} the socket`, 61, () => {
    for (let i = 0; i < 10_000; i++) hookonRates(motion.X, motion.U, motion.P, motion.W, motion.rates);
    return 10_000;
  });
}
for (const [name, start] of [
  ["approach of 15 s without contact", far],
  [
    "short approach, contact, lock, ring-down of 10 s",
    straightStart(axes, { distance: 0.2, closure: 0.8, right: 0, up: 0 }),
  ],
] as const) {
  let index = 0;
  let [evaluations, seconds, locked] = [0, 0, 0];
  best(`${name}, per run`, 21, () => {
    const before = motion.evaluations;
    const from = process.hrtime.bigint();
    for (let i = 0; i < 4; i++) {
      run.run(1, index++, row, start);
      locked += row[COLUMN.locked];
    }
    seconds += Number(process.hrtime.bigint() - from) / 1e9;
    evaluations += motion.evaluations - before;
    return 4;
  });
  console.log(
    `  ${(index / seconds).toFixed(1)} runs/s, ${(evaluations / index).toFixed(0)} evaluations a run, ` +
      `${((1e9 * seconds) / evaluations).toFixed(0)} ns each with everything, ${locked} of ${index} locked`,
  );
}
