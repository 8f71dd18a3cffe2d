import { eigenSystem } from "../../math/eigen/index.ts";
import { integrate } from "../../math/ode/index.ts";
import {
  balanceFourier,
  closeOrbit,
  type FourierBalance,
  type FourierMotion,
  type FourierTask,
  fourierStart,
  motionAt,
  type Orbit,
  type PeriodicSystem,
} from "../../math/periodic/index.ts";
import { hookedPair, IndependentMotion, STANDARD_GRAVITY } from "../../physics/bodies/index.ts";
import type { NonlinearSnubber, TangentialRates } from "../../physics/snubber/index.ts";
import { type HoldInputs, isSymmetric, type PointModel, settingsAt } from "../hold/index.ts";
import { nonlinearPair } from "./simulate.ts";

/** Harmonics of the balance on the equations of motion. */
const HARMONICS = 7;
const SAMPLES = 96;
/** The closed orbit: tolerance of the integration and most steps of a period. */
const TOLERANCE = 1e-8;
const MOST_STEPS = 20_000;
/** Sizes below this share of the tip's are taken as this: nothing moves less in a motion that is coupled at all. */
const LEAST_SIZE = 1e-3;
/** Where the growth on both sides of a cycle is looked at. */
const BESIDE = 1.05;
/** Halvings of the way from one amplitude to another where the balance does not close at once. */
const MOST_STOPS = 3;
/** Differences for the linear shape. */
const STEP = 1e-4;

/** What is read off a periodic motion: half ranges of tip travel [m], travel across the snubber [m] and pitch [rad]. */
export interface MotionSize {
  readonly tip: number;
  readonly travel: number;
  readonly pitch: number;
  /** Largest size of the lift coefficient over its maximum, quasi-steady [1]. */
  readonly liftShare: number;
}

/**
 * The hooked pair with the real law, for methods that look for periodic motion: all equations of motion, nothing linearised.
 *
 *     ẏ = f(y) − μ·(y − y*),  y* the rest                                                      (README eq. 8)
 *
 * A motion of an amplitude is periodic with one μ: the rate at which it grows by itself. A lasting oscillation has μ = 0.
 */
export class NoddingMotion {
  readonly independent: IndependentMotion;
  private readonly inputs: HoldInputs;
  private readonly model: PointModel;
  private readonly rates: TangentialRates;
  private readonly measure: number;

  constructor(inputs: HoldInputs, model: PointModel, rates: TangentialRates, snubber: NonlinearSnubber) {
    this.inputs = inputs;
    this.model = model;
    this.rates = rates;
    this.independent = new IndependentMotion(nonlinearPair(inputs, model, rates, snubber), isSymmetric(inputs));
    this.measure = this.independent.names.indexOf("tip normal");
  }

