/**
 * Boundary of hooked stability: the exact curve against a 200 × 200 grid at equal accuracy, on the demo pair.
 *
 * Both start from the same linearised pair. Two grids: eigenvalues alone on the smallest matrix (the leanest grid there can be),
 * and the modes with their classes as the maps of `hold` shade them. The accuracy is the largest distance of a curve traced to 1e-7
 * from the lines: the grid's interpolated contour, and a curve that is traced with the grid's accuracy as the deviation of its chords.
 * Rounds are interleaved; the figure that counts is the ratio of the medians.
 */
import { loadavg } from "node:os";
import { recordReads } from "../../src/inputs/index.ts";
import { contourLines } from "../../src/math/contour/index.ts";
import { createEigenWorkspace, eigenvalues } from "../../src/math/eigen/index.ts";
import { type Linearisation, TangentialModel } from "../../src/physics/bodies/index.ts";
import {
  type LevelCurve,
  levelCurves,
  type PathMap,
  pathProblem,
  pathSeeds,
  type SwingSystem,
  swingSystem,
} from "../../src/physics/stability-boundary/index.ts";
import { operatingPoint, PointModel, readHoldInputs, worstDamping } from "../../src/studies/hold/index.ts";
import { loadDemo } from "../../test/support/load-demo.ts";

const SIDE = 200;
const ROUNDS = 5;
/** Curves are so short that one round traces them this often. */
const REPEATS = 40;
const LIMIT = 100;

type Points = { readonly x: ArrayLike<number>; readonly y: ArrayLike<number> }[];

const loaded = loadDemo("Rev A");
const { inputs } = readHoldInputs(() => recordReads(loaded));
const at = operatingPoint(inputs, inputs.conditions[0], "full");
const model = new PointModel(inputs, at);
const { length, structuralDamping } = inputs.boom;
const swing = swingSystem(model.base, length);
const damping = 2 * structuralDamping * Math.sqrt(model.pair.hookedMass.tangential);
const level = { kind: "oscillation", dampingRatio: 0 } as const;

/** The longitudinal pair alone, for the lean grid. */
function leanBase({ size, matrix, input, output }: SwingSystem): Linearisation {
  const nq = size / 2;
  return {
    ...{ size, matrix, coordinates: nq, basis: new Float64Array(0), names: [] },
    swing: { perMoment: input.slice(nq).map((x) => x / length), angle: output.slice(0, nq).map((x) => x / length) },
  };
}

/** Largest distance of the points of an exact curve from lines. */
function largestDistance(lines: Points, exact: readonly LevelCurve[]): number {
  let worst = 0;
  for (const { x, y } of exact) {
    for (let k = 0; k < x.length; k++) {
      let least = Number.POSITIVE_INFINITY;
      for (const line of lines) {
        for (let i = 1; i < line.x.length; i++) {
          const [dx, dy] = [line.x[i] - line.x[i - 1], line.y[i] - line.y[i - 1]];
          const along = ((x[k] - line.x[i - 1]) * dx + (y[k] - line.y[i - 1]) * dy) / (dx * dx + dy * dy);
          const part = Math.min(1, Math.max(0, along));
          least = Math.min(least, Math.hypot(x[k] - line.x[i - 1] - part * dx, y[k] - line.y[i - 1] - part * dy));
        }
      }
      worst = Math.max(worst, least);
    }
  }
  return worst;
}

const seconds = (work: () => void): number => {
  const start = process.hrtime.bigint();
  work();
  return Number(process.hrtime.bigint() - start) / 1e9;
};
const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1];

