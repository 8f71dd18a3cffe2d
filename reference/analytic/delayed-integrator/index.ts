/**
 * Margins of the loop L(s) = K·e^(−τs)/s.
 *
 *     ω_c = K,  φ_m = π/2 − K·τ;   ω_u = π/(2τ),  g = π/(2·K·τ);   delay margin φ_m/K
 *
 * @param K crossover frequency [rad/s], @param tau delay [s]
 */
export function delayedIntegrator(K: number, tau: number) {
  return {
    crossover: K,
    phaseMargin: Math.PI / 2 - K * tau,
    gainMargin: Math.PI / (2 * K * tau),
    delayMargin: (Math.PI / 2 - K * tau) / K,
  };
}

/**
 * Gain at which L(s) = K/(s·(s + a)·(s + b)) goes unstable, by the array of Routh and Hurwitz.
 *
 *     s³ + (a + b)·s² + a·b·s + K:   K = a·b·(a + b)
 */
export function thirdOrderLimit(a: number, b: number): number {
  return a * b * (a + b);
}

/**
 * Conditions of Hurwitz for s⁴ + a3·s³ + a2·s² + a1·s + a0: all roots to the left exactly when every one is positive.
 *
 *     a0, a3, a3·a2 − a1, a1·(a3·a2 − a1) − a3²·a0                 (a1 and a2 are then positive too)
 */
export function hurwitzFour(a3: number, a2: number, a1: number, a0: number): readonly number[] {
  return [a0, a3, a3 * a2 - a1, a1 * (a3 * a2 - a1) - a3 * a3 * a0];
}
