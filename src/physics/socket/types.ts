/**
 * Socket at the tip of the boom and the probe that comes into it.
 *
 * Axes of the socket, K: k1 out of the mouth along the axis of the funnel, towards the coming probe; k2 to the right seen in flight
 * direction at rest; k3 = k1 × k2. Origin Ko: centre of the gimbal. Everything SI and radians.
 */

/** Funnel: a cone from mouth to throat, then a bore that guides the probe to the seat. */
export interface FunnelShape {
  /** Radii inside [m]; mouth > throat > probe tip. */
  readonly mouthRadius: number;
  readonly throatRadius: number;
  /** Mouth to throat, throat to seat, along the axis [m]. */
  readonly coneDepth: number;
  readonly boreDepth: number;
  /** Mouth from the gimbal's centre along the axis [m]. */
  readonly mouthFromGimbal: number;
}

/** Head of the probe: a sphere on a stem along the probe's axis. */
export interface ProbeHead {
  /** [m] */
  readonly radius: number;
  /** Out of the aircraft along the probe, body axes, unit vector. */
  readonly axis: readonly [number, number, number];
  /** Stem behind the head, along the axis [m]. */
  readonly stemRadius: number;
  readonly stemLength: number;
}

/** Unilateral contact with Coulomb friction. */
export interface ContactLaw {
  /** [N/m] */
  readonly stiffness: number;
  /** Share of the approach speed with which it springs back, 0 to 1. */
  readonly restitution: number;
  /** Speed at which that share holds [m/s]. */
  readonly restitutionAt: number;
  /** Coefficient of friction. */
  readonly friction: number;
  /** Sliding speed below which friction fades to zero [m/s]. */
  readonly creepSpeed: number;
}

/** Two-axis gimbal of the funnel, about k2 and k3. */
export interface GimbalSettings {
  /** Moment per angle back to the middle [N·m/rad]; 0: not self-centring. */
  readonly centring: number;
  /** [N·m·s/rad] */
  readonly damping: number;
  /** Coulomb friction moment [N·m]. */
  readonly friction: number;
  /** Angle of the stop [rad] and its stiffness [N·m/rad]. */
  readonly stop: number;
  readonly stopStiffness: number;
  /** About the gimbal's centre, across the axis [kg·m²]. */
  readonly inertia: number;
  /** Angle beyond which the funnel counts as tumbled: the mouth no longer faces the probe [rad]. */
  readonly tumbled: number;
}

/** Spring buffer between socket head and boom tip, along the axis of the socket. */
export interface BufferSettings {
  /** Force at which it starts to move [N], above 0. */
  readonly preload: number;
  /** [N/m] */
  readonly stiffness: number;
  /** While compressing and while extending [N·s/m]. */
  readonly compressionDamping: number;
  readonly extensionDamping: number;
  /** Travel to the stop [m], and the stop's stiffness [N/m]. */
  readonly stroke: number;
  readonly bottomStiffness: number;
  /** Mass of the socket head that it carries [kg]. */
  readonly headMass: number;
}

/** Circle that the socket flies in the carrier's wake. */
export interface OrbitSettings {
  /** [m], [s] */
  readonly radius: number;
  readonly period: number;
}

export interface SocketSettings {
  readonly funnel: FunnelShape;
  readonly probe: ProbeHead;
  readonly contact: ContactLaw;
  readonly gimbal: GimbalSettings;
  readonly buffer: BufferSettings;
  /** Axis k1 at rest, carrier axes, unit vector; not along the carrier's y axis. */
  readonly restAxis_H: readonly [number, number, number];
  /** Drag area of head and funnel [m²], through which gusts and the bow wave push it. */
  readonly dragArea: number;
}
