import { DomainError } from "../../math/errors.ts";
import { RandomStream } from "../../math/random/index.ts";
import { APPROACH_STREAMS, type PilotAxis, type PilotHands } from "./settings.ts";
import { DelayLine, ticksOf } from "./ticks.ts";

/** Time over which a pilot's noise follows the mean square of what is tracked [s]: own choice. */
const MEMORY = 3;

/**
 * One axis of a pilot of crossover type in ticks: equaliser and muscles, after the delay.
 *
 *     Y = K·(T_L·s + 1)/(T_N·s + 1)·1/(T_I·s + 1),   s → 2/Δt·(1 − z⁻¹)/(1 + z⁻¹)                                  (README eq. 12)
 *
 * Trapezoidal steps: no delay of their own, order two in the tick.
 *
 * @param axis  gain, lead, lag 0 or more, neuromuscular lag above 0
 * @param tick  Δt [s]
 * @throws {DomainError} for an axis out of range
 * @source the form of McRuer and Jex (1967) as in physics/pilot; steps by the trapezoidal rule
 * @verified hands.test.ts (frequency response against `pilotFunction`, order two; slope at the crossover)
 */
export class PilotAxisSteps {
  readonly #gain: number;
  /** 2T/Δt of lead, neuromuscular lag and lag. */
  readonly #lead: number;
  readonly #muscles: number;
  readonly #lag: number;
  #error = 0;
  #moved = 0;
  #lagged = 0;

  constructor(axis: PilotAxis, tick: number) {
    const { gain, lead, lag, neuromuscularLag } = axis;
    for (const [what, value] of Object.entries({ gain, lead, lag })) {
      if (!(value >= 0 && value < Number.POSITIVE_INFINITY))
        throw new DomainError(`pilot, ${what}`, value, "0 or more");
    }
    if (!(neuromuscularLag > 0)) throw new DomainError("pilot, neuromuscular lag", neuromuscularLag, "greater than 0");
    this.#gain = gain;
    this.#lead = (2 * lead) / tick;
    this.#muscles = (2 * neuromuscularLag) / tick;
    this.#lag = (2 * lag) / tick;
  }

  restart(): void {
    this.#error = 0;
    this.#moved = 0;
    this.#lagged = 0;
  }

  /** Takes the error of this tick [rad] and returns the deflection from trim [rad]. */
  step(error: number): number {
    const lead = this.#lead;
    const muscles = this.#muscles;
    const lag = this.#lag;
    const before = this.#moved;
    this.#moved = ((1 + lead) * error + (1 - lead) * this.#error - (1 - muscles) * before) / (1 + muscles);
    this.#error = error;
    if (lag === 0) return this.#gain * this.#moved;
    this.#lagged = (this.#moved + before - (1 - lag) * this.#lagged) / (1 + lag);
    return this.#gain * this.#lagged;
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
 * @cost no array and no object is made in `step`; numbers may be boxed (README)
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
