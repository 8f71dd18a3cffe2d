/** Arithmetic–geometric mean of two positive numbers, by Gauss's iteration. */
function arithmeticGeometricMean(a: number, b: number): number {
  let high = a;
  let low = b;
  while (Math.abs(high - low) > 1e-15 * high) [high, low] = [0.5 * (high + low), Math.sqrt(high * low)];
  return high;
}

/**
 * Period of a point mass on a rigid massless rod, for any amplitude below a half turn.
 *
 *     T = 2π·√(L/g) / agm(1, cos(θ/2))
 *
 * @param gravity   g [m/s²]
 * @param length    L [m]
 * @param amplitude θ from the hanging position [rad], 0 ≤ θ < π
 * @returns T [s]
 */
export function pendulumPeriod(gravity: number, length: number, amplitude: number): number {
  return (2 * Math.PI * Math.sqrt(length / gravity)) / arithmeticGeometricMean(1, Math.cos(amplitude / 2));
}

/**
 * Small swing of a point mass m at the end of a weightless-inertia rod about a rest position Γ below the horizontal, held
 * there by a tangential spring k; the rod's own weight m_b·g acts at a distance c from the hinge.
 *
 *     ω² = k/m + (g·sin Γ/L)·(1 + m_b·c/(m·L))
 *
 * From V(Γ) = −(m·L + m_b·c)·g·sin Γ + L·F*·(Γ − Γ*) + ½k·L²·(Γ − Γ*)² and the kinetic energy ½m·L²·Γ̇².
 *
 * @returns ω² [1/s²]; negative when the rest position is unstable
 */
export function heldPendulumSquare(rod: {
  readonly mass: number;
  readonly length: number;
  readonly angleDown: number;
  readonly gravity: number;
  readonly stiffness: number;
  readonly ownMass: number;
  readonly ownCentre: number;
}): number {
  const weight = 1 + (rod.ownMass * rod.ownCentre) / (rod.mass * rod.length);
  return rod.stiffness / rod.mass + ((rod.gravity * Math.sin(rod.angleDown)) / rod.length) * weight;
}
