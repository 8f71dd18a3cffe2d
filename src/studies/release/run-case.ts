import { eulerFromQuaternion } from "../../math/rotation/index.ts";
import { type Environment, STANDARD_GRAVITY } from "../../physics/bodies/index.ts";
import { SEPARATION_COLUMNS, type SeparationRun, separationColumn } from "../../physics/separation/index.ts";
import { type BuiltRelease, buildRelease, cgOf, type ReleasePoint, type Scatter, settleOf } from "./build.ts";
import type { ReleaseCase } from "./cases.ts";
import { type LeastDistance, ReleaseScene } from "./scene.ts";
import type { ReleaseInputs } from "./settings.ts";
import type { ReleaseCaseResult, ReleaseCourse, ReleaseOutcome } from "./types.ts";

const DEGREE = Math.PI / 180;
const SIZE = SEPARATION_COLUMNS.length;
/** Time between rows of a course, and between points of a picture [s]. */
export const EVERY = 0.02;
const PICTURE = 5;
const at = (name: Parameters<typeof separationColumn>[0]): number => separationColumn(name);
const [TIME, X, Q0, VZ, PITCH, INSIDE] = (["time", "x", "q0", "carrierVz", "carrierPitch", "inside"] as const).map(at);

/** A separation with everything that it is judged by. */
export interface JudgedRun {
  readonly built: BuiltRelease;
  readonly run: SeparationRun;
  readonly scene: ReleaseScene | null;
  readonly least: LeastDistance | null;
  /** First row in which the aircraft is free. */
  readonly freeFrom: number;
  readonly outcome: ReleaseOutcome;
}

/** Runs one case at one point; `null` where the held pair has no balance. */
export function judgedRun(
  inputs: ReleaseInputs,
  wanted: ReleaseCase,
  point: ReleasePoint,
  scatter?: Scatter,
): JudgedRun | null {
  const built = buildRelease(inputs, wanted, point, scatter);
  if (built === null) return null;
  const { settings } = inputs;
  const run = built.motion.run(built.settle + settings.duration.si, EVERY);
  const scene = sceneAt(inputs, built, point, run.values);
  const freeFrom = run.leftAt === null ? run.rows : Math.min(run.rows, Math.ceil(run.leftAt / EVERY - 1e-9));
  const least = scene === null || freeFrom >= run.rows ? null : scene.least(run.values, freeFrom);
  const outcome = outcomeOf(run, least, settings.criteria.clearance.si);
  return { built, run, scene, least, freeFrom, outcome };
}

function sceneAt(
  { bodies, hinge, settings, scenes }: ReleaseInputs,
  { at: operating }: BuiltRelease,
  { boomAngle, mass }: ReleasePoint,
  values: Float64Array,
): ReleaseScene | null {
  if (bodies === null) return null;
  const key = `${boomAngle} ${mass}`;
  const known = scenes.get(key);
  if (known !== undefined) return known;
  const angle = Math.min(bodies.angles.most, Math.max(bodies.angles.least, boomAngle));
  const fractions = new Map(Object.entries(settings.groups ?? {}).map(([name, value]) => [name, value.si]));
  const away = settings.sequence.swungAway ?? [];
  const parts = bodies.at(angle, fractions).filter(({ body }) => !away.includes(body));
  const made = new ReleaseScene(
    { parts, boom: bodies.boom, hinge, cg: cgOf(operating), apart: settings.criteria.clearance.si },
    values,
  );
  scenes.set(key, made);
  return made;
}

/** The outcome; what happens after the run left the grid counts for nothing. */
function outcomeOf(run: SeparationRun, least: LeastDistance | null, clearance: number): ReleaseOutcome {
  const left = leftGridAt(run);
  if (run.withdrawal === "hang-up") return "hang-up";
  if (least !== null && least.distance < clearance && least.time <= left) {
    return least.distance === 0 ? "touches" : "too near";
  }
  if (left < Infinity || (run.leftAt !== null && least === null)) return "not analysed";
  return run.leftAt === null ? "still held" : "clean";
}

/** Time of the first row beyond the grid of increments near the carrier; ∞: it stayed inside. */
function leftGridAt({ values, rows }: SeparationRun): number {
  for (let row = 0; row < rows; row++) if (values[row * SIZE + INSIDE] === 0) return values[row * SIZE + TIME];
  return Infinity;
}

/** The result of one case at one point, with its course; a gust comes at the moment in which it takes the most clearance. */
export function runCase(inputs: ReleaseInputs, wanted: ReleaseCase, point: ReleasePoint): ReleaseCaseResult {
  return resultOf(inputs, wanted, point, worstRun(inputs, wanted, point));
}

/** The run of a case, with its gust at the moment in which it takes the most. */
export function worstRun(inputs: ReleaseInputs, wanted: ReleaseCase, point: ReleasePoint): JudgedRun | null {
  return wanted.gust === null ? judgedRun(inputs, wanted, point) : worstGust(inputs, wanted, point);
}

