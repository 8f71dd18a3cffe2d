import { DomainError } from "../../math/errors.ts";

/**
 * Largest half angle at which a cone holds what was pushed into it: the friction angle atan μ.
 *
 * @param friction μ, ≥ 0
 * @returns [rad]
 * @source friction cone (standard)
 * @verified cone.test.ts (the forces vanish there); hookon-motion/contact.test.ts (slides or sticks in the motion)
 */
export function selfLockingAngle(friction: number): number {
  if (!(friction >= 0)) throw new DomainError("friction", friction, "at least 0");
  return Math.atan(friction);
}

/**
 * Axial forces per normal force on a cone of half angle α.
 *
 *     in: sin α + μ·cos α,   out: μ·cos α − sin α (negative: it comes out by itself)                      (README eq. 5)
 *
 * @param halfAngle α [rad], 0 to π/2
 * @param friction  μ, ≥ 0
 * @returns `ratio` is out over in, (μ − tan α)/(μ + tan α)
 * @throws {DomainError} for arguments outside their range
 * @source standard wedge
 * @verified cone.test.ts
 */
export function coneForces(halfAngle: number, friction: number) {
  if (!(halfAngle >= 0 && halfAngle < Math.PI / 2)) {
    throw new DomainError("half angle of the cone", halfAngle, "0 to below π/2");
  }
  if (!(friction >= 0)) throw new DomainError("friction", friction, "at least 0");
  const [sine, cosine] = [Math.sin(halfAngle), Math.cos(halfAngle)];
  const insert = sine + friction * cosine;
  const extract = friction * cosine - sine;
  return { insert, extract, ratio: extract / insert };
}

/**
 * Steepest cone on which a head that is pushed along the axis still slides in: half angle below π/2 − atan μ.
 *
 * @param friction μ, ≥ 0
 * @returns [rad]
 * @source friction cone, README eq. 6
 * @verified cone.test.ts; hookon-motion/contact.test.ts
 */
export function slidingAngle(friction: number): number {
  if (!(friction >= 0)) throw new DomainError("friction", friction, "at least 0");
  return Math.PI / 2 - Math.atan(friction);
}
