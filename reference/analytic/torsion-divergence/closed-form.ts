/** A rigid body on a torsion spring K [N·m/rad] in an airstream that turns it further, q·S·c·Cm_α per radian. */
export interface TorsionBody {
  readonly spring: number;
  readonly area: number;
  readonly chord: number;
  readonly momentSlope: number;
}

/** Dynamic pressure at which the spring no longer holds: q_D = K/(S·c·Cm_α). */
export function divergencePressure({ spring, area, chord, momentSlope }: TorsionBody): number {
  return spring / (area * chord * momentSlope);
}

/** Angle in balance when the stream also gives a moment q·S·c·Cm_0: θ = (Cm_0/Cm_α)·(q/q_D)/(1 − q/q_D), spring linear. */
export function balancedAngle(body: TorsionBody, atZero: number, pressure: number): number {
  const part = pressure / divergencePressure(body);
  return ((atZero / body.momentSlope) * part) / (1 - part);
}

/**
 * Angles of a pendulum spring W·h·sin θ in the same stream without Cm_0: θ = 0 always, and ±θ with sin θ/θ = q/q_D below q_D.
 *
 * @returns the positive angle by series reversion and Newton; `null` from q_D on or beyond 90°
 */
export function pendulumAngle(part: number): number | null {
  if (!(part < 1) || part < 2 / Math.PI) return null;
  let theta = Math.sqrt(6 * (1 - part));
  for (let i = 0; i < 60; i++) theta -= (Math.sin(theta) - part * theta) / (Math.cos(theta) - part);
  return theta;
}

/**
 * Angle of a rigid strut of length L held by a tangential spring k at its tip (moment k·L²·θ) under a push P along its unbent axis:
 * P·sin θ = k·L·θ; beside θ = 0 a pair ±θ once P > k·L.
 */
export function strutAngle(push: number, springForce: number): number | null {
  return pendulumAngle(springForce / push);
}
