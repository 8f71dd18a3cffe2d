/** A uniform beam of length L [m]; E, k′G [Pa], ρ [kg/m³], A [m²], I [m⁴]. */
export interface ShearBeam {
  readonly length: number;
  readonly modulus: number;
  readonly shearModulus: number;
  readonly density: number;
  readonly area: number;
  readonly inertia: number;
}

/**
 * Frequency [rad/s] of the n-th bending motion of a simply supported Timoshenko beam.
 *
 *     Ω = [(g + j)λ² + 1 − √((g − j)²λ⁴ + 2(g + j)λ² + 1)]/(2gj),  λ = nπ, j = I/AL², g = EI/(k′G·A·L²), Ω = ρAL⁴ω²/EI
 */
export function simplySupportedFrequency(beam: ShearBeam, n: number): number {
  const { length, modulus, shearModulus, density, area, inertia } = beam;
  const square = (n * Math.PI) ** 2;
  const j = inertia / (area * length ** 2);
  const g = (modulus * inertia) / (shearModulus * area * length ** 2);
  const sum = (g + j) * square + 1;
  // the smaller root of gjΩ² − (…)Ω + λ⁴ = 0, written without a difference of nearly equal numbers
  const omega = (2 * square ** 2) / (sum + Math.sqrt((g - j) ** 2 * square ** 2 + 2 * (g + j) * square + 1));
  return Math.sqrt((omega * modulus * inertia) / (density * area * length ** 4));
}

/** Frequency [rad/s] of the n-th stretching motion, one end held, the other free: (2n − 1)·π/(2L)·√(E/ρ). */
export function stretchingFrequency({ length, modulus, density }: ShearBeam, n: number): number {
  return (((2 * n - 1) * Math.PI) / (2 * length)) * Math.sqrt(modulus / density);
}
