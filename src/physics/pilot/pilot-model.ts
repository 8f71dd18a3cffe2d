import { DomainError } from "../../math/errors.ts";
import type { ComplexOf } from "../../math/linear-system/index.ts";
import type { PilotDynamics } from "./functions.ts";

export interface PilotSettings {
  /** ω_c at which the pilot closes the loop [rad/s], > 0. */
  readonly crossover: number;
  /** T_N [s], > 0. */
  readonly neuromuscularLag: number;
  /** Largest lead and lag that a pilot adopts [s], ≥ 0. */
  readonly largestLead: number;
  readonly largestLag: number;
}

export interface TunedPilot extends PilotDynamics {
  /** d ln|Y_c·Y_N|/d ln ω at ω_c without the equaliser [1]. */
  readonly slope: number;
  /** The same with it: −1 is the crossover model [1]. */
  readonly slopeReached: number;
}

/** Half of the span of ln ω over which the slope is taken. */
const SPAN = 0.02;

/**
 * Lead or lag and gain with which a pilot makes the loop look like ω_c·e^(−τs)/s about ω_c.
 *
 *     n = d ln|Y_c·Y_N|/d ln ω at ω_c;   n < −1: lead, x/(1 + x) = −1 − n;   n > −1: lag, x/(1 + x) = 1 + n;   x = (ω_c·T)²
 *     K = 1/|Y_eq·Y_N·Y_c| at ω_c                                              (README eq. 7)
 *
 * n ≤ −2 asks for more lead than there is, n ≥ 0 for more lag: the largest one is taken, and `slopeReached` says how far it went.
 *
 * @param controlled  Y_c(jω) from the pilot's deflection, opposing sign taken out, to the angle tracked: aircraft and actuator
 * @param settings    see `PilotSettings`
 * @throws {DomainError} for settings out of range or a controlled element without response at ω_c
 * @source McRuer and Jex, A Review of Quasi-Linear Pilot Models (1967): the crossover model; the rule for T_L and T_I is own, README eq. 7
 * @verified pilot-model.test.ts: Y_c = K, K/s, K/(s(Ts + 1)) (lead T), K/(Ts + 1) in closed form; slope −1 and |L| = 1 at ω_c
 */
export function tunePilot(controlled: ComplexOf, settings: PilotSettings): TunedPilot {
  const { crossover, neuromuscularLag, largestLead, largestLag } = settings;
  for (const [what, value] of Object.entries({ crossover, neuromuscularLag })) {
    if (!(value > 0 && value < Number.POSITIVE_INFINITY)) throw new DomainError(`pilot, ${what}`, value, "above 0");
  }
  for (const [what, value] of Object.entries({ largestLead, largestLag })) {
    if (!(value >= 0 && value < Number.POSITIVE_INFINITY)) throw new DomainError(`pilot, ${what}`, value, "0 or more");
  }
  const out = new Float64Array(2);
  const logSize = (omega: number): number => {
    controlled(omega, out);
    const size = Math.hypot(out[0], out[1]);
    if (!(size > 0 && size < Number.POSITIVE_INFINITY)) {
      throw new DomainError("size of the controlled element at the crossover", size, "above 0, finite");
    }
    return Math.log(size) - 0.5 * Math.log1p((omega * neuromuscularLag) ** 2);
  };
  const slope = (logSize(crossover * Math.exp(SPAN)) - logSize(crossover * Math.exp(-SPAN))) / (2 * SPAN);
  const constant = (share: number, largest: number): number => {
    const wanted = share >= 1 ? Number.POSITIVE_INFINITY : Math.sqrt(share / (1 - share)) / crossover;
    return Math.min(largest, wanted);
  };
  const lead = slope < -1 ? constant(-1 - slope, largestLead) : 0;
  const lag = slope > -1 ? constant(1 + slope, largestLag) : 0;
  const share = (T: number): number => (crossover * T) ** 2 / (1 + (crossover * T) ** 2);
  const equaliser = 0.5 * (Math.log1p((crossover * lead) ** 2) - Math.log1p((crossover * lag) ** 2));
  return {
    gain: Math.exp(-logSize(crossover) - equaliser),
    ...{ lead, lag, neuromuscularLag, slope },
    slopeReached: slope + share(lead) - share(lag),
  };
}
