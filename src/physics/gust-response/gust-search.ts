import { matrixExponential } from "../../math/exponential/index.ts";
import { goldenMaximum } from "../../math/roots/index.ts";
import { GRADIENTS, liftLag, oneMinusCosine } from "../turbulence/index.ts";
import type { GustModel } from "./linear-model.ts";
import { OUTPUT_COUNT } from "./outputs.ts";

export type GustDirection = "vertical" | "lateral";

/** Response to one 1−cosine gust; shape (OUTPUT_COUNT) each. */
export interface GustPeak {
  /** Largest distance from the mean, either way: a gust of the other sign turns the response round. */
  readonly distance: Float64Array;
  /** Time from the beginning of the gust [s]. */
  readonly time: Float64Array;
}

/** Worst gust of each output; shape (OUTPUT_COUNT) each. */
export interface GustSearch {
  readonly direction: GustDirection;
  /** Gradients of the scan [m] and, for each, the distances of all outputs. */
  readonly gradients: readonly number[];
  readonly distances: readonly Float64Array[];
  /** Refined worst distance, its gradient [m] and the time of the peak [s]. */
  readonly worst: Float64Array;
  readonly worstGradient: Float64Array;
  readonly worstTime: Float64Array;
}

const STEP = 0.004;
/** Time after the gust in which a peak may still come [s]: the slow oscillations of a hooked aircraft take 3 s. */
const AFTERWARDS = 5;

/** Linear pair behind the lags of the lift, driven by the velocity of the air in one direction; exact for straight pieces. */
class DrivenPair {
  private readonly n: number;
  private readonly transition: Float64Array;
  private readonly atStart: Float64Array;
  private readonly atEnd: Float64Array;
  private readonly outputs: Float64Array;
  private readonly x: Float64Array;
  private readonly next: Float64Array;

  constructor(model: GustModel, chord: number, direction: GustDirection) {
    const { size, A, B, C, D, speed } = model;
    const lag = liftLag(speed, chord);
    const n = size + 2;
    // gust g = Σ share·k, its rate Σ share·rate·(U − k): w with q = −ẇ/V, or v with r = v̇/V
    const [velocity, rotation, sign] = direction === "vertical" ? [2, 4, -1] : [1, 5, 1];
    const dynamics = new Float64Array(n * n);
    const input = new Float64Array(n);
    this.outputs = new Float64Array(OUTPUT_COUNT * (n + 1));
    for (let i = 0; i < size; i++) for (let j = 0; j < size; j++) dynamics[i * n + j] = A[i * size + j];
    for (let i = 0; i < OUTPUT_COUNT; i++) {
      for (let j = 0; j < size; j++) this.outputs[i * (n + 1) + j] = C[i * size + j];
    }
    lag.rates.forEach((rate, k) => {
      const state = size + k;
      dynamics[state * n + state] = -rate;
      input[state] = rate;
      const perRate = (sign * lag.share * rate) / speed;
      for (let i = 0; i < size; i++) {
        dynamics[i * n + state] = B[6 * i + velocity] * lag.share - B[6 * i + rotation] * perRate;
        input[i] += B[6 * i + rotation] * perRate;
      }
      for (let i = 0; i < OUTPUT_COUNT; i++) {
        this.outputs[i * (n + 1) + state] = D[6 * i + velocity] * lag.share - D[6 * i + rotation] * perRate;
        this.outputs[i * (n + 1) + n] += D[6 * i + rotation] * perRate;
      }
    });
    const big = n + 2;
    const held = new Float64Array(big * big);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) held[i * big + j] = dynamics[i * n + j] * STEP;
      held[i * big + n] = input[i] * STEP;
    }
    held[n * big + n + 1] = 1;
    const e = matrixExponential(held, big);
    this.n = n;
    this.transition = new Float64Array(n * n);
    this.atStart = new Float64Array(n);
    this.atEnd = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) this.transition[i * n + j] = e[i * big + j];
      this.atEnd[i] = e[i * big + n + 1];
      this.atStart[i] = e[i * big + n] - this.atEnd[i];
    }
    this.x = new Float64Array(n);
    this.next = new Float64Array(n);
  }

  /** Goes through a gust of velocity `gust(t)` for a time; calls `see` with the outputs after every step. */
  run(gust: (time: number) => number, time: number, see: (time: number, outputs: Float64Array) => void): void {
    const { n, transition, atStart, atEnd, outputs } = this;
    let { x, next } = this;
    x.fill(0);
    const y = new Float64Array(OUTPUT_COUNT);
    let here = gust(0);
    const count = Math.ceil(time / STEP);
    for (let k = 1; k <= count; k++) {
      const there = gust(k * STEP);
      for (let i = 0; i < n; i++) {
        let sum = atStart[i] * here + atEnd[i] * there;
        for (let j = 0; j < n; j++) sum += transition[i * n + j] * x[j];
        next[i] = sum;
      }
      [x, next] = [next, x];
      here = there;
      for (let i = 0; i < OUTPUT_COUNT; i++) {
        let sum = outputs[i * (n + 1) + n] * here;
        for (let j = 0; j < n; j++) sum += outputs[i * (n + 1) + j] * x[j];
        y[i] = sum;
      }
      see(k * STEP, y);
    }
  }
}