/** A run as the result tells it. */
export function resultOf(
  inputs: ReleaseInputs,
  wanted: ReleaseCase,
  point: ReleasePoint,
  judged: JudgedRun | null,
): ReleaseCaseResult {
  const head = {
    ...{ name: wanted.name, what: wanted.what, mass: point.mass, boomAngle_deg: point.boomAngle / DEGREE },
    attachment: wanted.attachment,
  };
  if (judged === null) return { ...head, ...NO_BALANCE };
  const { run, built, least, scene, outcome } = judged;
  const since = (time: number | null): number | null => (time === null ? null : time - built.settle);
  return {
    ...head,
    ...{ outcome, withdrawal: run.withdrawal, leftAt_s: since(run.leftAt), noseAt_s: wanted.noseAt },
    exitSpeed_m_s: run.exitSpeed,
    exitPitchRate_deg_s: run.exitRates === null ? null : run.exitRates[1] / DEGREE,
    ...{ offered_N: run.offered, needed_N: run.needed },
    ...(outcome === "not analysed" || least === null
      ? { clearance_m: null, clearanceAt_s: null, nearest: null }
      : { clearance_m: least.distance, clearanceAt_s: since(least.time), nearest: least.pair }),
    carrierLoadFactor_1: built.rigid ? carrierLoadFactor(run) : null,
    carrierPitch_deg: built.rigid ? largest(run, PITCH) / DEGREE : null,
    proximity: inputs.proximity === null ? "no data" : run.outsideGrid ? "left the grid" : "inside",
    course: courseOf(run, scene, built.settle, judged.freeFrom),
  };
}

const NO_BALANCE = {
  ...{ outcome: "no balance" as const, withdrawal: null, leftAt_s: null, noseAt_s: null },
  ...{ exitSpeed_m_s: null, exitPitchRate_deg_s: null, offered_N: null, needed_N: null },
  ...{ clearance_m: null, clearanceAt_s: null, nearest: null, carrierLoadFactor_1: null, carrierPitch_deg: null },
  proximity: "no data" as const,
  course: { time_s: [], aft_m: [], right_m: [], below_m: [], pitch_deg: [], bank_deg: [], distance_m: [] },
};

/** Moments tried for a gust, as shares of the time from the command to a second after the nose. */
const MOMENTS = [0, 0.25, 0.5, 0.75, 1] as const;

/** The same case with its gust at several moments; the one with the least clearance, or in which it hangs up. */
function worstGust(inputs: ReleaseInputs, wanted: ReleaseCase, point: ReleasePoint): JudgedRun | null {
  const { speed, length } = wanted.gust!;
  const settle = settleOf(wanted);
  let worst: JudgedRun | null = null;
  for (const moment of MOMENTS) {
    const start = settle + moment * ((wanted.noseAt ?? 0) + 1);
    const gusts = (base: Environment): Environment => oneGust(base, speed, length, start);
    const judged = judgedRun(inputs, wanted, point, { friction: 1, timing: [], gusts });
    if (judged === null) return null;
    if (worst === null || rank(judged) < rank(worst)) worst = judged;
  }
  return worst;
}

function rank({ outcome, least }: JudgedRun): number {
  if (outcome === "hang-up" || outcome === "still held") return -1;
  return least?.distance ?? Infinity;
}

/**
 * Air with one upward 1 − cosine gust that passes over everything at once.
 *
 *     w = ½·U·(1 − cos(π·V·(t − t₀)/H)),  0 < V·(t − t₀) < 2·H                   (README eq. 3)
 */
function oneGust(base: Environment, speed: number, gradient: number, start: number): Environment {
  return {
    evaluate(state, out, time) {
      base.evaluate(state, out, time);
      const way = -out.airVelocity[0] * (time - start);
      if (way <= 0 || way >= 2 * gradient) return;
      out.airVelocity[2] -= 0.5 * speed * (1 - Math.cos((Math.PI * way) / gradient));
    },
  };
}

function largest({ values, rows }: SeparationRun, column: number): number {
  let most = 0;
  for (let row = 0; row < rows; row++) {
    const value = values[row * SIZE + column];
    if (Math.abs(value) > Math.abs(most)) most = value;
  }
  return most;
}

/** Largest change of the carrier's load factor, from its vertical speed row by row; upwards positive. */
function carrierLoadFactor({ values, rows }: SeparationRun): number {
  let most = 0;
  for (let row = 1; row < rows; row++) {
    const [a, b] = [(row - 1) * SIZE, row * SIZE];
    const change = -(values[b + VZ] - values[a + VZ]) / ((values[b + TIME] - values[a + TIME]) * STANDARD_GRAVITY);
    if (Math.abs(change) > Math.abs(most)) most = change;
  }
  return most;
}

/** For a picture: 0.1 mm, 0.0001°. */
const rounded = (value: number): number => Math.round(value * 1e4) / 1e4 + 0;

function courseOf(run: SeparationRun, scene: ReleaseScene | null, settle: number, freeFrom: number): ReleaseCourse {
  const { values, rows } = run;
  const first = Math.round(settle / EVERY);
  const picked: number[] = [];
  for (let row = first; row < rows; row += PICTURE) picked.push(row);
  const angles = new Float64Array(3);
  const euler = picked.map((row) => {
    eulerFromQuaternion(values, row * SIZE + Q0, angles);
    return [angles[1] / DEGREE, angles[2] / DEGREE] as const;
  });
  const from = (row: number, k: number): number => values[row * SIZE + X + k] - values[first * SIZE + X + k];
  return {
    time_s: picked.map((row) => rounded(values[row * SIZE + TIME] - settle)),
    aft_m: picked.map((row) => rounded(0 - from(row, 0))),
    right_m: picked.map((row) => rounded(from(row, 1))),
    below_m: picked.map((row) => rounded(from(row, 2))),
    pitch_deg: euler.map(([pitch]) => rounded(pitch)),
    bank_deg: euler.map(([, bank]) => rounded(bank)),
    distance_m: picked.map((row) => (scene === null || row < freeFrom ? null : rounded(scene.at(values, row)))),
  };
}
