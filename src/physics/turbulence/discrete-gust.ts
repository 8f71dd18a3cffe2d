import { DomainError } from "../../math/errors.ts";
import { linear } from "../../math/interpolate/index.ts";
import { requirePositive } from "../../math/require.ts";
import { STANDARD_GRAVITY } from "../bodies/index.ts";

const FOOT = 0.3048;

/** Range of gust gradients that is searched [m]: 30 to 350 ft. */
export const GRADIENTS = { from: 30 * FOOT, to: 350 * FOOT } as const;

/**
 * Velocity of a 1−cosine gust at a distance into it.
 *
 *     U = (Uds/2)·(1 − cos(πs/H)),  0 ≤ s ≤ 2H, else 0                                     (13)
 *
 * @param peak      Uds [m/s]
 * @param gradient  H [m], > 0: distance to the peak
 * @param distance  s [m]
 * @returns U [m/s]
 * @source 14 CFR 25.341(a)(2)
 * @verified discrete-gust.test.ts
 */
export function oneMinusCosine(peak: number, gradient: number, distance: number): number {
  if (!(distance > 0 && distance < 2 * gradient)) return 0;
  return 0.5 * peak * (1 - Math.cos((Math.PI * distance) / gradient));
}

/** dU/ds of `oneMinusCosine` [1/s]. */
export function oneMinusCosineSlope(peak: number, gradient: number, distance: number): number {
  if (!(distance > 0 && distance < 2 * gradient)) return 0;
  return 0.5 * peak * (Math.PI / gradient) * Math.sin((Math.PI * distance) / gradient);
}

/**
 * Peak of the design gust of a gradient.
 *
 *     Uds = Uref·Fg·(H/350 ft)^(1/6)                                                       (14)
 *
 * @param reference    Uref [m/s EAS]
 * @param alleviation  flight profile alleviation factor Fg [1], > 0
 * @param gradient     H [m], 30 to 350 ft
 * @returns Uds [m/s EAS]
 * @throws {DomainError} if the gradient is outside the searched range or a factor is not above zero
 * @source 14 CFR 25.341(a)(4)
 * @verified discrete-gust.test.ts
 */
export function designGust(reference: number, alleviation: number, gradient: number): number {
  requirePositive("reference gust velocity", reference);
  requirePositive("flight profile alleviation factor", alleviation);
  const round = 1e-9;
  if (!(gradient >= GRADIENTS.from * (1 - round) && gradient <= GRADIENTS.to * (1 + round))) {
    throw new DomainError("gust gradient", gradient, `${GRADIENTS.from} to ${GRADIENTS.to} m`);
  }
  return reference * alleviation * (gradient / GRADIENTS.to) ** (1 / 6);
}

/**
 * Reference gust velocity at the design cruising speed.
 *
 *     56 ft/s EAS at sea level, 44 at 15 000 ft, 20.86 at 60 000 ft, straight lines between   (15)
 *
 * @param altitude [m], 0 to 60 000 ft
 * @returns Uref [m/s EAS]
 * @throws {DomainError} outside 0 to 60 000 ft
 * @source 14 CFR 25.341(a)(5)(i); velocities from memory, so they are shown for comparison and gate nothing
 * @verified discrete-gust.test.ts (shape)
 */
export function referenceGust(altitude: number): number {
  return linear([0, 15000 * FOOT, 60000 * FOOT], [56 * FOOT, 44 * FOOT, 20.86 * FOOT], altitude);
}

/**
 * Gust alleviation factor of a rigid aeroplane that only heaves.
 *
 *     Kg = 0.88·μg/(5.3 + μg),  μg = 2(W/S)/(ρ·c̄·a·g)                                     (16)
 *
 * @param massRatio  μg [1], > 0
 * @throws {DomainError} if μg is not above zero
 * @source 14 CFR 23.341(c)
 * @verified discrete-gust.test.ts; gust-response/response.test.ts (heave alone with the lags of the lift, within 10 %)
 */
export function gustAlleviation(massRatio: number): number {
  requirePositive("mass ratio", massRatio);
  return (0.88 * massRatio) / (5.3 + massRatio);
}

/**
 * Mass ratio μg = 2(m/S)/(ρ·c̄·a).
 *
 * @param loading  m/S [kg/m²], > 0
 * @param density  ρ [kg/m³], > 0
 * @param chord    c̄ [m], > 0
 * @param slope    a [1/rad], > 0
 */
export function massRatio(loading: number, density: number, chord: number, slope: number): number {
  return (2 * loading) / (density * chord * slope);
}

/**
 * Load factor increment by the gust formula.
 *
 *     Δn = Kg·ρ₀·Ude·Ve·a/(2·m/S·g)                                                        (17)
 *
 * With V in knots and W/S in lb/ft² this is Kg·Ude·V·a/(498·W/S).
 *
 * @param gust      Ude [m/s EAS]
 * @param airspeed  Ve [m/s EAS]
 * @source 14 CFR 23.341(c)
 * @verified discrete-gust.test.ts: the constant 498
 */
export function gustLoadFactor(
  alleviation: number,
  gust: number,
  airspeed: number,
  slope: number,
  loading: number,
): number {
  return (alleviation * 1.225 * gust * airspeed * slope) / (2 * loading * STANDARD_GRAVITY);
}
