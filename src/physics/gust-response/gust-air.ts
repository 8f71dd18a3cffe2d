import type { Environment, Surroundings } from "../bodies/index.ts";

/** Writes the gust at a time: u, v, w forward, right, down [m/s] and p, q, r [rad/s] of the air, in H; shape (6). */
export type GustSource = (time: number, out: Float64Array) => void;

/**
 * Air with a gust on top of another environment, the same over the whole aircraft but for its rotation.
 *
 *     v_air += (u, v, w),  ω_air += (p, q, r),  a_air = (0, V·r, −V·q)                (README eq. 1)
 *
 * The last is what a frozen field does to the air at the aircraft, as far as q and r hold it: the α̇ derivatives of the
 * airloads follow a gust no faster than its averaged gradient.
 *
 * @param base    air without the gust
 * @param speed   true airspeed V at which the field is flown through [m/s]
 * @param source  the gust
 * @source own derivation, README eq. 1
 * @verified gust-air.test.ts: equal to the same motion of the aircraft through still air; no gust, same bits
 */
export function gustAir(base: Environment, speed: number, source: GustSource): Environment {
  const gust = new Float64Array(6);
  return {
    evaluate(state: Float64Array, out: Surroundings, time: number): void {
      // air that never changes need not write its rate of change
      out.airAcceleration.fill(0);
      base.evaluate(state, out, time);
      source(time, gust);
      for (let i = 0; i < 3; i++) {
        out.airVelocity[i] += gust[i];
        out.airRotation[i] += gust[3 + i];
      }
      out.airAcceleration[1] += speed * gust[5];
      out.airAcceleration[2] -= speed * gust[4];
    },
  };
}