  /** Least damped oscillation of the pair with a rate in place of the law, of an amplitude of the tip [m]. */
  linearMotion(rate: number, amplitude: number): FourierMotion {
    const settings = settingsAt(this.inputs, this.model.at);
    const { motions: _motions, ...rigid } = settings.boom;
    const { bending, accumulator } = this.rates;
    const boom = { ...rigid, bending, accumulator, snubber: rate };
    const linear = new IndependentMotion(hookedPair({ ...settings, boom }), isSymmetric(this.inputs));
    const n = linear.size;
    const matrix = jacobianAtRest(linear);
    const { re, im, vectors } = eigenSystem(matrix, n);
    const at = this.measure;
    let mode = -1;
    for (let i = 0; i < n; i++) {
      // one in which the tip moves along the swing
      const moves = Math.hypot(vectors[at * n + i], vectors[at * n + i + 1]) > 1e-6;
      if (im[i] > 0 && moves && (mode < 0 || re[i] > re[mode])) mode = i;
    }
    const [a, b] = [vectors[at * n + mode], vectors[at * n + mode + 1]];
    const scale = amplitude / (a * a + b * b);
    const cosine = new Float64Array(n);
    const sine = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      const [u, v] = [vectors[i * n + mode], vectors[i * n + mode + 1]];
      cosine[i] = scale * (u * a + v * b);
      sine[i] = scale * (u * b - v * a);
    }
    const of = { omega: im[mode], parameter: re[mode], harmonics: HARMONICS };
    return fourierStart(this.independent.rest, cosine, sine, of);
  }

  /** The motion of an amplitude of the tip's first harmonic [m], with its growth μ as the parameter. */
  ofAmplitude(start: FourierMotion, amplitude: number, stops = MOST_STOPS): FourierBalance {
    const task: FourierTask = { kind: "of amplitude", measure: this.measure, amplitude };
    const found = this.balance(this.scaled(start, amplitude), task);
    if (found.outcome === "balanced" || stops === 0) return found;
    // once more with a stop on the way
    const halfway = this.ofAmplitude(start, Math.sqrt(amplitude * this.amplitudeOf(start)), stops - 1);
    return halfway.outcome === "balanced" ? this.ofAmplitude(halfway, amplitude, stops - 1) : found;
  }

  /** A lasting oscillation near a motion. */
  lasting(start: FourierMotion): FourierBalance {
    return this.balance({ ...start, parameter: 0 }, { kind: "own frequency", measure: this.measure });
  }

  /** Whether a lasting oscillation attracts by its growth: what is larger decays and what is smaller grows. */
  attracts(found: FourierMotion): boolean {
    const amplitude = this.amplitudeOf(found);
    const [below, beyond] = [amplitude / BESIDE, amplitude * BESIDE].map((at) => this.ofAmplitude(found, at).parameter);
    return beyond < below;
  }

  /** The same by shooting, with its Floquet multipliers. */
  orbit(motion: FourierMotion): Orbit {
    const { size } = this.independent;
    const y0 = new Float64Array(size);
    motionAt(motion, 0, y0);
    return closeOrbit(
      this.system(motion),
      { y0, period: (2 * Math.PI) / motion.omega, parameter: 0 },
      { period: "own", tolerance: TOLERANCE, maxSteps: MOST_STEPS },
    );
  }

  /** Amplitude of the tip's first harmonic [m]. */
  amplitudeOf({ coefficients }: FourierMotion): number {
    const n = this.independent.size;
    return Math.hypot(coefficients[n + this.measure], coefficients[2 * n + this.measure]);
  }

  /** Full state of the pair in a motion at its start, drawn out about its mean by a share. */
  stateIn(motion: FourierMotion, share: number): Float64Array {
    const n = this.independent.size;
    const y = new Float64Array(n);
    motionAt(motion, 0, y);
    for (let i = 0; i < n; i++) y[i] = motion.coefficients[i] + share * (y[i] - motion.coefficients[i]);
    const state = this.independent.pair.state.slice();
    this.independent.expand(y, state);
    return state;
  }

  /** Sizes of a motion over a period. */
  sizeOf(motion: FourierMotion): MotionSize {
    const y = new Float64Array(this.independent.size);
    const at = {
      travel: this.independent.names.indexOf("snubber travel"),
      pitch: this.independent.names.indexOf("pitch"),
    };
    const tip = new Range();
    const travel = new Range();
    const pitch = new Range();
    const state = this.independent.pair.state.slice();
    let liftShare = 0;
    for (let j = 0; j < SAMPLES; j++) {
      motionAt(motion, (2 * Math.PI * j) / (SAMPLES * motion.omega), y);
      tip.add(this.independent.tipTravel(y));
      travel.add(y[at.travel]);
      pitch.add(y[at.pitch]);
      this.independent.expand(y, state);
      liftShare = Math.max(liftShare, Math.abs(this.liftIn(state)) / this.inputs.carried.maximumLift);
    }
    return { tip: tip.half, travel: travel.half, pitch: pitch.half, liftShare };
  }

  /** Half range of the tip travel over a period of the motion through a point [m]. */
  tipOver(y0: Float64Array, period: number): number {
    const range = new Range();
    const y = y0.slice();
    range.add(this.independent.tipTravel(y));
    integrate({
      derivative: (_t, state, out) => this.independent.derivative(state, out),
      ...{ y0, from: 0, to: period, relativeTolerance: TOLERANCE, absoluteTolerance: 1e-12, maxSteps: MOST_STEPS },
      maximumStep: period / SAMPLES,
      onStep: ({ from, t, interpolate }) => {
        // the extremes lie flat: two points a step are enough
        for (const at of [0.5 * (from + t), t]) {
          interpolate(at, y);
          range.add(this.independent.tipTravel(y));
        }
      },
    });
    return range.half;
  }

  /** Lift coefficient at the angle of attack of a state, with the slope at trim. */
  private liftIn(state: Float64Array): number {
    const { pair } = this.independent;
    const { air, mass } = pair.settings;
    const { trim } = pair;
    const { derivatives } = this.inputs.carried;
    const pressureArea = 0.5 * air.density * air.trueAirspeed ** 2 * derivatives.area;
    const atTrim = (mass.mass * STANDARD_GRAVITY + trim.f_onV_byTip_H[2]) / pressureArea;
    // the carrier flies along +x of H: the air comes from there
    const pitch = 2 * Math.atan2(state[5], state[3]);
    const alpha = pitch + Math.atan2(state[9], state[7] + air.trueAirspeed);
    return atTrim + derivatives.lift.alpha * (alpha - trim.alpha);
  }

  private balance(start: FourierMotion, task: FourierTask): FourierBalance {
    return balanceFourier(this.system(start), start, task);
  }

  private system({ coefficients }: FourierMotion): PeriodicSystem {
    const { size: n, rest, derivative } = this.independent;
    const least = LEAST_SIZE * this.amplitudeOf({ omega: 0, parameter: 0, coefficients });
    const scales = Float64Array.from({ length: n }, (_, i) =>
      Math.max(least, Math.hypot(coefficients[n + i], coefficients[2 * n + i])),
    );
    return {
      ...{ size: n, scales },
      derivative: (_t, y, growth, out) => {
        derivative(y, out);
        if (growth !== 0) for (let i = 0; i < n; i++) out[i] -= growth * (y[i] - rest[i]);
      },
    };
  }

  /** A motion drawn to another amplitude: harmonics by its share, the mean's shift from rest by its square. */
  private scaled(motion: FourierMotion, amplitude: number): FourierMotion {
    const n = this.independent.size;
    const share = amplitude / this.amplitudeOf(motion);
    const { rest } = this.independent;
    const coefficients = motion.coefficients.map((value, i) =>
      i < n ? rest[i] + share * share * (value - rest[i]) : share * value,
    );
    return { ...motion, coefficients };
  }
}

/** Half the distance from the least to the greatest. */
class Range {
  private least = Number.POSITIVE_INFINITY;
  private most = Number.NEGATIVE_INFINITY;
  add(value: number): void {
    this.least = Math.min(this.least, value);
    this.most = Math.max(this.most, value);
  }
  get half(): number {
    return (this.most - this.least) / 2;
  }
}

function jacobianAtRest({ size: n, rest, derivative }: IndependentMotion): Float64Array {
  const matrix = new Float64Array(n * n);
  const y = rest.slice();
  const above = new Float64Array(n);
  const below = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    y[k] = rest[k] + STEP;
    derivative(y, above);
    y[k] = rest[k] - STEP;
    derivative(y, below);
    y[k] = rest[k];
    for (let i = 0; i < n; i++) matrix[i * n + k] = (above[i] - below[i]) / (2 * STEP);
  }
  return matrix;
}
