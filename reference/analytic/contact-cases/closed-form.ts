/**
 * Mass m on a spring k that starts at speed v at an elastic stop K without gap: while it touches, ω² = (k + K)/m.
 *
 * @returns largest travel [m], force on the stop [N], time of the contact [s], impulse of the stop [N·s]
 */
export function springStop(m: number, k: number, K: number, v: number) {
  const omega = Math.sqrt((k + K) / m);
  return { travel: v / omega, force: (K * v) / omega, time: Math.PI / omega, impulse: (2 * K * v) / (omega * omega) };
}

/** Extremes of a mass on a spring k with friction μF, released at rest at r₀: each half cycle the amplitude falls by 2μF/k. */
export function frictionExtremes(start: number, friction: number, k: number, count: number): number[] {
  const fall = (2 * friction) / k;
  const out = [start];
  for (let n = 1; n < count; n++) {
    const size = Math.abs(out[n - 1]) - fall;
    if (size <= fall / 2) break;
    out.push(size * (n % 2 === 0 ? 1 : -1) * Math.sign(start));
  }
  return out;
}

/** Two free bodies, Δv = v₁ − v₂: impulse, speeds after, energy lost. */
export function twoBodies(m1: number, m2: number, v1: number, v2: number, e: number) {
  const common = (m1 * v1 + m2 * v2) / (m1 + m2);
  const rebound = e * (v1 - v2);
  const after1 = common - (m2 * rebound) / (m1 + m2);
  const after2 = common + (m1 * rebound) / (m1 + m2);
  const energy = (a: number, b: number): number => 0.5 * (m1 * a * a + m2 * b * b);
  return { impulse: m2 * (after2 - v2), after1, after2, lost: energy(v1, v2) - energy(after1, after2) };
}

/** Acceleration of a mass m down a wall that makes the angle α with the force F on it, friction μ; 0 where it sticks. */
export function slideAlongWall(m: number, force: number, alpha: number, friction: number): number {
  return Math.max(0, (force / m) * (Math.cos(alpha) - friction * Math.sin(alpha)));
}
