/**
 * Describing functions: fundamental of the output over the amplitude of a harmonic input, in phase with it.
 *
 * Standard closed forms; each is also the integral (1/πA)·∮f(A·cos τ)·cos τ dτ, which `fundamental` takes by quadrature.
 */

/** f = v·|v|: (8/3π)·A. */
export const quadratic = (amplitude: number): number => (8 * amplitude) / (3 * Math.PI);

/** f = sign v: 4/(πA). */
export const coulomb = (amplitude: number): number => 4 / (Math.PI * amplitude);

/** Slope 1 up to a limit, then constant: (2/π)·(asin ρ + ρ√(1 − ρ²)), ρ = limit/A. */
export function saturation(amplitude: number, limit: number): number {
  const rho = limit / amplitude;
  return rho >= 1 ? 1 : (2 / Math.PI) * (Math.asin(rho) + rho * Math.sqrt(1 - rho * rho));
}

/** Nothing within ± half the play, slope 1 beyond: the complement of the saturation. */
export const deadZone = (amplitude: number, half: number): number => 1 - saturation(amplitude, half);

/** The integral by the midpoint rule with many points; converges for any piecewise smooth f. */
export function fundamental(f: (x: number) => number, amplitude: number, points = 200_000): number {
  let sum = 0;
  for (let i = 0; i < points; i++) {
    const cosine = Math.cos((2 * Math.PI * (i + 0.5)) / points);
    sum += f(amplitude * cosine) * cosine;
  }
  return (2 * sum) / (points * amplitude);
}
