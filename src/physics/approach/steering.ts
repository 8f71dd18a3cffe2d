import { DomainError } from "../../math/errors.ts";
import type { ScheduleSettings, SteeringSettings } from "./settings.ts";
import { DelayLine, ticksOf } from "./ticks.ts";

/**
 * Steering of the boom by its operator or an automatic law.
 *
 *     rate = clip(k·beyond(z, threshold), ±limit),  z probe below the mouth, delayed; zero out of range               (README eq. 14)
 *
 * @throws {DomainError} for negative gain, delay or threshold, or a rate limit that is not positive
 * @source own derivation, README eq. 14
 * @verified steering.test.ts (sign, threshold, limit, delay)
 * @cost no array and no object is made in `step`; numbers may be boxed (README)
 */
export class BoomSteering {
  readonly #settings: SteeringSettings;
  readonly #line: DelayLine;
  readonly #seen = new Float64Array(1);

  constructor(settings: SteeringSettings, tick: number) {
    this.#settings = settings;
    let delay = 0;
    if (settings.kind !== "none") {
      const { gain, threshold, rateLimit, within } = settings;
      for (const [what, value] of Object.entries({ gain, threshold })) {
        if (!(value >= 0)) throw new DomainError(`steering of the boom, ${what}`, value, "0 or more");
      }
      for (const [what, value] of Object.entries({ rateLimit, within })) {
        if (!(value > 0)) throw new DomainError(`steering of the boom, ${what}`, value, "greater than 0");
      }
      delay = ticksOf("steering of the boom, delay", settings.delay, tick);
    }
    this.#line = new DelayLine(delay, 1);
  }

  restart(): void {
    this.#line.restart();
  }

  /**
   * @param p_MoPh_H  probe head from the mouth [m], as the operator sees it, shape (3)
   * @param isClosing whether the boom may be steered now
   * @returns rate of the tip along its swing, down positive [m/s]
   */
  step(p_MoPh_H: Float64Array, isClosing: boolean): number {
    const s = this.#settings;
    if (s.kind === "none") return 0;
    this.#seen[0] = p_MoPh_H[2];
    this.#line.pass(this.#seen);
    const away = Math.hypot(p_MoPh_H[0], p_MoPh_H[1], p_MoPh_H[2]);
    if (!isClosing || away > s.within) return 0;
    const z = this.#seen[0];
    const over = z > s.threshold ? z - s.threshold : z < -s.threshold ? z + s.threshold : 0;
    return Math.max(-s.rateLimit, Math.min(s.rateLimit, s.gain * over));
  }
}

/** Who takes out the error between probe and mouth while closing; "both" are two controllers on one error. */
export type Chasing = "nobody" | "the aircraft" | "the boom" | "both";

/**
 * Who chases the mouth: an aircraft that aims at the place at rest does not.
 *
 * @source definition
 * @verified steering.test.ts (truth table)
 */
export function chasing(schedule: Pick<ScheduleSettings, "aim">, steering: SteeringSettings): Chasing {
  const byAircraft = schedule.aim === "mouth";
  if (steering.kind === "none") return byAircraft ? "the aircraft" : "nobody";
  return byAircraft ? "both" : "the boom";
}
