import { DomainError } from "../../math/errors.ts";
import { requireNotNegative, requirePositive } from "../../math/require.ts";

/**
 * Time in which a constant net force draws the probe out of its bore, from rest.
 *
 *     t = √(2·d/(F/m))                                                     (README eq. 7)
 *
 * @param depth d [m], @param force drag less thrust less friction [N], @param mass what moves [kg]
 * @returns [s]; `null` when the force does not draw: it never leaves
 * @throws {DomainError} for a depth or mass that is not positive
 * @source uniform acceleration; job practice "drag withdraws the probe" (common practice, no source)
 * @verified falling-body.test.ts, motion.test.ts (the same by the motion, friction off)
 */
export function withdrawalTime(depth: number, force: number, mass: number): number | null {
  requirePositive("depth of the bore", depth);
  requirePositive("mass", mass);
  return force > 0 ? Math.sqrt((2 * depth * mass) / force) : null;
}

/**
 * Pull that is needed to start the probe out of its bore, and what is offered for it.
 *
 *     needed = μ·|L| + F_s,   offered = T₀ = drag less thrust along the bore at the moment of release            (README eq. 8)
 *
 * @param sideLoad |L| [N], @param friction μ, @param sealFriction F_s [N]
 * @source Coulomb friction
 * @verified falling-body.test.ts; motion.test.ts (starts above, stays below)
 */
export function withdrawalForce(sideLoad: number, friction: number, sealFriction: number): number {
  requireNotNegative("side load", sideLoad);
  requireNotNegative("coefficient of friction", friction);
  requireNotNegative("friction of the seals", sealFriction);
  return friction * sideLoad + sealFriction;
}

/**
 * Distance fallen from rest under a constant lift deficit.
 *
 *     h = ½·(1 − L/W)·g·t²                                                  (README eq. 9)
 *
 * @param liftShare L/W, @param gravity g [m/s²], @param time t [s]
 * @returns down positive [m]; negative: it floats up
 * @source uniform acceleration
 * @verified motion.test.ts
 */
export function dropWithLift(liftShare: number, gravity: number, time: number): number {
  return 0.5 * (1 - liftShare) * gravity * time * time;
}

/**
 * Speed at which drag holds a falling body.
 *
 *     V = √(2·m·g/(ρ·A))                                                    (README eq. 10)
 *
 * @param mass [kg], @param dragArea C_D·S [m²], @param density ρ [kg/m³], @param gravity [m/s²]
 * @source balance of weight and drag
 * @verified falling-body.test.ts
 */
export function terminalSpeed(mass: number, dragArea: number, density: number, gravity: number): number {
  requirePositive("mass", mass);
  requirePositive("drag area", dragArea);
  requirePositive("density", density);
  if (!(gravity > 0)) throw new DomainError("gravity", gravity, "greater than 0");
  return Math.sqrt((2 * mass * gravity) / (density * dragArea));
}

/**
 * Change of load factor of the carrier in the moment in which the carried weight leaves it, before anyone trims.
 *
 *     Δn = s·m_c/M                                                          (README eq. 11)
 *
 * @param carriedMass m_c [kg], @param carrierMass M without it [kg], @param weightShare s: part of the weight that hung on the carrier
 * @source balance of forces at the same angle of attack
 * @verified motion.test.ts
 */
export function loadFactorStep(carriedMass: number, carrierMass: number, weightShare: number): number {
  requireNotNegative("carried mass", carriedMass);
  requirePositive("carrier mass", carrierMass);
  return (weightShare * carriedMass) / carrierMass;
}
