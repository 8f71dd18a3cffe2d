/** SciPy's solve_ivp on an approach in gusts without contact, tick by tick, against the motion itself on the same ticks. */
import { spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { HOOKON_STREAMS, type HookonMotion } from "../../src/physics/hookon-motion/index.ts";
import * as at from "../../src/physics/hookon-motion/layout.ts";
import { GustSampler } from "../../src/physics/turbulence/index.ts";
import { type Case, runSample } from "./cases.ts";

const WANTED = 1000;
const TICKS = 300;
const REPEATS = 30;

interface Measured {
  readonly seconds: number;
  readonly evaluations: number;
  readonly state: readonly number[];
}

function drawGusts(one: Case): number[][] {
  const sampler = new GustSampler(one.settings.gusts!, one.settings.guide.tick);
  sampler.restart(1, 0, HOOKON_STREAMS.gusts);
  const gust = new Float64Array(6);
  return Array.from({ length: TICKS + 1 }, () => {
    sampler.step(gust);
    return [...gust];
  });
}

/** The motion over the ticks. */
function goOver(motion: HookonMotion, { begin, settings }: Case, gusts: readonly number[][]): void {
  const { X, U } = motion;
  const { tick } = settings.guide;
  X.set(begin.X);
  U.set(begin.U);
  motion.time = 0;
  motion.timer = Number.POSITIVE_INFINITY;
  const watcher = { step: () => true, event: () => true };
  for (let k = 0; k < TICKS; k++) {
    const gust = gusts[k]!;
    const after = gusts[k + 1]!;
    U[at.U_START] = motion.time;
    for (let i = 0; i < 6; i++) {
      U[at.U_GUST + i] = gust[i]!;
      U[at.U_GUST_SLOPE + i] = (after[i]! - gust[i]!) / tick;
      if (i < 3) U[at.U_SOCKET_AIR + i] = gust[i]!;
    }
    motion.advance(motion.time + tick, watcher);
  }
}

/** Prints; `script` is scipy_run.py, `equations` what was translated. `one` has gusts and starts far from the socket. */
export function compareWithScipy(one: Case, files: Record<"folder" | "script" | "equations", string>): void {
  const { motion } = one.run;
  runSample(one, 0);
  const gusts = drawGusts(one);
  const used = (): number => {
    const { user, system } = process.cpuUsage();
    return (user + system) / 1e6;
  };
  for (let k = 0; k < REPEATS; k++) goOver(motion, one, gusts);
  const before = motion.evaluations;
  const start = used();
  for (let k = 0; k < REPEATS; k++) goOver(motion, one, gusts);
  const own = (used() - start) / REPEATS;
  const evaluations = (motion.evaluations - before) / REPEATS;
  const places = { time: at.U_TIME, start: at.U_START, gust: at.U_GUST, slope: at.U_GUST_SLOPE };
  const data = join(files.folder, "scipy.json");
  const given = {
    ...{ X: one.begin.X, U: one.begin.U, P: [...motion.P], gusts, work: at.W_SIZE, tick: one.settings.guide.tick },
    ...{ places: { ...places, socketAir: at.U_SOCKET_AIR, events: at.W_EVENTS }, eventCount: at.EVENTS },
  };
  writeFileSync(data, JSON.stringify(given));
  const ran = spawnSync("python3", [files.script, files.equations, data], { encoding: "utf8" });
  if (ran.status !== 0) {
    console.log(`no comparison with SciPy: ${ran.error?.message ?? ran.stderr.trim().split("\n").at(-1)}`);
    return;
  }
  const { version, plain, watched } = JSON.parse(ran.stdout) as Record<"plain" | "watched", Measured> & {
    version: string;
  };
  const gap = Math.max(...plain.state.map((x, i) => Math.abs(x - motion.X[i]!) / Math.max(1, Math.abs(motion.X[i]!))));
  console.log(`approach in gusts, ${TICKS} ticks, against SciPy ${version}, solve_ivp RK45, rtol 1e-6, a call a tick`);
  console.log(
    `  own, with events: ${(1000 * own).toFixed(2)} ms, ${evaluations} evaluations; states differ by ${gap.toExponential(1)}`,
  );
  for (const [how, { seconds, evaluations: count }] of Object.entries({
    "no events": plain,
    "events watched": watched,
  })) {
    const times = (seconds / own).toFixed(0);
    console.log(
      `  SciPy, ${how}: ${seconds.toFixed(2)} s, ${count} evaluations: ${times} times as long; wanted ${WANTED}`,
    );
  }
}
