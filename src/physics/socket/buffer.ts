import { DomainError } from "../../math/errors.ts";
import type { BufferSettings } from "./types.ts";

/**
 * Energy that the buffer takes up to its stop without damping.
 *
 *     E = P·X + ½·k·X²                                                                                   (README eq. 7)
 *
 * @returns [J]
 * @source own derivation, README eq. 7
 * @verified buffer.test.ts by quadrature of the force
 */
export function bufferEnergy({ preload, stiffness, stroke }: BufferSettings): number {
  return preload * stroke + 0.5 * stiffness * stroke * stroke;
}

/** How far a buffer without damping goes under an impact, and with which force. */
export interface BufferPeak {
  readonly travel: number;
  readonly force: number;
  readonly bottomed: boolean;
}

/**
 * Travel and peak force of a buffer without damping that takes an energy.
 *
 *     E = P·x + ½·k·x² (+ ½·k_b·(x − X)² beyond the stop),   F = P + k·x (+ k_b·(x − X))                   (README eq. 7)
 *
 * @param energy E [J], ≥ 0: ½·m·v² of the reduced mass
 * @throws {DomainError} for a negative energy
 * @source own derivation, README eq. 7
 * @verified buffer.test.ts; hookon-motion/contact.test.ts
 */
export function bufferPeak(buffer: BufferSettings, energy: number): BufferPeak {
  if (!(energy >= 0)) throw new DomainError("energy into the buffer", energy, "at least 0");
  const { preload: P, stiffness: k, stroke: X, bottomStiffness: kb } = buffer;
  const inside = (2 * energy) / (P + Math.sqrt(P * P + 2 * k * energy));
  if (inside <= X) return { travel: inside, force: P + k * inside, bottomed: false };
  const force = P + k * X;
  const rest = energy - bufferEnergy(buffer);
  const past = (2 * rest) / (force + Math.sqrt(force * force + 2 * (k + kb) * rest));
  return { travel: X + past, force: force + (k + kb) * past, bottomed: true };
}

/**
 * Largest closure speed at which the buffer neither bottoms nor exceeds a load.
 *
 *     ½·m·v² = E(x),  x = min(X, (F_limit − P)/k)                                                        (README eq. 8)
 *
 * @param reduced m [kg], > 0
 * @param load    F_limit [N]; below the preload the answer is 0
 * @returns v [m/s]
 * @source own derivation, README eq. 8
 * @verified buffer.test.ts (put back)
 */
export function bufferSpeed(buffer: BufferSettings, reduced: number, load: number): number {
  if (!(reduced > 0)) throw new DomainError("reduced mass", reduced, "greater than 0");
  const { preload: P, stiffness: k, stroke: X } = buffer;
  if (load <= P) return 0;
  const x = k > 0 ? Math.min(X, (load - P) / k) : X;
  return Math.sqrt((2 * (P * x + 0.5 * k * x * x)) / reduced);
}
