import { DomainError } from "../../math/errors.ts";

/** A spring and damper that bite only beyond a clearance. */
export interface DeadBand {
  /** k [N/m], ≥ 0. */
  readonly stiffness: number;
  /** c [N·s/m], ≥ 0; it acts in contact only. */
  readonly damping: number;
  /** Free travel either way δ [m], ≥ 0. */
  readonly clearance: number;
}

/**
 * Checks a dead band.
 *
 * @param name what it belongs to, for the error
 * @throws {DomainError} for a value that is negative or not finite
 */
export function requireDeadBand(name: string, band: DeadBand): void {
  for (const key of ["stiffness", "damping", "clearance"] as const) {
    if (!(band[key] >= 0 && Number.isFinite(band[key]))) {
      throw new DomainError(`${name} ${key}`, band[key], "a finite number, at least 0");
    }
  }
}

/**
 * Travel beyond the clearance: 0 inside, x ∓ δ outside.
 *
 * @param x     travel [m]
 * @param delta δ [m]
 * @source README eq. 1
 * @verified dead-band.test.ts
 */
export function beyond(x: number, delta: number): number {
  return x > delta ? x - delta : x < -delta ? x + delta : 0;
}

/**
 * Force against a travel: nothing inside the clearance, spring and damper beyond it.
 *
 *     F = k·(x − δ·sgn x) + c·ẋ  for |x| > δ, else 0               (README eq. 1)
 *
 * Without clearance the band is always in contact, so that the law is linear.
 *
 * @param band k, c, δ
 * @param x    travel [m]
 * @param rate ẋ [m/s]
 * @returns force against positive travel [N]
 * @source own derivation, README eq. 1
 * @verified dead-band.test.ts
 */
export function deadBandForce(band: DeadBand, x: number, rate: number): number {
  if (band.clearance === 0) return band.stiffness * x + band.damping * rate;
  const inside = Math.abs(x) <= band.clearance;
  return inside ? 0 : band.stiffness * beyond(x, band.clearance) + band.damping * rate;
}

/**
 * Describing function of the dead band as a share of its spring and of its damper, for a motion x = X·sin ωt about the middle.
 *
 *     N(X)/k = 1 − (2/π)·(asin r + r·√(1 − r²)),  r = δ/X ≤ 1;  0 for X ≤ δ    (README eq. 2)
 *
 * The share is the same for the damper that acts in contact only.
 *
 * @param ratio X/δ [1], ≥ 0
 * @returns N/k, 0 to 1
 * @source own derivation, README eq. 2; the form of textbooks on describing functions (from memory)
 * @verified analytic/dead-band: fundamental of the force by quadrature (rtol 1e-9)
 */
export function deadBandShare(ratio: number): number {
  if (!(ratio >= 0)) throw new DomainError("amplitude over clearance", ratio, "at least 0");
  if (ratio <= 1) return 0;
  const r = 1 / ratio;
  return 1 - (2 / Math.PI) * (Math.asin(r) + r * Math.sqrt(1 - r * r));
}
