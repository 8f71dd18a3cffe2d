import { DomainError } from "../../math/errors.ts";
import type { LatchSettings } from "./types.ts";

/**
 * Refuses a latch that cannot be.
 *
 * @throws {DomainError} for a curve that does not rise from 0, a negative force, no trip energy, or a negative quantity
 */
export function checkLatch(latch: LatchSettings): void {
  const { travel, force } = latch;
  if (travel.length < 2 || travel.length !== force.length || travel[0] !== 0) {
    throw new DomainError("travel of the latch", [...travel], "at least two values rising from 0, one force each");
  }
  for (let i = 1; i < travel.length; i++) {
    if (!(travel[i] > travel[i - 1])) throw new DomainError("travel of the latch", [...travel], "rising values");
  }
  if (!force.every((value) => value >= 0 && Number.isFinite(value))) {
    throw new DomainError("force of the latch", [...force], "at least 0");
  }
  if (!(tripEnergy(latch) > 0)) throw new DomainError("trip energy of the latch", 0, "greater than 0");
  for (const key of ["lockTime", "lockWindow", "damping", "sideStiffness", "holdsHalf"] as const) {
    if (!(latch[key] >= 0 && Number.isFinite(latch[key])))
      throw new DomainError(`latch ${key}`, latch[key], "at least 0");
  }
  for (const key of ["stiffness", "holds"] as const) {
    if (!(latch[key] > 0)) throw new DomainError(`latch ${key}`, latch[key], "greater than 0");
  }
}

/** Force of the plunger at a travel [N], straight lines between the nodes; its ends outside. */
export function plungerForce({ travel, force }: LatchSettings, at: number): number {
  const last = travel.length - 1;
  if (at <= 0) return force[0];
  if (at >= travel[last]) return force[last];
  let k = 0;
  while (travel[k + 1] < at) k++;
  return force[k] + ((at - travel[k]) / (travel[k + 1] - travel[k])) * (force[k + 1] - force[k]);
}

/**
 * Energy that trips the latch: the area under its curve.
 *
 *     E = ∫ F dx                                                                                         (README eq. 1)
 *
 * @returns [J]
 * @source README eq. 1
 * @verified latch.test.ts
 */
export function tripEnergy({ travel, force }: LatchSettings): number {
  let sum = 0;
  for (let i = 1; i < travel.length; i++) sum += 0.5 * (force[i] + force[i - 1]) * (travel[i] - travel[i - 1]);
  return sum;
}

/** Least closure speed that trips, and what of the energy went into what. */
export interface ClosureFloor {
  /** [m/s] */
  readonly speed: number;
  /** Trip energy; friction on the way; buffer compressed by the plunger's force before the trip [J]. */
  readonly trip: number;
  readonly friction: number;
  readonly buffer: number;
}

/**
 * Lower end of the closure window.
 *
 *     ½·m·v² ≥ E_trip + E_friction + E_buffer(F_max)                                                     (README eq. 2)
 *
 * The buffer gives way before the latch trips where the plunger's largest force is above its preload; what it takes
 * until then, (F² − P²)/2k, is counted as not available. Nothing else drives the probe: thrust is not in it.
 *
 * @param latch   curve
 * @param reduced m [kg], > 0: reduced mass of the probe (as it moves at its head) and the socket
 * @param losses  friction work on the way [J]; buffer preload [N] and stiffness [N/m]
 * @throws {DomainError} for a mass that is not positive
 * @source own derivation, README eq. 2
 * @verified latch.test.ts; hookon-motion/run.test.ts (the motion trips above and not below, within 3 %)
 */
export function tripSpeed(
  latch: LatchSettings,
  reduced: number,
  losses: { readonly friction: number; readonly preload: number; readonly stiffness: number },
): ClosureFloor {
  if (!(reduced > 0)) throw new DomainError("reduced mass", reduced, "greater than 0");
  const trip = tripEnergy(latch);
  const largest = latch.force.reduce((a, b) => Math.max(a, b), 0);
  const over = Math.max(0, largest * largest - losses.preload * losses.preload);
  const buffer = over > 0 ? (losses.stiffness > 0 ? over / (2 * losses.stiffness) : Number.POSITIVE_INFINITY) : 0;
  return {
    speed: Math.sqrt((2 * (trip + losses.friction + buffer)) / reduced),
    trip,
    friction: losses.friction,
    buffer,
  };
}

/**
 * Forces of a spring-loaded hook with ramps.
 *
 *     F = F_s·tan(β + φ),  φ = atan μ;  it locks itself where β + φ ≥ 90°                                  (README eq. 3)
 *
 * @param spring F_s [N] across the hook's travel
 * @param ramp   β [rad] of the side in hand
 * @returns [N]; Infinity where it locks itself
 * @throws {DomainError} for a negative argument
 * @source standard; structures survey from memory, guides only
 * @verified latch.test.ts (limits)
 */
export function hookForce(spring: number, ramp: number, friction: number): number {
  if (!(spring >= 0 && ramp >= 0 && friction >= 0)) {
    throw new DomainError("spring, ramp and friction of the hook", [spring, ramp, friction], "at least 0");
  }
  const angle = ramp + Math.atan(friction);
  return angle < Math.PI / 2 ? spring * Math.tan(angle) : Number.POSITIVE_INFINITY;
}
