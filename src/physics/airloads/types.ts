/**
 * The contract between an aerodynamic model and the equations of motion.
 *
 * Body axes: x forward, y right, z down, origin at the centre of mass (c.g.). Everything SI and radians.
 */

/** Control deflections [rad] and thrust [N]; signs: elevator trailing edge down, rudder trailing edge left, aileron right-wing-down roll are positive. */
export interface Controls {
  elevator: number;
  aileron: number;
  rudder: number;
  thrust: number;
}

/** Motion of the c.g. relative to the air, in body axes. */
export interface AirState {
  /** Velocity components of the c.g. relative to the air [m/s]. */
  u: number;
  v: number;
  w: number;
  /** Angular velocity relative to the air mass, body axes [rad/s]. */
  p: number;
  q: number;
  r: number;
  /** Density [kg/m³]. */
  density: number;
  /** Speed of sound [m/s]. */
  soundSpeed: number;
  /** Place of the c.g. aft of and below the carrier's boom hinge, along H [m]; absent without a carrier. */
  aft?: number;
  below?: number;
}

/**
 * Load on the aircraft by the air and its engine, about the c.g., body axes, split into the part that
 * depends on the state and the part that is linear in the body-axis accelerations u̇, v̇, ẇ, ṗ, q̇, ṙ
 * (the α̇ derivatives):
 *
 *     total_i = load_i + Σ_j perAcceleration[6·i + j]·acceleration_j
 *
 * `load` is [X, Y, Z, L, M, N]; `perAcceleration` is the 6×6 row-major matrix ∂load/∂(u̇, v̇, ẇ, ṗ, q̇, ṙ),
 * where u̇, v̇, ẇ are the derivatives of the body components (not the inertial acceleration).
 */
export interface AirLoad {
  readonly load: Float64Array;
  readonly perAcceleration: Float64Array;
}

/** An aerodynamic model: writes `out` completely, allocates nothing. */
export interface AirloadModel {
  evaluate(air: AirState, controls: Controls, out: AirLoad): void;
}
