import { createRk4Workspace, rk4Step } from "../../math/ode/index.ts";
import { type HookedPair, PairMotion } from "../bodies/index.ts";
import { type GustHistory, gustAt } from "../turbulence/index.ts";
import { gustAir } from "./gust-air.ts";
import type { GustModel } from "./linear-model.ts";
import { OUTPUT_COUNT, OutputMeter } from "./outputs.ts";

/** What one history of gusts did, by the nonlinear equations and by the linear model; shape (OUTPUT_COUNT) each. */
export interface SimulatedGusts {
  /** "left" when the aircraft turned by more than 60° or a number ceased to be finite. */
  readonly outcome: "completed" | "left";
  /** Root mean square of the distance from the mean at trim. */
  readonly nonlinear: Float64Array;
  readonly linear: Float64Array;
  /** Largest distance from the mean at trim. */
  readonly largest: Float64Array;
  /** Upward crossings of the mean at trim per second [1/s], nonlinear. */
  readonly crossings: Float64Array;
  /** Time that counted [s]. */
  readonly time: number;
}

const LARGEST_TURN = Math.PI / 3;
/** Steps from one measurement to the next: the fastest motion of interest is far slower than a step. */
const EVERY = 2;

/**
 * Simulates the nonlinear pair and its linear model through the same history of gusts.
 *
 * @param pair     at trim
 * @param model    its linear model
 * @param history  from `gustHistory` with the lags of the lift; its step is that of the integration
 * @param settle   time at the beginning that does not count [s]: the pair starts at rest
 * @source RK4 on the equations of physics/bodies and on README eq. 6
 * @verified response.test.ts: small gusts give the linear motion, order of the difference
 * @cost about 30 µs a step
 */
export function simulateGusts(
  pair: HookedPair,
  model: GustModel,
  tipPerJack: number,
  history: GustHistory,
  settle: number,
): SimulatedGusts {
  const { settings } = pair.motion;
  const environment = gustAir(settings.environment, model.speed, (time, out) => gustAt(history, time, out));
  const motion = new PairMotion({ ...settings, environment });
  const meter = new OutputMeter(motion, tipPerJack);
  const state = pair.state.slice();
  const work = createRk4Workspace(state.length);
  const linear = new LinearMotion(model, history);
  const y = new Float64Array(OUTPUT_COUNT);
  const sums = new Float64Array(OUTPUT_COUNT);
  const linearSums = new Float64Array(OUTPUT_COUNT);
  const largest = new Float64Array(OUTPUT_COUNT);
  const rises = new Float64Array(OUTPUT_COUNT);
  const before = new Float64Array(OUTPUT_COUNT);
  const first = Math.ceil(settle / history.step);
  let counted = 0;
  let finite = true;
  for (let k = 1; k < history.count && finite; k++) {
    const from = (k - 1) * history.step;
    rk4Step(motion.derivative, from, state, history.step, state, work);
    linear.step(from);
    if (k < first || k % EVERY !== 0) continue;
    meter.measure(k * history.step, state, y);
    counted++;
    for (let i = 0; i < OUTPUT_COUNT; i++) {
      const distance = y[i] - model.mean[i];
      sums[i] += distance * distance;
      if (before[i] < 0 && distance >= 0) rises[i]++;
      before[i] = distance;
      largest[i] = Math.max(largest[i], Math.abs(distance));
      linearSums[i] += linear.output(i, k * history.step) ** 2;
    }
    const turn = Math.max(Math.abs(y[7]), Math.abs(y[8]));
    if (!(turn < LARGEST_TURN)) finite = false;
  }
  const root = (sum: Float64Array): Float64Array => sum.map((x) => (finite ? Math.sqrt(x / counted) : 0));
  return {
    outcome: finite ? "completed" : "left",
    nonlinear: root(sums),
    linear: root(linearSums),
    largest: finite ? largest : new Float64Array(OUTPUT_COUNT),
    crossings: rises.map((count) => (finite ? count / (counted * EVERY * history.step) : 0)),
    time: counted * EVERY * history.step,
  };
}

/** The linear model in the same gusts. */
class LinearMotion {
  private readonly model: GustModel;
  private readonly history: GustHistory;
  private readonly x: Float64Array;
  private readonly gust = new Float64Array(6);
  private readonly work: ReturnType<typeof createRk4Workspace>;

  constructor(model: GustModel, history: GustHistory) {
    this.model = model;
    this.history = history;
    this.x = new Float64Array(model.size);
    this.work = createRk4Workspace(model.size);
  }

  private readonly derivative = (time: number, x: Float64Array, out: Float64Array): void => {
    const { size: n, A, B } = this.model;
    gustAt(this.history, time, this.gust);
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let j = 0; j < n; j++) sum += A[i * n + j] * x[j];
      for (let g = 0; g < 6; g++) sum += B[6 * i + g] * this.gust[g];
      out[i] = sum;
    }
  };

  step(from: number): void {
    rk4Step(this.derivative, from, this.x, this.history.step, this.x, this.work);
  }

  output(i: number, time: number): number {
    const { size: n, C, D } = this.model;
    gustAt(this.history, time, this.gust);
    let sum = 0;
    for (let j = 0; j < n; j++) sum += C[i * n + j] * this.x[j];
    for (let g = 0; g < 6; g++) sum += D[6 * i + g] * this.gust[g];
    return sum;
  }
}