console.log(`load ${loadavg()[0].toFixed(2)} before the start, ${ROUNDS} interleaved rounds, ${SIDE} × ${SIDE} grid`);
for (const along of ["accumulator", "bending"] as const) {
  const range = inputs.sweeps[along];
  const { snubber } = inputs.sweeps;
  const window = {
    x: { from: Math.log(range.from), to: Math.log(range.to) },
    y: { from: Math.log(snubber.from), to: Math.log(snubber.to) },
  };
  const xs = Array.from({ length: SIDE }, (_, i) => window.x.from + ((window.x.to - window.x.from) * i) / (SIDE - 1));
  const ys = Array.from({ length: SIDE }, (_, i) => window.y.from + ((window.y.to - window.y.from) * i) / (SIDE - 1));
  const map: PathMap = { swing, along, damping, parts: at };
  const tangential = new TangentialModel(leanBase(swing), length);
  const A = new Float64Array(49);
  const [re, im] = [new Float64Array(7), new Float64Array(7)];
  const workspace = createEigenWorkspace(7);
  const lean = (): Points => {
    const values = new Float64Array(SIDE * SIDE);
    for (let j = 0; j < SIDE; j++) {
      for (let i = 0; i < SIDE; i++) {
        const rates = model.ratesWith({ [along]: Math.exp(xs[i]), snubber: Math.exp(ys[j]) });
        const n = tangential.assemble(rates, A);
        eigenvalues(A, n, workspace, re, im);
        let worst = 1;
        for (let k = 0; k < n; k++) if (im[k] > 0) worst = Math.min(worst, -re[k] / Math.hypot(re[k], im[k]));
        values[j * SIDE + i] = worst;
      }
    }
    return contourLines(xs, ys, values, 0);
  };
  const classed = (): Points => {
    const values = new Float64Array(SIDE * SIDE);
    for (let j = 0; j < SIDE; j++) {
      for (let i = 0; i < SIDE; i++) {
        const rates = model.ratesWith({ [along]: Math.exp(xs[i]), snubber: Math.exp(ys[j]) });
        const modes = model.modes(rates, "longitudinal");
        values[j * SIDE + i] = worstDamping(modes, "longitudinal", inputs.criteria.timeToDouble.value) ?? 1;
      }
    }
    return contourLines(xs, ys, values, 0);
  };
  const curve = (deviation: number): LevelCurve[] =>
    levelCurves(pathProblem(map), level, window, pathSeeds(map, level, window), { deviation });
  const exact = curve(1e-7);
  const accuracy = largestDistance(lean(), exact);
  const promised = 5e-4;
  const times = { lean: [] as number[], classed: [] as number[], equal: [] as number[], promised: [] as number[] };
  for (let i = 0; i < 2 * REPEATS; i++) curve(accuracy);
  for (let round = 0; round < ROUNDS; round++) {
    times.lean.push(seconds(lean));
    times.equal.push(
      seconds(() => {
        for (let i = 0; i < REPEATS; i++) curve(accuracy);
      }) / REPEATS,
    );
    times.classed.push(seconds(classed));
    times.promised.push(
      seconds(() => {
        for (let i = 0; i < REPEATS; i++) curve(promised);
      }) / REPEATS,
    );
  }
  const own = largestDistance(curve(accuracy), exact);
  const ratio = (grid: number[], line: number[]): string => `${(median(grid) / median(line)).toFixed(0)} times`;
  const milli = (values: number[]): string => `${(1e3 * median(values)).toFixed(2)} ms`;
  console.log(`${along} × snubber:`);
  console.log(`  grid within ${(100 * accuracy).toFixed(3)} % of the exact curve; eigenvalues alone ${milli(times.lean)}, classed modes ${milli(times.classed)}`); // biome-ignore format: a line of print
  console.log(`  curve with the same deviation ${milli(times.equal)} (it is within ${(100 * own).toFixed(3)} %): ${ratio(times.lean, times.equal)} faster than eigenvalues alone, ${ratio(times.classed, times.equal)} than classed modes; limit ${LIMIT}`); // biome-ignore format: a line of print
  console.log(`  curve to ${100 * promised} % ${milli(times.promised)}: ${ratio(times.lean, times.promised)} and ${ratio(times.classed, times.promised)}`); // biome-ignore format: a line of print
}
