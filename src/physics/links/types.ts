/** How the carrier moves at the boom hinge, in H; the carrier port of the equations of motion has this form. */
export interface CarrierMotion {
  readonly hinge: Float64Array;
  readonly hingeVelocity: Float64Array;
  /** Carrier axes to H, row-major. */
  readonly rotation: Float64Array;
  readonly angularVelocity: Float64Array;
}

/** What a link sees of the pair. Vectors in H unless the name says otherwise. */
export interface LinkSight {
  /** Aircraft: c.g. in H, velocity in H from 7, angular velocity in body axes from 10; shape (at least 13). */
  readonly state: Float64Array;
  /** R_HV, row-major. */
  readonly rotation: Float64Array;
  readonly carrier: CarrierMotion;
  /** Boom tip from the hinge and its velocity seen from the carrier, carrier axes [m, m/s]. */
  readonly tip: Float64Array;
  readonly tipVelocity: Float64Array;
}

/** Sums of what the links do; each link adds to them. */
export interface LinkLoad {
  /** On the aircraft by the links [N], in H, and about its c.g. [N·m], in body axes; shape (3) each. */
  readonly f_onV_H: Float64Array;
  readonly m_onV_aboutVcm_V: Float64Array;
  /** On the boom tip by the links [N], in carrier axes. */
  readonly f_onTip: Float64Array;
  /** On the carrier by the links [N], and about the boom hinge [N·m], in H. */
  readonly f_onCarrier_H: Float64Array;
  readonly m_onCarrier_aboutHo_H: Float64Array;
}

/** A massless connection between the aircraft and the carrier or its boom, as a port of the equations of motion. */
export interface LinkPort {
  /** Adds its loads; no allocation. */
  add(sight: LinkSight, load: LinkLoad): void;
  /** Strain energy [J] at a state. */
  energy(sight: LinkSight): number;
  /**
   * Springs at a state: stiffness [N/m or N·m/rad] with the travel per coordinate, shape (9): position in H, rotation vector in
   * body axes, boom tip.
   */
  springs(sight: LinkSight): { readonly stiffness: number; readonly slope: Float64Array }[];
}
