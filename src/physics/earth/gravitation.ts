import { DomainError } from "../../math/errors.ts";
import { equatorialRadius, gravitationalParameter, zonalHarmonic } from "./constants.table.ts";

/** Law of gravitation: 1/R², or with the oblateness of the earth, J₂. */
export type GravitationLaw = "inverse square" | "J2";

/**
 * Gravitational acceleration, without the centrifugal part that belongs to rotating axes.
 *
 *     g = −(μ/R³)·[x·(1 + j·(1 − 5s)), y·(1 + j·(1 − 5s)), z·(1 + j·(3 − 5s))],
 *     j = (3/2)·J₂·(a/R)², s = (z/R)²;   j = 0 for "inverse square"                                    (5)
 *
 * @param law       which
 * @param position  from the centre of the earth, z through the north pole [m]; shape (3)
 * @param out       acceleration in the same axes [m/s²]; shape (3)
 * @throws {DomainError} at the centre of the earth or if the position is not finite
 * @source   published/nasa-tm-2015-218675, eqs. 29–31
 * @verified published/nasa-tm-2015-218675 (rtol 1e-11 at 30 000 ft over the equator); gradient of the potential
 * @cost     no allocation
 */
export function gravitation(law: GravitationLaw, position: Float64Array, out: Float64Array): void {
  const x = position[0];
  const y = position[1];
  const z = position[2];
  const square = x * x + y * y + z * z;
  if (!(square > 0 && square < Number.POSITIVE_INFINITY)) {
    throw new DomainError("distance from the centre of the earth [m]", Math.sqrt(square), "finite, above 0");
  }
  const oblate = law === "J2" ? (1.5 * zonalHarmonic * equatorialRadius * equatorialRadius) / square : 0;
  const s = (z * z) / square;
  const factor = -gravitationalParameter / (square * Math.sqrt(square));
  const equatorial = factor * (1 + oblate * (1 - 5 * s));
  out[0] = equatorial * x;
  out[1] = equatorial * y;
  out[2] = factor * (1 + oblate * (3 - 5 * s)) * z;
}
