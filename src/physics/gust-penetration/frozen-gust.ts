import type { Environment } from "../bodies/index.ts";

/** Vertical gust at one aircraft: velocity of the air downwards [m/s] and its rate as the aircraft flies through [m/s²]. */
export interface GustInput {
  down: number;
  rate: number;
}

/**
 * An environment with a vertical gust that is frozen in the air: what an aircraft meets, it meets by flying.
 *
 *     w(x, t) = f(t + x/V): ∂w/∂x = ẇ/V, so the air turns by −ẇ/V about y; a_air = ẇ                (README eq. 1)
 *
 * @param gust  read at every evaluation
 * @param speed V [m/s]
 * @source own derivation, README eq. 1
 * @verified penetration.test.ts
 */
export function frozenGust(base: Environment, gust: Readonly<GustInput>, speed: number): Environment {
  return {
    evaluate(state, out, time) {
      base.evaluate(state, out, time);
      out.airVelocity[2] += gust.down;
      out.airRotation[1] -= gust.rate / speed;
      out.airAcceleration[2] += gust.rate;
    },
  };
}
