import { requirePositive } from "./require.ts";

/** A gas accumulator; pressures are absolute. */
export interface Accumulator {
  /** Gas pressure with no oil in it [Pa] at `prechargeTemperature` [K]. */
  readonly precharge: number;
  readonly prechargeTemperature: number;
  /** Gas volume with no oil in it [m³]. */
  readonly volume: number;
  /** Share of the gas that has leaked away, 0 to below 1. */
  readonly gasLoss: number;
  /** Compliance of the oil and the hose between valve and gas [m³/Pa]. */
  readonly lineCompliance: number;
}

/** State of an accumulator at rest under a pressure. */
export interface AccumulatorState {
  /** "bottomed": the oil pressure is below the gas pressure without oil, the gas does not yield. */
  readonly outcome: "gas" | "bottomed";
  /** Absolute gas pressure with no oil, at the temperature and with the loss [Pa]. */
  readonly precharge: number;
  /** Gas volume now [m³]. */
  readonly gasVolume: number;
  /** Stiffness felt at a piston [N/m]. */
  readonly stiffness: number;
}

/**
 * Stiffness of an accumulator felt at a piston, at the pressure that the load asks for.
 *
 *     p_pre = p_0·(1 − λ)·T/T_0,   V_g = V·p_pre/p                                          (README eq. 8)
 *     1/k = V_g/(n·p·A²) + C_line/A²;  below precharge the gas does not yield: k = A²/C_line   (README eq. 9)
 *
 * The gas has settled at the oil's temperature, so that V_g is the same whatever n.
 *
 * @param pressure    p, absolute [Pa]
 * @param temperature T [K]
 * @param pistonArea  A [m²]
 * @param exponent    n: 1 slow (isothermal), about 1.4 fast
 * @returns stiffness [N/m]; Infinity when bottomed on a line without compliance
 * @throws {DomainError} for values that are not positive
 * @source own derivation from p·Vⁿ, README eq. 8–9
 * @verified analytic/gas-spring (pressure by differences of p·Vⁿ, rtol 1e-8); hydraulics.test.ts (bottomed, loss, temperature)
 */
export function accumulatorState(
  accumulator: Accumulator,
  pressure: number,
  temperature: number,
  pistonArea: number,
  exponent: number,
): AccumulatorState {
  const { volume, gasLoss, lineCompliance, prechargeTemperature } = accumulator;
  requirePositive({
    "accumulator precharge": accumulator.precharge,
    "precharge temperature": prechargeTemperature,
    "accumulator volume": volume,
    "gas left in the accumulator": 1 - gasLoss,
    "accumulator pressure": pressure,
    "accumulator temperature": temperature,
    "piston area": pistonArea,
    "exponent of the gas": exponent,
  });
  const precharge = (accumulator.precharge * (1 - gasLoss) * temperature) / prechargeTemperature;
  const isGas = pressure > precharge;
  const gasVolume = isGas ? (volume * precharge) / pressure : volume;
  const compliance = lineCompliance + (isGas ? gasVolume / (exponent * pressure) : 0);
  return { outcome: isGas ? "gas" : "bottomed", precharge, gasVolume, stiffness: pistonArea ** 2 / compliance };
}

/**
 * Spring of oil shut in behind a piston: k = K·A²/V [N/m].                               (README eq. 10)
 *
 * @param bulkModulus K [Pa], @param pistonArea A [m²], @param volume V of the shut-in oil [m³]
 * @source definition of the bulk modulus
 * @verified hydraulics.test.ts (work of a stroke is that of the pressure)
 */
export function trappedOilStiffness(bulkModulus: number, pistonArea: number, volume: number): number {
  requirePositive({ "bulk modulus": bulkModulus, "piston area": pistonArea, "shut-in volume": volume });
  return (bulkModulus * pistonArea ** 2) / volume;
}

/**
 * Pressure behind a piston that carries a load against a counter pressure.
 *
 *     p·A = F + p_c·A_c                                                                (README eq. 11)
 *
 * @param load F on the piston, that raises the pressure [N]
 * @param counterForce p_c·A_c [N]
 * @returns p [Pa], of the kind of p_c; negative when the load pulls the piston off the oil
 * @source balance of the piston
 * @verified hydraulics.test.ts
 */
export function pistonPressure(load: number, counterForce: number, pistonArea: number): number {
  requirePositive({ "piston area": pistonArea });
  return (load + counterForce) / pistonArea;
}
