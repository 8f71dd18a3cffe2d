import { DomainError } from "../errors.ts";
import { type LinearSystem, linearSystem } from "./system.ts";

const HIGHEST_ORDER = 6;

/**
 * Coefficients p₀ … p_n of the Padé denominator of a delay, rising powers, p_n = 1.
 *
 *     e^(−z) ≈ N(z)/D(z),  D(z) = Σ p_k·z^k,  N(z) = D(−z),  p_k = (2n − k)!/(k!·(n − k)!)          (3)
 *
 * @param order  n, 0 to 6
 * @throws {DomainError} for another order
 * @source Padé (1892); Golub and Van Loan, Matrix Computations, 4th ed. (2013), section 9.3.1 (table of exp)
 * @verified pade.test.ts: error of order 2n + 1, all-pass, printed polynomials of orders 1 to 3
 */
export function padeCoefficients(order: number): number[] {
  if (!Number.isInteger(order) || order < 0 || order > HIGHEST_ORDER) {
    throw new DomainError("order of the Padé approximation", order, `a whole number from 0 to ${HIGHEST_ORDER}`);
  }
  const factorial = (n: number): number => (n < 2 ? 1 : n * factorial(n - 1));
  return Array.from({ length: order + 1 }, (_, k) => factorial(2 * order - k) / (factorial(k) * factorial(order - k)));
}

/**
 * A pure delay as a linear system: Padé approximation of equal orders, which passes every frequency with gain 1.
 *
 *     y(s) = N(sτ)/D(sτ)·u(s)                                                  (3)
 *
 * Its phase is within 1 % of −ωτ up to ωτ ≈ 0.35, 1.6, 3.0 for orders 1, 2, 3.
 *
 * @param delay  τ [s], ≥ 0; without delay the system has no state
 * @param order  n, 0 to 6 (0 ignores the delay)
 * @throws {DomainError} for a negative or infinite delay, or another order
 * @source as `padeCoefficients`; companion form in z = sτ
 * @verified pade.test.ts
 */
export function padeDelay(delay: number, order: number): LinearSystem {
  if (!(delay >= 0 && delay < Number.POSITIVE_INFINITY)) throw new DomainError("delay", delay, "0 or more, finite");
  const p = padeCoefficients(order);
  const n = delay === 0 ? 0 : order;
  const system = linearSystem({ states: n, inputs: 1, outputs: 1 }, {});
  const sign = n % 2 === 0 ? 1 : -1;
  system.D[0] = sign;
  for (let i = 0; i < n; i++) {
    if (i < n - 1) system.A[i * n + i + 1] = 1 / delay;
    system.A[(n - 1) * n + i] -= p[i]! / delay;
    // N − sign·D: odd powers of z double or even powers do
    system.C[i] = (((i % 2 === 0 ? 1 : -1) - sign) * p[i]!) / p[0]!;
  }
  // the first state follows u slowly: states have the size of what is delayed
  if (n > 0) system.B[n - 1] = p[0]! / delay;
  return system;
}
