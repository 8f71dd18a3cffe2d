import { RandomStream } from "../../math/random/index.ts";
import type { Environment } from "../../physics/bodies/index.ts";
import { separationColumn } from "../../physics/separation/index.ts";
import { drydenFilter, GustSampler, turbulenceScales } from "../../physics/turbulence/index.ts";
import { airOf } from "../hold/index.ts";
import type { SampleColumn, SampleCondition, Sampler, SampleStudyEntry } from "../samples/types.ts";
import { operatingAt, type ReleasePoint, type Scatter } from "./build.ts";
import { caseOf, NORMAL, type ReleaseCase } from "./cases.ts";
import { EVERY, type JudgedRun, judgedRun } from "./run-case.ts";
import { type ReleaseInputs, readRelease } from "./settings.ts";
import { RELEASE_OUTCOMES } from "./types.ts";

/** Step of the gusts [s]. */
const GUST_STEP = 0.05;
/** Time between distances that a sample keeps [s]. */
const BAND_STEP = 0.5;
/** Least height above ground of the turbulence model, 10 ft [m]. */
const LEAST_HEIGHT = 10 * 0.3048;
/** Least share of the friction that scatter leaves. */
const LEAST_FRICTION = 0.05;
const FIXED: readonly SampleColumn[] = [
  { name: "clean_1", title: "Clean", unit: "" },
  { name: "outcome", title: "Outcome", unit: "", words: RELEASE_OUTCOMES },
  { name: "left_s", title: "Time until the probe is out", unit: "s" },
  { name: "exitSpeed_m_s", title: "Speed of the probe as it leaves", unit: "m/s" },
  { name: "exitPitchRate_rad_s", title: "Pitch rate as it leaves", unit: "rad/s" },
  { name: "clearance_m", title: "Least distance once free", unit: "m" },
];

/** A turbulence with a loading. */
export interface BatchCondition extends SampleCondition {
  readonly sigmaName: string;
  readonly sigma: number;
  readonly mass: string;
}

/** Every turbulence with every loading of the pair. */
export function batchConditions({ settings }: ReleaseInputs): BatchCondition[] {
  return Object.entries(settings.dispersion.sigmas).flatMap(([sigmaName, { si, text }]) =>
    settings.masses.map((mass) => ({
      key: `${sigmaName}-${mass}`.replaceAll(/[^A-Za-z0-9-]+/g, "-"),
      title: `${sigmaName} (σ ${text}), ${mass}`,
      ...{ sigmaName, sigma: si, mass },
    })),
  );
}

/** Times of the distances that a sample keeps, from the command [s]. */
export const bandTimes = ({ settings }: ReleaseInputs): number[] =>
  Array.from({ length: Math.floor(settings.duration.si / BAND_STEP + 1e-9) }, (_, i) => (i + 1) * BAND_STEP);

/** Index of the first of those distances among the columns. */
export const BAND_FROM = FIXED.length;

export const sampleColumns = (inputs: ReleaseInputs): SampleColumn[] => [
  ...FIXED,
  ...bandTimes(inputs).map((time) => ({
    name: `distance_${time.toFixed(1).replace(".", "_")}_s_m`,
    title: `Distance from everything after ${time.toFixed(1)} s`,
    unit: "m",
  })),
];

/**
 * Draws normal releases in one turbulence with one loading.
 *
 * Sample i scatters, each from its own stream of (seed, i): gusts, attitude of the pair against the air and gravity, opening times,
 * friction. The gusts pass over both aircraft at once.
 *
 * @verified samples.test.ts: same rows in any order, no scatter gives the case itself
 */
export class ReleaseSampler implements Sampler {
  private readonly inputs: ReleaseInputs;
  private readonly wanted: ReleaseCase;
  private readonly point: ReleasePoint;
  private readonly gusts: GustSampler | null;
  private readonly table: Float64Array;
  private readonly stream: number;
  private readonly seed: number;
  private readonly random = new RandomStream(0, 0);
  private readonly times: readonly number[];

  constructor(inputs: ReleaseInputs, condition: BatchCondition, order: number, seed: number) {
    this.inputs = inputs;
    this.seed = seed;
    // gusts of a sample are the same whatever its loading: only the intensity tells the turbulences apart
    this.stream = 4 * order;
    this.wanted = caseOf(inputs.settings, NORMAL, {});
    this.point = { mass: condition.mass, boomAngle: inputs.settings.boomAngles[0].si };
    const at = operatingAt(inputs, this.point, this.wanted.weightShare);
    const { trueAirspeed: speed } = airOf(at);
    const { document } = inputs.settings.dispersion;
    const scales = turbulenceScales(document, "Dryden", Math.max(LEAST_HEIGHT, at.altitude));
    const { span } = inputs.hold.carried.derivatives;
    const count = Math.ceil(inputs.settings.duration.si / GUST_STEP) + 2;
    this.table = new Float64Array(6 * count);
    this.gusts =
      condition.sigma > 0
        ? new GustSampler(drydenFilter({ scales, sigma: condition.sigma, speed, span }), GUST_STEP)
        : null;
    this.times = bandTimes(inputs);
  }