function peaksOf(pair: DrivenPair, speed: number, peak: number, gradient: number): GustPeak {
  const distance = new Float64Array(OUTPUT_COUNT);
  const time = new Float64Array(OUTPUT_COUNT);
  const gust = (t: number): number => oneMinusCosine(peak, gradient, speed * t);
  pair.run(gust, (2 * gradient) / speed + AFTERWARDS, (t, y) => {
    for (let i = 0; i < OUTPUT_COUNT; i++) {
      if (Math.abs(y[i]) <= distance[i]) continue;
      distance[i] = Math.abs(y[i]);
      time[i] = t;
    }
  });
  return { distance, time };
}

/**
 * Peaks of all outputs in one 1−cosine gust, through the lags of the lift, in time.
 *
 * The gust is the same over the span; its gradient along the path turns the air, q = −(dw/dt)/V, r = (dv/dt)/V.
 *
 * @param model      of the pair
 * @param chord      c̄ [m]
 * @param peak       largest velocity of the air [m/s TAS]
 * @param gradient   H [m]
 * @source own derivation, README eq. 12
 * @verified response.test.ts: a heaving aircraft against the gust alleviation factor, the nonlinear motion in time
 */
export function gustPeaks(
  model: GustModel,
  chord: number,
  direction: GustDirection,
  peak: number,
  gradient: number,
): GustPeak {
  return peaksOf(new DrivenPair(model, chord, direction), model.speed, peak, gradient);
}

const SCAN = 25;
/** A distance that is round-off in any unit of the outputs. */
const NOTHING = 1e-9;

/**
 * Worst gradient of each output between 30 and 350 ft: a scan, then golden section beside its best.
 *
 * @param peakOf  largest velocity of the air [m/s TAS] by gradient [m]
 * @source own derivation, README eq. 13; range of gradients 14 CFR 25.341(a)(3)
 * @verified response.test.ts: never below a fine scan
 */
export function searchGusts(
  model: GustModel,
  chord: number,
  direction: GustDirection,
  peakOf: (gradient: number) => number,
): GustSearch {
  const pair = new DrivenPair(model, chord, direction);
  const { from, to } = GRADIENTS;
  const gradients = Array.from({ length: SCAN }, (_, k) => from + ((to - from) * k) / (SCAN - 1));
  const peaks = gradients.map((gradient) => peaksOf(pair, model.speed, peakOf(gradient), gradient));
  const worst = new Float64Array(OUTPUT_COUNT);
  const worstGradient = new Float64Array(OUTPUT_COUNT);
  const worstTime = new Float64Array(OUTPUT_COUNT);
  for (let i = 0; i < OUTPUT_COUNT; i++) {
    let best = 0;
    for (let k = 1; k < SCAN; k++) if (peaks[k].distance[i] > peaks[best].distance[i]) best = k;
    worst[i] = peaks[best].distance[i];
    worstGradient[i] = gradients[best];
    worstTime[i] = peaks[best].time[i];
    if (best === 0 || best === SCAN - 1 || worst[i] < NOTHING) continue;
    const height = (gradient: number): number => peaksOf(pair, model.speed, peakOf(gradient), gradient).distance[i];
    const found = goldenMaximum(height, gradients[best - 1], gradients[best + 1], 0.5);
    if (found.value <= worst[i]) continue;
    worst[i] = found.value;
    worstGradient[i] = found.x;
    worstTime[i] = peaksOf(pair, model.speed, peakOf(found.x), found.x).time[i];
  }
  return { direction, gradients, distances: peaks.map(({ distance }) => distance), worst, worstGradient, worstTime };
}
