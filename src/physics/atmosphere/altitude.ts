import { DomainError } from "../../math/errors.ts";
import { earthRadius, highestGeometric, lowestGeopotential } from "./constants.table.ts";

/**
 * Geopotential altitude that has the potential energy of a geometric altitude.
 *
 *     H = r₀·Z / (r₀ + Z)                                                   (1)
 *
 * @param geometricAltitude  Z, above mean sea level, up positive [m]
 * @returns H, up positive [m]
 * @throws {DomainError} if Z is not finite or not above the centre of the earth
 * @source   published/ussa-1976, eq. 18
 * @verified published/handbook-ussa-table-6 (column H, one unit of the last digit)
 */
export function geopotentialFromGeometric(geometricAltitude: number): number {
  if (!(geometricAltitude > -earthRadius) || geometricAltitude === Number.POSITIVE_INFINITY) {
    throw new DomainError("geometric altitude [m]", geometricAltitude, `finite, above ${-earthRadius}`);
  }
  return (earthRadius * geometricAltitude) / (earthRadius + geometricAltitude);
}

/**
 * Geometric altitude that has the potential energy of a geopotential altitude: the inverse of eq. (1).
 *
 *     Z = r₀·H / (r₀ − H)                                                   (2)
 *
 * @param geopotentialAltitude  H, up positive [m]
 * @returns Z, above mean sea level, up positive [m]
 * @throws {DomainError} if H is not finite or not below r₀
 * @source   published/ussa-1976, eq. 19
 * @verified round trip with eq. (1) (rtol 1e-13)
 */
export function geometricFromGeopotential(geopotentialAltitude: number): number {
  if (!(geopotentialAltitude < earthRadius) || geopotentialAltitude === Number.NEGATIVE_INFINITY) {
    throw new DomainError("geopotential altitude [m]", geopotentialAltitude, `finite, below ${earthRadius}`);
  }
  return (earthRadius * geopotentialAltitude) / (earthRadius - geopotentialAltitude);
}

/** Highest geopotential altitude of the linear layers [m], 84 852 m. */
export const highestGeopotential = geopotentialFromGeometric(highestGeometric);

/** Throws a DomainError unless the altitude lies in the standard's linear layers. */
export function requireInside(name: string, geopotentialAltitude: number): void {
  if (!(geopotentialAltitude >= lowestGeopotential && geopotentialAltitude <= highestGeopotential)) {
    const allowed = `${lowestGeopotential} to ${Math.round(highestGeopotential)} (geopotential)`;
    throw new DomainError(`${name} [m]`, geopotentialAltitude, allowed);
  }
}
