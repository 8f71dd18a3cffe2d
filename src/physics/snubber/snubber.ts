import { DomainError } from "../../math/errors.ts";

/** Force law of a snubber at its own mounting: F = C1·v + C2·v·|v|, force against the motion. */
export interface SnubberLaw {
  /** C1 [N·s/m], ≥ 0. */
  readonly linear: number;
  /** C2 [N·s²/m²], ≥ 0. */
  readonly quadratic: number;
}

/**
 * Linear rate that dissipates as much energy per cycle as the snubber does in a harmonic motion.
 *
 *     c = C1 + (8/3π)·C2·ω·X                                   (README eq. 2)
 *
 * Amplitude and frequency are those of the motion **across the snubber**, not of the boom tip.
 *
 * @param law       force law, C1 [N·s/m] and C2 [N·s²/m²]
 * @param amplitude X [m], ≥ 0
 * @param frequency ω [rad/s], ≥ 0
 * @returns c [N·s/m]
 * @throws {DomainError} for a negative or non-finite argument
 * @source own derivation, README eq. 1–2 (energy per cycle of v·|v|)
 * @verified analytic/quadratic-damper (rtol 1e-12); snubber.test.ts (energy per cycle by quadrature, rtol 1e-10)
 */
export function equivalentSnubberRate(law: SnubberLaw, amplitude: number, frequency: number): number {
  const parts = { C1: law.linear, C2: law.quadratic, amplitude, frequency };
  for (const [quantity, value] of Object.entries(parts)) {
    if (!(value >= 0 && Number.isFinite(value))) {
      throw new DomainError(`snubber ${quantity}`, value, "a finite number, at least 0");
    }
  }
  return law.linear + (8 / (3 * Math.PI)) * law.quadratic * frequency * amplitude;
}

/**
 * Value at the boom tip of a rate or coefficient known at the jack.
 *
 *     k_tip = k_jack / i²,   c_tip = c_jack / i²,   C2_tip = C2_jack / i³      (README eq. 3)
 *
 * with i = tip travel per jack travel. The inverse is the same call with 1/i.
 *
 * @param atJack value at the jack (SI), ≥ 0; Infinity (rigid, locked) stays Infinity
 * @param ratio  i, tip travel per jack travel [1], > 0
 * @param power  2 for stiffness and linear rate, 3 for the quadratic coefficient
 * @returns the value at the tip, in the same unit
 * @throws {DomainError} if the ratio is not positive and finite, or the value is negative or NaN
 * @source own derivation, README eq. 3 (virtual work)
 * @verified snubber.test.ts (virtual work of both descriptions agrees)
 */
export function referToTip(atJack: number, ratio: number, power: 2 | 3 = 2): number {
  if (!(atJack >= 0)) throw new DomainError("value at the jack", atJack, "at least 0");
  if (!(ratio > 0 && Number.isFinite(ratio)))
    throw new DomainError("tip travel per jack travel", ratio, "greater than 0");
  return atJack / ratio ** power;
}
