import { DomainError } from "../../math/errors.ts";
import type { SnubberLaw } from "./snubber.ts";

/**
 * Force of a real snubber against its motion: laminar bleed and orifice in one line, a relief valve beside them,
 * friction of the seals beside all.
 */
export interface SnubberForceLaw extends SnubberLaw {
  /** Force at which the relief valve opens [N]; Infinity without one. */
  readonly relief: number;
  /** Force above the setting per speed that passes the relief valve [N·s/m], ≥ 0. */
  readonly reliefRate: number;
  /** Coulomb friction of the seals [N], ≥ 0. */
  readonly friction: number;
}

/** The same law without relief valve and friction. */
export function plainLaw({ linear, quadratic }: SnubberLaw): SnubberForceLaw {
  return { linear, quadratic, relief: Number.POSITIVE_INFINITY, reliefRate: 0, friction: 0 };
}

/**
 * Refuses a law that no valve can have.
 *
 * @throws {DomainError} for a negative or non-finite coefficient or a relief setting that is not positive
 */
export function requireLaw(law: SnubberForceLaw): void {
  const { linear, quadratic, reliefRate, friction, relief } = law;
  for (const [key, value] of Object.entries({ C1: linear, C2: quadratic, reliefRate, friction })) {
    if (!(value >= 0 && Number.isFinite(value))) {
      throw new DomainError(`snubber ${key}`, value, "a finite number, at least 0");
    }
  }
  if (!(relief > 0)) throw new DomainError("snubber relief setting", relief, "greater than 0");
}

/** Positive root of a·w + b·w² = r for a, b, r ≥ 0, without cancellation. */
function passageSpeed(a: number, b: number, r: number): number {
  return r > 0 ? (2 * r) / (a + Math.sqrt(a * a + 4 * b * r)) : 0;
}

/** Speed at which the relief valve opens [m/s]; Infinity without one. */
export function reliefSpeed(law: SnubberForceLaw): number {
  if (law.relief === Infinity) return Infinity;
  return passageSpeed(law.linear, law.quadratic, law.relief);
}

/**
 * Force of the valve against a speed, without seal friction.
 *
 *     F = C1·v + C2·v·|v|  up to the relief setting F_r; above it                          (README eq. 7)
 *     v = w + (F − F_r)/c_r,  F = C1·w + C2·w²                                             (README eq. 8)
 *
 * @param law   the law
 * @param speed v [m/s], either sign
 * @returns F [N], of the sign of v; it acts against v
 * @source own derivation, README eq. 7–8
 * @verified force-law.test.ts (both passages carry the flow; odd; rises; inverse of `travelRate`)
 */
export function valveForce(law: SnubberForceLaw, speed: number): number {
  const v = Math.abs(speed);
  const { linear, quadratic, relief, reliefRate } = law;
  let force = linear * v + quadratic * v * v;
  if (force > relief) {
    const w = passageSpeed(linear + reliefRate, quadratic, relief + reliefRate * v);
    force = linear * w + quadratic * w * w;
  }
  return speed < 0 ? -force : force;
}

/**
 * Speed of a snubber with a dashpot beside it under a load: the inverse of the force law.
 *
 *     c·w + F(w) + F_c·sign w = R;  w = 0 while |R| ≤ F_c                                   (README eq. 9)
 *
 * In closed form in every range, so that it neither fails nor allocates.
 *
 * @param law  the law
 * @param c    rate of the dashpot beside it [N·s/m], ≥ 0
 * @param load R [N]
 * @returns w [m/s]; of the sign of R. Infinity when nothing resists
 * @source own derivation, README eq. 9
 * @verified force-law.test.ts (put back into the law, rtol 1e-12); @cost no allocation
 */
export function travelRate(law: SnubberForceLaw, c: number, load: number): number {
  const r = Math.abs(load) - law.friction;
  if (r <= 0) return 0;
  const { linear, quadratic, relief, reliefRate } = law;
  let w = passageSpeed(c + linear, quadratic, r);
  if (linear * w + quadratic * w * w > relief) {
    const through = passageSpeed(
      c * reliefRate + linear * (reliefRate + c),
      quadratic * (reliefRate + c),
      r * reliefRate + c * relief,
    );
    const force = linear * through + quadratic * through * through;
    w = reliefRate > 0 ? through + (force - relief) / reliefRate : (r - relief) / c;
  }
  return load < 0 ? -w : w;
}
