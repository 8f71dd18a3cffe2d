import { DomainError } from "../../math/errors.ts";

/** A viscosity that somebody measured or guarantees. */
export interface ViscosityPoint {
  /** T [K]. */
  readonly temperature: number;
  /** ν [m²/s]. */
  readonly viscosity: number;
}

/** What an oil is, all of it given by the user with its source. */
export interface Fluid {
  /** Two viscosities, the colder one first. */
  readonly viscosity: readonly [ViscosityPoint, ViscosityPoint];
  /** ρ0 [kg/m³] at `densityTemperature` [K]. */
  readonly density: number;
  readonly densityTemperature: number;
  /** Volume expansion [1/K]. */
  readonly expansion: number;
  /** Isothermal bulk modulus of the liquid without gas [Pa]. */
  readonly bulkModulus: number;
  /** Volume of undissolved gas over volume of liquid at atmospheric pressure [1]. */
  readonly gasContent: number;
}

/** Standard atmosphere [Pa]: where the gas content is stated. */
export const ATMOSPHERE = 101325;

/** Added to ν in mm²/s; the plain form of the Walther equation. */
const SHIFT = 0.7;
/** Below this the plain form is not valid [mm²/s]. */
const LEAST = 2;

const doubleLog = (viscosity: number): number => Math.log10(Math.log10(viscosity * 1e6 + SHIFT));

/**
 * Kinematic viscosity of an oil at a temperature, from two viscosities.
 *
 *     log₁₀ log₁₀(ν + 0.7) = A − B·log₁₀ T,   ν in mm²/s, T in K          (README eq. 1)
 *
 * @param points two viscosities [m²/s] at two temperatures [K], colder first, the colder one more viscous, each above 2 mm²/s
 * @param temperature T [K]
 * @returns ν [m²/s]
 * @throws {DomainError} for points in the wrong order, or where the result is below 2 mm²/s or not finite
 * @source Walther's equation in the form of ASTM D341 (from memory; the constant 0.7 holds above 2 mm²/s)
 * @verified hydraulics.test.ts (both points come back, straight on its axes)
 */
export function kinematicViscosity(points: Fluid["viscosity"], temperature: number): number {
  const [cold, hot] = points;
  if (!(cold.temperature > 0 && hot.temperature > cold.temperature)) {
    throw new DomainError("temperature of the second viscosity", hot.temperature, `above ${cold.temperature} K`);
  }
  if (!(cold.viscosity > hot.viscosity)) {
    throw new DomainError("viscosity at the higher temperature", hot.viscosity, "below that at the lower one");
  }
  if (!(hot.viscosity * 1e6 >= LEAST)) throw new DomainError("viscosity", hot.viscosity, "at least 2 mm²/s");
  if (!(temperature > 0)) throw new DomainError("temperature of the oil", temperature, "above 0 K");
  const y = doubleLog(cold.viscosity);
  const slope = (doubleLog(hot.viscosity) - y) / Math.log10(hot.temperature / cold.temperature);
  const nu = 10 ** (10 ** (y + slope * Math.log10(temperature / cold.temperature))) - SHIFT;
  if (!(nu >= LEAST && Number.isFinite(nu))) {
    throw new DomainError("viscosity at the asked temperature", nu, "at least 2 mm²/s, where the equation holds");
  }
  return nu * 1e-6;
}

/**
 * Density of an oil at a temperature: ρ = ρ0/(1 + γ·(T − T0)) [kg/m³].       (README eq. 2)
 *
 * @param temperature T [K]
 * @throws {DomainError} where the expansion leaves no density
 * @source definition of volume expansion
 * @verified hydraulics.test.ts (mass is kept)
 */
export function densityAt(fluid: Fluid, temperature: number): number {
  const volume = 1 + fluid.expansion * (temperature - fluid.densityTemperature);
  if (!(volume > 0)) throw new DomainError("volume of the oil", volume, "greater than 0");
  return fluid.density / volume;
}

/** Dynamic viscosity μ = ρν [Pa·s] at a temperature [K]. */
export function dynamicViscosity(fluid: Fluid, temperature: number): number {
  return densityAt(fluid, temperature) * kinematicViscosity(fluid.viscosity, temperature);
}

/**
 * Bulk modulus of oil with undissolved gas.
 *
 *     1/K = [1/K_l + (α/n)·p_a^(1/n)/p^(1/n + 1)] / [1 + α·(p_a/p)^(1/n)]    (README eq. 3)
 *
 * Written with the absolute pressure p; the same as the usual form in gauge pressure.
 *
 * @param fluid    liquid modulus K_l [Pa] and gas content α [1]
 * @param pressure p, absolute [Pa], above 0
 * @param exponent n of the gas: 1 slow (isothermal), 1.4 fast
 * @returns K [Pa], at most K_l
 * @throws {DomainError} for a pressure that is not positive or an exponent below 1
 * @source volume of liquid and gas together, own derivation; the isothermal form of hydraulic-fluid documentation
 * @verified hydraulics.test.ts (volume by differences; no gas; high pressure)
 */
export function bulkModulusAt(fluid: Fluid, pressure: number, exponent = 1): number {
  if (!(pressure > 0)) throw new DomainError("absolute pressure of the oil", pressure, "above 0 Pa");
  if (!(exponent >= 1)) throw new DomainError("exponent of the gas", exponent, "at least 1");
  const gas = fluid.gasContent * (ATMOSPHERE / pressure) ** (1 / exponent);
  return (1 + gas) / (1 / fluid.bulkModulus + gas / (exponent * pressure));
}
