import { DomainError } from "../../math/errors.ts";

/** Smallest share of the speed that a contact may give back: below it the dissipation would grow without bound. */
export const LEAST_RESTITUTION = 0.05;

/**
 * Dissipation λ of the contact F = k·δ·(1 + λ·δ̇) that gives back the share e of an approach speed v.
 *
 *     (1 + e)·d = ln((1 + d)/(1 − e·d)),  d = λ·v                                                       (README eq. 2)
 *
 * Exact for any stiffness and any masses: ∫ u/(1 + λu) du over the contact vanishes.
 *
 * @param restitution e, 0.05 to 1
 * @param speed       v [m/s], > 0
 * @returns λ [s/m]; 0 for e = 1
 * @throws {DomainError} for arguments outside their range
 * @source Hunt and Crossley, J. Applied Mechanics 42 (1975) 440–445 for the form (from memory); eq. 2 own derivation
 * @verified contact-law.test.ts (eq. 2 put back, slope at e → 1); hookon-motion/contact.test.ts (two bodies meet, rtol 1e-6)
 */
export function contactDissipation(restitution: number, speed: number): number {
  if (!(restitution >= LEAST_RESTITUTION && restitution <= 1)) {
    throw new DomainError("restitution of the contact", restitution, `${LEAST_RESTITUTION} to 1`);
  }
  if (!(speed > 0 && Number.isFinite(speed))) {
    throw new DomainError("speed at which the restitution holds", speed, "greater than 0");
  }
  if (restitution === 1) return 0;
  // the right side less the left is negative below the root and grows to infinity at d = 1/e
  let low = 0;
  let high = 1 / restitution;
  for (let i = 0; i < 200; i++) {
    const d = 0.5 * (low + high);
    if (d === low || d === high) break;
    if (Math.log1p(d) - Math.log1p(-restitution * d) < (1 + restitution) * d) low = d;
    else high = d;
  }
  return (0.5 * (low + high)) / speed;
}

/** What two bodies do that meet along a line. */
export interface Impact {
  /** Impulse on each [N·s]; energy lost [J]. */
  readonly impulse: number;
  readonly energyLost: number;
  /** Change of the speed of the first (slower) and the second body [m/s]. */
  readonly firstChange: number;
  readonly secondChange: number;
}

/**
 * Impact of two free bodies.
 *
 *     J = (1 + e)·m·Δv,  ΔE = ½·(1 − e²)·m·Δv²,  m = m₁m₂/(m₁ + m₂)                                     (README eq. 3)
 *
 * @param masses      m₁, m₂ [kg]
 * @param closing     Δv [m/s]
 * @param restitution e
 * @throws {DomainError} for a mass that is not positive
 * @source standard mechanics
 * @verified contact-law.test.ts against `analytic/contact-cases`
 */
export function twoMassImpact(masses: readonly [number, number], closing: number, restitution: number): Impact {
  const [m1, m2] = masses;
  if (!(m1 > 0 && m2 > 0)) throw new DomainError("masses that meet", [m1, m2], "greater than 0");
  const reduced = (m1 * m2) / (m1 + m2);
  const impulse = (1 + restitution) * reduced * closing;
  return {
    impulse,
    energyLost: 0.5 * (1 - restitution * restitution) * reduced * closing * closing,
    firstChange: -impulse / m1,
    secondChange: impulse / m2,
  };
}

/**
 * Largest force and depth of an elastic contact: F = v·√(k·m), δ = v·√(m/k), time π·√(m/k).
 *
 * @param stiffness k [N/m], > 0
 * @param reduced   m [kg], > 0
 * @param speed     v [m/s]
 * @source harmonic half-wave, README eq. 4
 * @verified hookon-motion/contact.test.ts
 */
export function elasticContact(stiffness: number, reduced: number, speed: number) {
  return {
    force: speed * Math.sqrt(stiffness * reduced),
    depth: speed * Math.sqrt(reduced / stiffness),
    time: Math.PI * Math.sqrt(reduced / stiffness),
  };
}