  run(index: number, row: Float64Array): void {
    const judged = this.judged(index);
    row.fill(Number.NaN);
    row[0] = judged?.outcome === "clean" ? 1 : 0;
    row[1] = RELEASE_OUTCOMES.indexOf(judged?.outcome ?? "no balance");
    if (judged === null) return;
    const { run, least, scene, freeFrom } = judged;
    row[2] = run.leftAt ?? Number.NaN;
    row[3] = run.exitSpeed ?? Number.NaN;
    row[4] = run.exitRates?.[1] ?? Number.NaN;
    row[5] = least?.distance ?? Number.NaN;
    if (scene === null) return;
    this.times.forEach((time, i) => {
      const at = Math.round(time / EVERY);
      if (at >= freeFrom && at < run.rows) row[FIXED.length + i] = scene.at(run.values, at);
    });
  }

  replay(index: number): ReturnType<Sampler["replay"]> {
    const judged = this.judged(index);
    const columns = (["time", "x", "y", "z", "p", "q", "r", "travel"] as const).map((name) => ({
      ...{ name: `${name}${UNITS[name].suffix}`, title: UNITS[name].title, unit: UNITS[name].unit },
    }));
    if (judged === null) return { columns, values: new Float64Array(0), events: [] };
    const { run } = judged;
    const from = (["time", "x", "y", "z", "p", "q", "r", "travel"] as const).map(separationColumn);
    const size = run.values.length / run.rows;
    const values = new Float64Array(run.rows * from.length);
    for (let i = 0; i < run.rows; i++) {
      for (let k = 0; k < from.length; k++) values[i * from.length + k] = run.values[i * size + from[k]];
    }
    const events = run.leftAt === null ? [] : [{ time: run.leftAt, what: run.withdrawal }];
    return { columns, values, events };
  }

  private judged(index: number): JudgedRun | null {
    return judgedRun(this.inputs, this.wanted, this.point, this.scatter(index));
  }

  private scatter(index: number): Scatter {
    const { random, inputs, seed, stream, wanted, gusts, table } = this;
    const { pitch, bank, timing, friction } = inputs.settings.dispersion;
    random.restart(seed, index, stream + 1);
    const [turn, roll] = [pitch.si * random.normal(), bank.si * random.normal()];
    const share = Math.max(LEAST_FRICTION, 1 + friction.si * random.normal());
    const late = wanted.steps.map(() => timing.si * random.normal());
    if (gusts !== null) {
      gusts.restart(seed, index, stream);
      for (let at = 0; at < table.length; at += 6) gusts.step(table.subarray(at, at + 6));
    } else table.fill(0);
    return { friction: share, timing: late, gusts: (base) => disturbed(base, table, turn, roll) };
  }
}

const UNITS = {
  time: { suffix: "_s", unit: "s", title: "Time" },
  x: { suffix: "_m", unit: "m", title: "Place forward" },
  y: { suffix: "_m", unit: "m", title: "Place right" },
  z: { suffix: "_m", unit: "m", title: "Place down" },
  p: { suffix: "_rad_s", unit: "rad/s", title: "Rate of roll" },
  q: { suffix: "_rad_s", unit: "rad/s", title: "Rate of pitch" },
  r: { suffix: "_rad_s", unit: "rad/s", title: "Rate of yaw" },
  travel: { suffix: "_m", unit: "m", title: "Travel in the bore" },
} as const;

/**
 * Air with gusts from a table, straight lines between its steps, of a pair that flies nose up by an angle and banked.
 *
 *     air from below by V·tan θ,   g turns about x by the bank angle                     (README eq. 4)
 */
function disturbed(base: Environment, table: Float64Array, pitch: number, bank: number): Environment {
  const last = table.length / 6 - 2;
  const [c, s, t] = [Math.cos(bank), Math.sin(bank), Math.tan(pitch)];
  return {
    evaluate(state, out, time) {
      base.evaluate(state, out, time);
      const k = Math.min(last, Math.floor(time / GUST_STEP));
      const share = Math.min(1, time / GUST_STEP - k);
      out.airVelocity[2] += out.airVelocity[0] * t;
      const g = out.gravity[2];
      out.gravity[1] += g * s;
      out.gravity[2] = g * c;
      for (let i = 0; i < 3; i++) {
        const [a, b] = [6 * k + i, 6 * k + 6 + i];
        out.airVelocity[i] += table[a] + share * (table[b] - table[a]);
        out.airRotation[i] += table[a + 3] + share * (table[b + 3] - table[a + 3]);
      }
    },
  };
}

/** The study as a table of independent samples. */
export const releaseSamples: SampleStudyEntry = {
  key: "release",
  title: "Dispersed releases",
  open({ reads, seed }) {
    const inputs = readRelease(reads);
    if (inputs === null) return null;
    const conditions = batchConditions(inputs);
    const own = seed ?? inputs.settings.dispersion.seed ?? 1;
    return {
      key: "release",
      columns: sampleColumns(inputs),
      conditions,
      samples: inputs.settings.dispersion.samples,
      seed: own,
      success: "clean_1",
      sampler(key) {
        const condition = conditions.find((each) => each.key === key)!;
        return new ReleaseSampler(inputs, condition, orderOf(conditions, condition), own);
      },
    };
  },
};

/** Place of a condition's turbulence among the turbulences. */
export function orderOf(conditions: readonly BatchCondition[], { sigmaName }: BatchCondition): number {
  return [...new Set(conditions.map((each) => each.sigmaName))].indexOf(sigmaName);
}
