/** Approaches that are run by Davit and by the yardstick in C, and what the yardstick reads of them. */
import type { ApproachGuide } from "../../src/physics/approach/types.ts";
import {
  COLUMN,
  HOOKON_COLUMNS,
  HOOKON_STREAMS,
  HookonRun,
  type HookonSettings,
  type HookonStart,
  straightGuide,
  straightStart,
} from "../../src/physics/hookon-motion/index.ts";
import { socketAxes } from "../../src/physics/socket/index.ts";
import { drydenFilter, type GustFilter, GustSampler, turbulenceScales } from "../../src/physics/turbulence/index.ts";
import { testPair, testSocket } from "../../test/support/hookon-pair.ts";

const SEED = 1;
const TICK = 0.01;

export interface Case {
  readonly name: string;
  readonly run: HookonRun;
  readonly settings: HookonSettings;
  readonly starts: readonly HookonStart[];
  /** State and inputs at the start of the run in hand, kept by its guide. */
  readonly begin: { readonly X: number[]; readonly U: number[] };
  readonly row: Float64Array;
}

/** Controls held, thrust idle once the latch has tripped; keeps the start. */
function heldGuide(controls: HookonSettings["trim"]["controls"], restarted: () => void): ApproachGuide {
  const straight = straightGuide(controls, TICK);
  return {
    ...straight,
    restart: restarted,
    step(truth, out) {
      straight.step(truth, out);
      if (truth.tripped) out.thrust = 0;
    },
  };
}

function makeCase(name: string, change: Partial<HookonSettings>, starts: readonly HookonStart[]): Case {
  const begin = { X: [] as number[], U: [] as number[] };
  const pair = testPair({}, { revision: "Rev B" });
  const keep = (): void => {
    begin.X = [...run.motion.X];
    begin.U = [...run.motion.U];
  };
  const guide = heldGuide(pair.trim.controls, keep);
  const settings: HookonSettings = { ...pair, guide, ...change };
  const run = new HookonRun(settings);
  return { name, run, settings, starts, begin, row: new Float64Array(HOOKON_COLUMNS.length) };
}

function benchGusts(): GustFilter {
  const scales = turbulenceScales("MIL-HDBK-1797", "Dryden", 3000);
  return drydenFilter({ scales, sigma: 0.5, speed: 110, span: 7.4 }, 1.2);
}

/** The cases of the bench; `samples` starts each. */
export function benchCases(samples: number): Case[] {
  const axes = socketAxes(testSocket().restAxis_H);
  const { limits } = testPair();
  const gusts = benchGusts();
  const places = Array.from({ length: samples }, (_, i) => [
    0.6 + (0.4 * i) / samples,
    0.09 * Math.sin(2 * i),
    0.09 * Math.cos(3 * i),
  ]);
  const near = places.map(([closure, right, up]) => straightStart(axes, { distance: 0.4, closure, right, up }));
  const far = places.map(([, right, up]) => straightStart(axes, { distance: 40, closure: 0, right, up }));
  const orbit = { radius: 0.02, period: 4 };
  return [
    makeCase("approach of 15 s without contact", { limits: { ...limits, approachTime: 15 } }, far),
    makeCase("approach, contact, lock, ring-down of 10 s", { limits: { ...limits, approachTime: 10 } }, near),
    makeCase(
      "the same in gusts, the socket on an orbit",
      { limits: { ...limits, approachTime: 10 }, gusts, orbit },
      near,
    ),
  ];
}

/** The case for SciPy: away from the socket, in gusts. */
export function gustyCase(): Case {
  const far = straightStart(socketAxes(testSocket().restAxis_H), { distance: 40, closure: 0, right: 0, up: 0 });
  const { limits } = testPair();
  return makeCase("approach in gusts", { limits: { ...limits, approachTime: 3 }, gusts: benchGusts() }, [far]);
}

/** One run of a case; how it ended, as the yardstick prints it. */
export function runSample({ run, starts, row }: Case, index: number): number[] {
  const before = run.motion.evaluations;
  run.run(SEED, index, row, starts[index]);
  const { motion } = run;
  const value = (name: string): number => row[COLUMN[name]!]!;
  return [
    ...[value("outcome"), value("touches"), value("events"), motion.evaluations - before],
    ...[motion.time, value("axialLoad_N"), value("sideLoad_N"), value("funnelTilt_rad"), ...motion.X],
  ];
}

/** What the yardstick reads: the head of loop.c, parameters, and of each sample the start and the gusts from tick to tick. */
export function caseData(one: Case): Float64Array {
  const { run, settings, starts, begin } = one;
  const { limits, latch, trim, socket, guide } = settings;
  const { motion } = run;
  const { lengths, P, parameters } = motion;
  const ticks = Math.ceil((limits.approachTime + limits.ringTime + 1) / guide.tick);
  const sampler = settings.gusts === undefined ? undefined : new GustSampler(settings.gusts, guide.tick);
  const gust = new Float64Array(6);
  const samples = starts.flatMap((_, index) => {
    runSample(one, index);
    sampler?.restart(SEED, index, HOOKON_STREAMS.gusts);
    const air = Array.from({ length: ticks + 2 }, () => {
      sampler?.step(gust);
      return [...gust];
    });
    return [...begin.X, ...begin.U, ...air.flat()];
  });
  const { free, touching, hooked, hookedMoving, buffer, perFriction, reach } = lengths;
  return Float64Array.from([
    ...[motion.X.length, P.length, starts.length, ticks, guide.tick],
    ...[latch.lockTime, latch.lockWindow, latch.holds, latch.holdsHalf, latch.stiffness],
    ...[limits.approachTime, limits.ringTime, limits.tipTravel, limits.pitch, limits.bank, trim.alpha],
    ...[socket.contact.creepSpeed, ...parameters.tip],
    ...[free, touching, hooked, hookedMoving, buffer, perFriction, reach],
    ...P,
    ...samples,
  ]);
}
