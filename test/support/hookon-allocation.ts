/** Run by a test in a process of its own: prints the bytes that the heap grows by per evaluation of the right-hand side. */
import { HOOKON_COLUMNS, HookonRun, straightStart } from "../../src/physics/hookon-motion/index.ts";
import { socketAxes } from "../../src/physics/socket/index.ts";
import { drydenFilter, turbulenceScales } from "../../src/physics/turbulence/index.ts";
import { testPair, testSocket } from "./hookon-pair.ts";

const collect = (globalThis as { gc?: () => void }).gc;
if (collect === undefined) throw new Error("needs --expose-gc");
const careless = process.argv[2] === "careless";
const scales = turbulenceScales("MIL-HDBK-1797", "Dryden", 3000);
const gusts = drydenFilter({ scales, sigma: 1, speed: 110, span: 7.4 }, 1.2);
const pair = testPair({ gusts, orbit: { radius: 0.05, period: 4 } });
const run = new HookonRun({ ...pair, limits: { ...pair.limits, approachTime: 3, ringTime: 1 } });
const start = straightStart(socketAxes(testSocket().restAxis_H), { distance: 0.4, closure: 0.9, right: 0.02, up: 0 });
const row = new Float64Array(HOOKON_COLUMNS.length);
const kept: Float64Array[] = [];
if (careless) {
  const { record } = run;
  const step = record.step.bind(record);
  record.step = () => {
    kept.push(new Float64Array(2));
    return step();
  };
}
for (let k = 0; k < 12; k++) run.run(3, k % 3, row, start);
const growths = Array.from({ length: 5 }, () => {
  collect();
  const before = process.memoryUsage().heapUsed;
  const evaluations = run.motion.evaluations;
  for (let k = 0; k < 3; k++) run.run(3, k, row, start);
  return (process.memoryUsage().heapUsed - before) / (run.motion.evaluations - evaluations);
});
process.stdout.write(`${Math.min(...growths.map(Math.abs))}\n`);
