/** Real and imaginary part of a complex stiffness [N/m]. */
export type ComplexStiffness = readonly [real: number, imaginary: number];

/**
 * Spring k and damper c in series.
 *
 *     k* = iωkc/(k + iωc) = k·(τω)²/(1 + (τω)²) + i·k·τω/(1 + (τω)²),   τ = c/k
 *
 * @param k [N/m], @param c [N·s/m], @param omega ω [rad/s]
 */
export function maxwell(k: number, c: number, omega: number): ComplexStiffness {
  const t = (c * omega) / k;
  return [(k * t * t) / (1 + t * t), (k * t) / (1 + t * t)];
}

/** Spring k0 parallel to a spring k and damper c in series: k* = k0 + maxwell. */
export function standardSolid(k0: number, k: number, c: number, omega: number): ComplexStiffness {
  const [real, imaginary] = maxwell(k, c, omega);
  return [k0 + real, imaginary];
}

/**
 * Greatest loss factor η = Im k* / Re k* of the standard solid and its frequency.
 *
 *     ω = (k/c)·√(k0/(k0 + k)),   η = k/(2·√(k0·(k0 + k)))
 */
export function lossPeak(k0: number, k: number, c: number): { readonly omega: number; readonly lossFactor: number } {
  return { omega: (k / c) * Math.sqrt(k0 / (k0 + k)), lossFactor: k / (2 * Math.sqrt(k0 * (k0 + k))) };
}

/**
 * The same standard solid built the other way: spring `bending` in series with (`accumulator` parallel to `snubber`).
 *
 *     k_b = k0 + k,   k_a = k0·k_b/k,   c_path = c·(k_b/k)²
 *
 * so that both agree at ω = 0 (k_a in series with k_b is k0), at ω = ∞ (k_b) and in the time of relaxation.
 */
export function asSeriesPath(
  k0: number,
  k: number,
  c: number,
): { readonly bending: number; readonly accumulator: number; readonly snubber: number } {
  const bending = k0 + k;
  return { bending, accumulator: (k0 * bending) / k, snubber: c * (bending / k) ** 2 };
}
