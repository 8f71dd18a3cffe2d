/** Run by a test in a process of its own: prints bytes that the heap grows by per evaluation of the right-hand side. */
import { HOOKON_COLUMNS, HookonRun, straightStart } from "../../src/physics/hookon-motion/index.ts";
import { U_NEAR, X_ATTITUDE, X_TIP, X_VELOCITY } from "../../src/physics/hookon-motion/layout.ts";
import { socketAxes } from "../../src/physics/socket/index.ts";
import { unwatched } from "./bare-contact.ts";
import { testPair, testSocket } from "./hookon-pair.ts";

const collect = (globalThis as { gc?: () => void }).gc;
if (collect === undefined) throw new Error("needs --expose-gc");
const pair = testPair({ orbit: { radius: 0.05, period: 4 } });
const run = new HookonRun({ ...pair, limits: { ...pair.limits, approachTime: 3, ringTime: 1 } });
const { motion } = run;
const start = straightStart(socketAxes(testSocket().restAxis_H), { distance: 0.4, closure: 0.9, right: 0.02, up: 0 });
const row = new Float64Array(HOOKON_COLUMNS.length);
const kept: Float64Array[] = [];
const careless = { step: () => kept.push(new Float64Array(2)) > 0, event: () => true };

/** Steps near the socket and away from it, from the same state again and again; bytes per evaluation. */
function stepping(watcher: typeof unwatched, near: number): number {
  const work = (): void => {
    motion.X.fill(0);
    motion.X[X_ATTITUDE] = 1;
    motion.X[X_VELOCITY] = 1;
    motion.X[0] = -20;
    motion.X.set(motion.parameters.tip, X_TIP);
    motion.U[U_NEAR] = near;
    motion.time = 0;
    motion.advance(0.5, watcher);
  };
  for (let k = 0; k < 60; k++) work();
  kept.length = 0;
  collect!();
  const before = process.memoryUsage().heapUsed;
  const evaluations = motion.evaluations;
  for (let k = 0; k < 40; k++) work();
  return (process.memoryUsage().heapUsed - before) / (motion.evaluations - evaluations);
}

/** Whole runs with contact, lock and ring-down, ticks, events and rows included. */
function running(): number {
  for (let k = 0; k < 12; k++) run.run(3, k % 3, row, start);
  collect!();
  const before = process.memoryUsage().heapUsed;
  const evaluations = motion.evaluations;
  for (let k = 0; k < 10; k++) run.run(3, k % 3, row, start);
  return (process.memoryUsage().heapUsed - before) / (motion.evaluations - evaluations);
}

const whole = running();
const result = { whole, far: stepping(unwatched, 0), near: stepping(unwatched, 1), careless: stepping(careless, 0) };
process.stdout.write(`${JSON.stringify(result)}\n`);
