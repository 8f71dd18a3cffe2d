import { DomainError } from "../../math/errors.ts";
import { RandomStream } from "../../math/random/index.ts";
import { APPROACH_STREAMS, type PilotAxis, type PilotHands } from "./settings.ts";
import { DelayLine, ticksOf } from "./ticks.ts";

/** Time over which a pilot's noise follows the mean square of what is tracked [s]: own choice. */
const MEMORY = 3;

/**
 * One axis of a pilot of crossover type in steps of time: equaliser and muscles, after the delay.
 *
 *     Y = K·(T_L·s + 1)/((T_I·s + 1)·(T_N·s + 1)):   ẋ₁ = (e − x₁)/T_I,   ẋ₂ = (x₁ + T_L·ẋ₁ − x₂)/T_N,   u = K·x₂      T_I > T_L
 *                                                    ẋ₂ = (e − x₂)/T_N,   u = K·(x₂ + T_L·ẋ₂)                          T_I = 0
 *                                                                                                                 (README eq. 12)
 *
 * Each lag is advanced exactly for an input held over the tick. No memory is needed beyond two numbers.
 *
 * @source the form of McRuer and Jex (1967) as in physics/pilot; steps own, README eq. 12
 * @verified hands.test.ts (frequency response against `pilotFunction`, slope at the crossover)
 */
export class PilotAxisSteps {
  readonly #axis: PilotAxis;
  readonly #lagShare: number;
  readonly #muscleShare: number;
  #lagged = 0;
  #muscle = 0;

  constructor(axis: PilotAxis, tick: number) {
    const { gain, lead, lag, neuromuscularLag } = axis;
    for (const [what, value] of Object.entries({ gain, lead, lag })) {
      if (!(value >= 0 && value < Number.POSITIVE_INFINITY))
        throw new DomainError(`pilot, ${what}`, value, "0 or more");
    }
    if (!(neuromuscularLag > 0)) throw new DomainError("pilot, neuromuscular lag", neuromuscularLag, "greater than 0");
    this.#axis = axis;
    this.#lagShare = lag > 0 ? -Math.expm1(-tick / lag) : 1;
    this.#muscleShare = -Math.expm1(-tick / neuromuscularLag);
  }

  restart(): void {
    this.#lagged = 0;
    this.#muscle = 0;
  }

  /** Takes the error of this tick [rad] and returns the deflection from trim [rad]. */
  step(error: number): number {
    const { gain, lead, lag, neuromuscularLag } = this.#axis;
    // what the equaliser passes on: the error, or its lag with the lead on it
    const slope = lag > 0 ? (error - this.#lagged) / lag : 0;
    this.#lagged += this.#lagShare * (error - this.#lagged);
    const led = lag > 0 ? this.#lagged + lead * slope : error;
    const rate = (led - this.#muscle) / neuromuscularLag;
    this.#muscle += this.#muscleShare * (led - this.#muscle);
    return gain * (lag > 0 ? this.#muscle : this.#muscle + lead * rate * (1 - this.#muscleShare));
  }
}

/**
 * A pilot's hands in pitch and bank: reaction delay, noise on what is tracked (remnant), crossover dynamics.
 *
 *     ê = e(t − τ) + √(2π·Φ·s²/Δt)·n,   ds²/dt = (e² − s²)/T                                                      (README eq. 11)
 *
 * Φ is the two-sided density of the noise over the mean square s² of what is tracked, as a density over ω: white noise of
 * variance 2πΦs²/Δt in ticks of Δt has the density Φ·s².
 *
 * @throws {DomainError} for a negative delay, gain or remnant
 * @source noise that follows the mean square: common in models of manual control (from memory: Φ about 0.01 in one-sided form); README eq. 11
 * @verified hands.test.ts (delay exact, variance of the noise, repeatability)
 * @cost no allocation in `step`
 */
export class PilotSteps {
  /** Deflections from trim [rad], in the sense that raises the angle tracked: nose up, bank right. */
  noseUp = 0;
  bankRight = 0;
  readonly #pitch: PilotAxisSteps;
  readonly #bank: PilotAxisSteps;
  readonly #line: DelayLine;
  readonly #seen = new Float64Array(2);
  readonly #meanSquare = new Float64Array(2);
  readonly #noise = new RandomStream(0, 0, APPROACH_STREAMS.remnant);
  readonly #density: number;
  readonly #share: number;

  constructor(hands: PilotHands, tick: number) {
    if (!(hands.remnant >= 0)) throw new DomainError("pilot, remnant", hands.remnant, "0 or more");
    this.#pitch = new PilotAxisSteps(hands.pitch, tick);
    this.#bank = new PilotAxisSteps(hands.bank, tick);
    this.#line = new DelayLine(ticksOf("pilot, delay", hands.delay, tick), 2);
    this.#density = (2 * Math.PI * hands.remnant) / tick;
    this.#share = -Math.expm1(-tick / MEMORY);
  }

  restart(seed: number, index: number): void {
    this.#pitch.restart();
    this.#bank.restart();
    this.#line.restart();
    this.#meanSquare.fill(0);
    this.#noise.restart(seed, index, APPROACH_STREAMS.remnant);
  }

  /** Errors demand − angle in pitch and bank [rad]. */
  step(pitchError: number, bankError: number): void {
    const seen = this.#seen;
    seen[0] = pitchError;
    seen[1] = bankError;
    this.#line.pass(seen);
    const square = this.#meanSquare;
    for (let i = 0; i < 2; i++) {
      square[i] += this.#share * (seen[i] * seen[i] - square[i]);
      seen[i] += Math.sqrt(this.#density * square[i]) * this.#noise.normal();
    }
    this.noseUp = this.#pitch.step(seen[0]);
    this.bankRight = this.#bank.step(seen[1]);
  }
}
