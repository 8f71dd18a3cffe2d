import { DomainError } from "../../math/errors.ts";
import { heatRatio, seaLevelPressure } from "./constants.table.ts";
import { type Atmosphere, standardAtmosphere } from "./standard-atmosphere.ts";

/** Calibrated airspeed [m/s]: what a perfect pitot-static instrument shows. */
export interface CalibratedAirspeed {
  readonly kind: "CAS";
  readonly value: number;
}
/** Equivalent airspeed [m/s]: the sea-level speed of the same dynamic pressure ½ρV². */
export interface EquivalentAirspeed {
  readonly kind: "EAS";
  readonly value: number;
}
/** True airspeed [m/s]. */
export interface TrueAirspeed {
  readonly kind: "TAS";
  readonly value: number;
}
/** Mach number [1]. */
export interface MachNumber {
  readonly kind: "Mach";
  readonly value: number;
}
/** An airspeed that says which: the four kinds are distinct types and never convert without an atmosphere. */
export type Airspeed = CalibratedAirspeed | EquivalentAirspeed | TrueAirspeed | MachNumber;

const seaLevel = standardAtmosphere(0, 0);
const exponent = heatRatio / (heatRatio - 1);
const half = (heatRatio - 1) / 2;

/** q_c/p of a subsonic pitot tube: (1 + (γ−1)/2·M²)^(γ/(γ−1)) − 1, without cancellation at small M. */
function impactPressureRatio(mach: number): number {
  return Math.expm1(exponent * Math.log1p(half * mach * mach));
}

function machFromImpactPressureRatio(ratio: number): number {
  return Math.sqrt(Math.expm1(Math.log1p(ratio) / exponent) / half);
}

function requireSubsonic(airspeed: Airspeed, mach: number): number {
  if (!(mach >= 0 && mach < 1)) {
    const unit = airspeed.kind === "Mach" ? "" : " m/s";
    throw new DomainError(`airspeed [${airspeed.kind}${unit}]`, airspeed.value, "0 or more, below Mach 1");
  }
  return mach;
}

/**
 * Mach number of an airspeed.
 *
 *     CAS: q_c = p₀·[(1 + (γ−1)/2·(V_c/a₀)²)^(γ/(γ−1)) − 1],   q_c/p = (1 + (γ−1)/2·M²)^(γ/(γ−1)) − 1    (8)
 *     EAS: M = V_e·√(ρ₀/ρ)/a;   TAS: M = V/a                                                           (9)
 *
 * Subsonic and compressible: below Mach 1 there is no shock before the pitot tube.
 *
 * @param airspeed    kind and value [m/s, or 1 for a Mach number]; not negative
 * @param atmosphere  air at the aircraft
 * @returns M [1]
 * @throws {DomainError} if the value is negative or not finite, or M is 1 or more
 * @source   common definition of calibrated airspeed, see README eq. 8
 * @verified round trips of all kinds (rtol 1e-12); limits CAS → EAS at small M and CAS = EAS = TAS at sea level
 */
export function machNumber(airspeed: Airspeed, atmosphere: Atmosphere): number {
  const { value } = airspeed;
  if (!(value >= 0)) return requireSubsonic(airspeed, Number.NaN);
  switch (airspeed.kind) {
    case "Mach":
      return requireSubsonic(airspeed, value);
    case "TAS":
      return requireSubsonic(airspeed, value / atmosphere.soundSpeed);
    case "EAS":
      return requireSubsonic(
        airspeed,
        (value * Math.sqrt(seaLevel.density / atmosphere.density)) / atmosphere.soundSpeed,
      );
    case "CAS": {
      // Below sea level p > p₀ and V_c/a₀ > M: the instrument's own law must be subsonic too.
      const own = requireSubsonic(airspeed, value / seaLevel.soundSpeed);
      const ratio = (seaLevelPressure / atmosphere.pressure) * impactPressureRatio(own);
      return requireSubsonic(airspeed, machFromImpactPressureRatio(ratio));
    }
  }
}

/**
 * True airspeed of an airspeed of any kind, V = M·a.
 *
 * @param airspeed    kind and value [m/s, or 1 for a Mach number]; not negative
 * @param atmosphere  air at the aircraft
 * @returns V [m/s]
 * @throws {DomainError} if negative, not finite, or not subsonic
 * @source   README eqs. 8 and 9
 * @verified round trips (rtol 1e-12)
 */
export function trueAirspeed(airspeed: Airspeed, atmosphere: Atmosphere): number {
  const mach = machNumber(airspeed, atmosphere);
  return airspeed.kind === "TAS" ? airspeed.value : mach * atmosphere.soundSpeed;
}

/**
 * Equivalent airspeed of an airspeed of any kind, V_e = V·√(ρ/ρ₀).
 *
 * @param airspeed    kind and value [m/s, or 1 for a Mach number]; not negative
 * @param atmosphere  air at the aircraft
 * @returns V_e [m/s]
 * @throws {DomainError} if negative, not finite, or not subsonic
 * @source   README eq. 9
 * @verified round trips (rtol 1e-12)
 */
export function equivalentAirspeed(airspeed: Airspeed, atmosphere: Atmosphere): number {
  const mach = machNumber(airspeed, atmosphere);
  if (airspeed.kind === "EAS") return airspeed.value;
  return mach * atmosphere.soundSpeed * Math.sqrt(atmosphere.density / seaLevel.density);
}

/**
 * Calibrated airspeed of an airspeed of any kind: eq. (8) solved for V_c.
 *
 * @param airspeed    kind and value [m/s, or 1 for a Mach number]; not negative
 * @param atmosphere  air at the aircraft
 * @returns V_c [m/s]
 * @throws {DomainError} if negative, not finite, or not subsonic
 * @source   README eq. 8
 * @verified round trips (rtol 1e-12)
 */
export function calibratedAirspeed(airspeed: Airspeed, atmosphere: Atmosphere): number {
  const mach = machNumber(airspeed, atmosphere);
  if (airspeed.kind === "CAS") return airspeed.value;
  const impact = (atmosphere.pressure / seaLevelPressure) * impactPressureRatio(mach);
  const own = machFromImpactPressureRatio(impact);
  if (own >= 1) requireSubsonic(airspeed, own);
  return own * seaLevel.soundSpeed;
}

/**
 * Dynamic pressure ½ρV² of an airspeed of any kind.
 *
 * @param airspeed    kind and value [m/s, or 1 for a Mach number]; not negative
 * @param atmosphere  air at the aircraft
 * @returns q [Pa]
 * @throws {DomainError} if negative, not finite, or not subsonic
 * @source   README eq. 10
 * @verified equals ½ρ₀V_e² (rtol 1e-13)
 */
export function dynamicPressure(airspeed: Airspeed, atmosphere: Atmosphere): number {
  const speed = trueAirspeed(airspeed, atmosphere);
  return 0.5 * atmosphere.density * speed * speed;
}
