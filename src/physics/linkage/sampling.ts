import { DomainError } from "../../math/errors.ts";
import { RandomStream } from "../../math/random/index.ts";
import { requireSize } from "../../math/require.ts";
import { workFor } from "./assemble.ts";
import { deviate, resolveDimensions } from "./dimensions.ts";
import { copyLinkage, type Linkage } from "./linkage.ts";
import { createMeasureReader, type Measure } from "./measures.ts";
import { sensitivity } from "./sensitivity.ts";
import { createWork, settle, turnedOver } from "./settle.ts";
import { requireTolerances, STANDARD_DEVIATIONS, type Toleranced } from "./stack.ts";
import type { Drive } from "./types.ts";

export interface SampleRequest {
  /** A closed state, shape (bodies, 7). */
  readonly state: Float64Array;
  readonly drives: readonly Drive[];
  readonly dimensions: readonly Toleranced[];
  readonly measures: readonly Measure[];
  /** "solved": every sample closes the loops anew; "linear": derivatives times deviations. */
  readonly method: "solved" | "linear";
  /** Of the whole batch. */
  readonly seed: number;
  /** Indices first … first + count − 1 are drawn; ranges put side by side equal one draw. */
  readonly first: number;
  readonly count: number;
  /** Gap that play in redundant joints may take up [m]. Default 1e-9. */
  readonly play?: number;
}

export interface Samples {
  /** Measures less nominal, shape (count, measures) row-major; rows that did not close hold the nearest that was found. */
  readonly deviations: Float64Array;
  /** Largest gap left of each sample [m], shape (count): 0 for linear. */
  readonly gaps: Float64Array;
  /** 1 where the loops closed to within the play, shape (count). */
  readonly closes: Uint8Array;
}

/**
 * Draws dimensions within their tolerances and gives the measures of each sample.
 *
 * Sample i draws from the stream (seed, i) and from nothing else: the result does not depend on order, ranges or workers.
 *
 * @param linkage  the nominal linkage; not changed
 * @param request  what deviates, what is asked, which samples
 * @throws {DomainError} if a tolerance, count or name is wrong
 * @source Monte Carlo sampling; spread as in `Toleranced`
 * @verified stack.test.ts: against root-sum-square where linear, ranges put together bit by bit
 */
export function sampleStack(linkage: Linkage, request: SampleRequest): Samples {
  const { state, drives, dimensions, measures, method, seed, first, count } = request;
  requireTolerances(dimensions);
  requireSize("number of samples", count);
  const play = request.play ?? 1e-9;
  if (!(play >= 0)) throw new DomainError("play", play, "at least 0");
  const width = measures.length;
  const deviations = new Float64Array(count * width);
  const gaps = new Float64Array(count);
  const closes = new Uint8Array(count).fill(1);
  const drawn = new Float64Array(dimensions.length);
  const stream = new RandomStream(seed, 0);
  const draw = (index: number) => {
    stream.restart(seed, index);
    for (let d = 0; d < dimensions.length; d++) {
      const { tolerance, spread } = dimensions[d];
      const z = spread === "uniform" ? 2 * stream.uniform() - 1 : stream.normal() / STANDARD_DEVIATIONS;
      drawn[d] = tolerance * z;
    }
  };
  if (method === "linear") {
    const { matrix } = sensitivity(linkage, state, drives, dimensions, measures);
    for (let i = 0; i < count; i++) {
      draw(first + i);
      for (let m = 0; m < width; m++) {
        let sum = 0;
        for (let d = 0; d < dimensions.length; d++) sum += matrix[m * dimensions.length + d] * drawn[d];
        deviations[i * width + m] = sum;
      }
    }
    return { deviations, gaps, closes };
  }
  const parts = resolveDimensions(linkage, dimensions);
  const varied = copyLinkage(linkage);
  const driven = workFor(linkage, drives).rows;
  const work = createWork(varied, [...driven.driven]);
  const values = { rows: work.rows, values: driven.values };
  const reader = createMeasureReader(linkage, state, measures);
  const here = state.slice();
  for (let i = 0; i < count; i++) {
    draw(first + i);
    deviate(varied, linkage, parts, drawn, 0, values);
    here.set(state);
    const closed = settle(work, here, 40);
    if (turnedOver(work) >= 0 || !(closed || work.residual <= play)) closes[i] = 0;
    gaps[i] = closed ? 0 : work.residual;
    reader.read(varied, here, deviations, i * width);
  }
  return { deviations, gaps, closes };
}

/** What a batch of samples says about one measure. */
export interface SampleSummary {
  /** Samples that closed; the others count nowhere below. */
  readonly closed: number;
  readonly notClosed: number;
  /** Of the deviation, unit of the measure. */
  readonly mean: number;
  readonly standardDeviation: number;
  readonly least: number;
  readonly most: number;
  /** Deviation that the share asked for does not exceed in size. */
  readonly withinShare: number;
}

/**
 * Mean, spread and band of one measure of a batch.
 * @param samples  from `sampleStack`, complete
 * @param measure  index of the measure
 * @param share    for `withinShare`, above 0 and at most 1; default 0.9973, three standard deviations of a normal spread
 * @throws {DomainError} if the measure does not exist or the share is out of range
 * @source definitions; the sum runs in index order, so it is the same for any number of workers
 * @verified stack.test.ts
 */
export function summariseSamples(samples: Samples, measure: number, share = 0.9973): SampleSummary {
  const count = samples.closes.length;
  const width = count === 0 ? 0 : samples.deviations.length / count;
  if (!(Number.isInteger(measure) && measure >= 0 && (measure < width || count === 0))) {
    throw new DomainError("measure", measure, `0 … ${width - 1}`);
  }
  if (!(share > 0 && share <= 1)) throw new DomainError("share", share, "above 0, at most 1");
  const values: number[] = [];
  for (let i = 0; i < count; i++) if (samples.closes[i] === 1) values.push(samples.deviations[i * width + measure]);
  const closed = values.length;
  if (closed === 0) {
    return { closed, notClosed: count, mean: 0, standardDeviation: 0, least: 0, most: 0, withinShare: 0 };
  }
  const mean = values.reduce((sum, value) => sum + value, 0) / closed;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const sizes = values.map(Math.abs).sort((a, b) => a - b);
  return {
    closed,
    notClosed: count - closed,
    mean,
    standardDeviation: closed > 1 ? Math.sqrt(square / (closed - 1)) : 0,
    least: values.reduce((a, b) => Math.min(a, b)),
    most: values.reduce((a, b) => Math.max(a, b)),
    withinShare: sizes[Math.min(closed - 1, Math.ceil(share * closed) - 1)],
  };
}
