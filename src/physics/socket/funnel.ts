import { DomainError } from "../../math/errors.ts";
import type { SocketSettings } from "./types.ts";

/** Funnel along its axis, from the gimbal's centre towards the probe. */
export interface FunnelGeometry {
  /** Places of mouth, throat and seat [m]. */
  readonly mouth: number;
  readonly throat: number;
  readonly seat: number;
  /** Half angle of the cone [rad] and length of its side [m]. */
  readonly halfAngle: number;
  readonly side: number;
}

function requireAbove(name: string, value: number, least: number): void {
  if (!(value > least && Number.isFinite(value))) throw new DomainError(name, value, `greater than ${least}`);
}
function requireAtLeast0(name: string, value: number): void {
  if (!(value >= 0 && Number.isFinite(value))) throw new DomainError(name, value, "at least 0");
}

/**
 * Places along the funnel and its half angle.
 *
 *     tan α = (R_mouth − R_throat)/depth                                                                 (README eq. 1)
 *
 * @throws {DomainError} for a mouth no wider than the throat, a throat no wider than the head, a stem no thinner than the head
 * @source geometry
 * @verified funnel.test.ts
 */
export function funnelGeometry({ funnel, probe }: SocketSettings): FunnelGeometry {
  requireAbove("radius of the probe head", probe.radius, 0);
  requireAbove("throat radius of the funnel (over the probe head's)", funnel.throatRadius, probe.radius);
  requireAbove("mouth radius of the funnel (over the throat's)", funnel.mouthRadius, funnel.throatRadius);
  requireAbove("depth of the cone", funnel.coneDepth, 0);
  requireAbove("depth of the bore", funnel.boreDepth, 0);
  requireAtLeast0("length of the stem", probe.stemLength);
  if (!(probe.stemRadius >= 0 && probe.stemRadius <= probe.radius)) {
    throw new DomainError("radius of the stem", probe.stemRadius, "0 to the head's radius");
  }
  const rise = funnel.mouthRadius - funnel.throatRadius;
  const throat = funnel.mouthFromGimbal - funnel.coneDepth;
  return {
    mouth: funnel.mouthFromGimbal,
    throat,
    seat: throat - funnel.boreDepth,
    halfAngle: Math.atan2(rise, funnel.coneDepth),
    side: Math.hypot(rise, funnel.coneDepth),
  };
}

/**
 * Refuses gimbal, buffer and contact that cannot be.
 *
 * @throws {DomainError} naming the quantity
 */
export function checkSocket({ contact, gimbal, buffer, restAxis_H, dragArea }: SocketSettings): void {
  requireAbove("stiffness of the contact", contact.stiffness, 0);
  requireAtLeast0("friction of the contact", contact.friction);
  requireAbove("creep speed of the contact", contact.creepSpeed, 0);
  for (const key of ["centring", "damping", "friction", "stopStiffness"] as const) {
    requireAtLeast0(`gimbal ${key}`, gimbal[key]);
  }
  requireAbove("inertia of the funnel", gimbal.inertia, 0);
  requireAbove("stop of the gimbal", gimbal.stop, 0);
  if (!(gimbal.tumbled > 0 && gimbal.tumbled < 1.4)) {
    throw new DomainError("angle at which the funnel counts as tumbled", gimbal.tumbled, "above 0, below 1.4 rad");
  }
  for (const key of ["preload", "stroke", "headMass", "bottomStiffness"] as const) {
    requireAbove(`buffer ${key}`, buffer[key], 0);
  }
  for (const key of ["stiffness", "compressionDamping", "extensionDamping"] as const) {
    requireAtLeast0(`buffer ${key}`, buffer[key]);
  }
  requireAtLeast0("drag area of the socket", dragArea);
  const [x, y, z] = restAxis_H;
  if (!(Math.abs(Math.hypot(x, y, z) - 1) < 1e-6 && Math.abs(y) < 0.99)) {
    throw new DomainError("axis of the socket", restAxis_H, "a unit vector, not along y");
  }
}

/** Axes k1, k2, k3 of the socket at rest, in H: k2 to the right as far as it is across k1. */
export function socketAxes(restAxis_H: readonly [number, number, number]): Float64Array {
  const [x, y, z] = restAxis_H;
  const size = Math.sqrt(1 - y * y);
  const [ax, ay, az] = [(-x * y) / size, (1 - y * y) / size, (-z * y) / size];
  return Float64Array.of(x, y, z, ax, ay, az, y * az - z * ay, z * ax - x * az, x * ay - y * ax);
}
