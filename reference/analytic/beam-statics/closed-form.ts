/** Deflections of beams under a force on the tip, by Castigliano's theorem. SI, or any units that agree. */

/** Tip stiffness 3EI/L³ of a cantilever; with shear 1/k = L³/3EI + L/κGA. */
export function cantileverStiffness(bending: number, length: number, shear = Number.POSITIVE_INFINITY): number {
  return 1 / (length ** 3 / (3 * bending) + length / shear);
}

/**
 * Cantilever over a support at the station a: spring of stiffness k, or rigid (Infinity).
 *
 *     δ_tt = L³/3EI, δ_at = a²(3L − a)/6EI, δ_aa = a³/3EI;  R/F = δ_at/(δ_aa + 1/k),  1/k_tip = δ_tt − δ_at·R/F
 *
 * @returns tip stiffness and the reaction per tip force, against the force
 */
export function supportedCantilever(
  bending: number,
  length: number,
  at: number,
  support: number,
): { readonly stiffness: number; readonly reaction: number } {
  const across = (at * at * (3 * length - at)) / (6 * bending);
  const reaction = across / (at ** 3 / (3 * bending) + 1 / support);
  return { stiffness: 1 / (length ** 3 / (3 * bending) - across * reaction), reaction };
}

/** Tip stiffness 3EI/(c²(a + c)) of a beam pinned at 0 and a with a free end c beyond. */
export function overhangStiffness(bending: number, span: number, overhang: number): number {
  return (3 * bending) / (overhang ** 2 * (span + overhang));
}

/** Stiffness across a beam of a bar at the angle θ to it: (EA/ℓ)·sin²θ. */
export function strutAcross(axialStiffness: number, length: number, angle: number): number {
  return (axialStiffness / length) * Math.sin(angle) ** 2;
}

/**
 * Tip stiffness of a cantilever whose EI falls linearly to EI₀·p at the tip, 0 < p < 1, c = 1 − p.
 *
 *     1/k = (L³/EI₀)·(1/2c − p/c² − (p²/c³)·ln p)
 */
export function taperedStiffness(rootBending: number, length: number, p: number): number {
  const c = 1 - p;
  return rootBending / length ** 3 / (1 / (2 * c) - p / c ** 2 - (p ** 2 / c ** 3) * Math.log(p));
}

/** Stretch stiffness of a bar whose EA falls linearly to EA₀·p: 1/k = (L/EA₀)·ln(1/p)/(1 − p). */
export function taperedBarStiffness(rootAxial: number, length: number, p: number): number {
  return (rootAxial / length) * ((1 - p) / -Math.log(p));
}
