import { DomainError } from "../../math/errors.ts";
import { RandomStream } from "../../math/random/index.ts";
import { APPROACH_STREAMS, type NavigationSettings } from "./settings.ts";
import { DelayLine, ticksOf } from "./ticks.ts";

/** Place (3), velocity (3) and whether this tick brought a measurement (1). */
const WIDTH = 7;

/**
 * Relative navigation: place and velocity of the probe head from its aim as the law gets them.
 *
 *     p̃_k = p_k + b + σ_p·n_k,   ṽ_k = v_k + σ_v·n'_k,   b = σ_b·n once a sample;  to the law n ticks later        (README eq. 1)
 *     available → interrupted after Exp(mean between), back after Exp(mean length)                                (README eq. 2)
 *     interrupted or between measurements: hold p̃, or propagate p̃ ← p̃ + ṽ·Δt                                     (README eq. 3)
 *
 * The noise of a measurement is drawn whether or not it arrives, so that interruptions do not move the noise of later ones.
 * A sample begins with navigation available.
 *
 * @throws {DomainError} for negative deviations or times, or times that are no whole number of ticks
 * @source own derivation, README eq. 1–3
 * @verified navigation.test.ts: latency exact, variance of noise and bias, share and length of interruptions, repeatability
 * @cost no array and no object is made in `step`; numbers may be boxed (README)
 */
export class RelativeNavigation {
  /** What the law has: place [m] and velocity [m/s] in H. */
  readonly place = new Float64Array(3);
  readonly velocity = new Float64Array(3);
  /** Time since a measurement last arrived [s]. */
  age = 0;
  /** Whether the link works at this tick. */
  available = true;

  readonly #settings: NavigationSettings;
  readonly #tick: number;
  readonly #every: number;
  readonly #line: DelayLine;
  readonly #noise = new RandomStream(0, 0, APPROACH_STREAMS.navigation);
  readonly #gaps = new RandomStream(0, 0, APPROACH_STREAMS.dropouts);
  readonly #bias = new Float64Array(3);
  readonly #passing = new Float64Array(WIDTH);
  #count = 0;
  #switchAt = Number.POSITIVE_INFINITY;

  constructor(settings: NavigationSettings, tick: number) {
    const { bias, placeNoise, velocityNoise, attitudeNoise, rateNoise, dropouts } = settings;
    const deviations = { "bias, x": bias[0], "bias, y": bias[1], "bias, z": bias[2] };
    for (const [what, value] of Object.entries({
      ...deviations,
      ...{ placeNoise, velocityNoise, attitudeNoise, rateNoise },
    })) {
      if (!(value >= 0 && value < Number.POSITIVE_INFINITY)) {
        throw new DomainError(`relative navigation, ${what}`, value, "0 or more, finite");
      }
    }
    for (const [what, value] of Object.entries(dropouts ?? {})) {
      if (!(value > 0)) throw new DomainError(`relative navigation, dropouts, ${what}`, value, "greater than 0");
    }
    this.#settings = settings;
    this.#tick = tick;
    this.#every = ticksOf("relative navigation, interval", settings.interval, tick);
    if (this.#every < 1) throw new DomainError("relative navigation, interval", settings.interval, "one tick or more");
    this.#line = new DelayLine(ticksOf("relative navigation, latency", settings.latency, tick), WIDTH);
  }

  restart(seed: number, index: number): void {
    this.#noise.restart(seed, index, APPROACH_STREAMS.navigation);
    this.#gaps.restart(seed, index, APPROACH_STREAMS.dropouts);
    for (let i = 0; i < 3; i++) this.#bias[i] = this.#settings.bias[i] * this.#noise.normal();
    this.#line.restart();
    this.#count = 0;
    this.age = 0;
    this.available = true;
    this.#switchAt = this.#interval(this.#settings.dropouts?.meanBetween);
  }

  /**
   * One tick.
   *
   * @param time of the tick [s], counted from the start of the sample
   * @param p  true place [m] and @param v true velocity [m/s] of the probe head from the aim, in H
   */
  step(time: number, p: Float64Array, v: Float64Array): void {
    const { dropouts, placeNoise, velocityNoise, without } = this.#settings;
    const first = this.#count === 0;
    while (dropouts !== null && time >= this.#switchAt) {
      this.available = !this.available;
      this.#switchAt += this.#interval(this.available ? dropouts.meanBetween : dropouts.meanLength);
    }
    const passing = this.#passing;
    passing[6] = 0;
    if (this.#count % this.#every === 0) {
      for (let i = 0; i < 3; i++) passing[i] = p[i] + this.#bias[i] + placeNoise * this.#noise.normal();
      for (let i = 0; i < 3; i++) passing[3 + i] = v[i] + velocityNoise * this.#noise.normal();
      passing[6] = this.available ? 1 : 0;
    }
    this.#count++;
    this.#line.pass(passing);
    if (first || passing[6] === 1) {
      for (let i = 0; i < 3; i++) {
        this.place[i] = passing[i];
        this.velocity[i] = passing[3 + i];
      }
      this.age = 0;
      return;
    }
    this.age += this.#tick;
    if (without === "propagate") for (let i = 0; i < 3; i++) this.place[i] += this.velocity[i] * this.#tick;
  }

  #interval(mean: number | undefined): number {
    return mean === undefined ? Number.POSITIVE_INFINITY : -mean * Math.log(this.#gaps.uniform());
  }
}
