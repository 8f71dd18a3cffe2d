/**
 * What flies the carried aircraft to the socket: sampled at a fixed rate, holding its commands between ticks.
 *
 * Axes H of the carrier, x forward, y right, z down. Relative places are probe head from socket mouth.
 */

/** Truth at a tick; the law sees it only through its sensors. Written by the motion, not by the law. */
export interface ApproachTruth {
  time: number;
  /** Probe head from the centre of the socket's mouth, and its rate, in H [m], [m/s]. */
  readonly p_MoPh_H: Float64Array;
  readonly v_MoPh_H: Float64Array;
  /** Probe head from the place of the mouth at rest, carrier steady: what the path is laid to [m], [m/s]. */
  readonly p_RestPh_H: Float64Array;
  readonly v_RestPh_H: Float64Array;
  /** Yaw, pitch, roll against H [rad]; body rates [rad/s]. */
  yaw: number;
  pitch: number;
  bank: number;
  rollRate: number;
  pitchRate: number;
  yawRate: number;
  /** [m/s] true, against the air that the aircraft is in. */
  airspeed: number;
  /** Probe head touches the funnel; latch tripped; latch locked (truth, and what the indication says). */
  touching: boolean;
  tripped: boolean;
  locked: boolean;
}

/** Held from tick to tick; surfaces as total deflections before the actuators. */
export interface ApproachCommands {
  /** [rad] */
  elevator: number;
  aileron: number;
  rudder: number;
  /** [N] */
  thrust: number;
  /** Rate that operator or automatic law gives the boom tip, along its swing (down positive) [m/s]. */
  boomRate: number;
  /** Index into `APPROACH_PHASES`. */
  phase: number;
  /** Which attempt this is, from 1. */
  attempt: number;
  /** Why the last attempt was given up: index into `ABORT_REASONS`; 0 while none was. */
  reason: number;
  /** True once no attempt is left: the law retreats and does not come back. */
  givenUp: boolean;
}

/** Why an attempt is given up; the order is that of the codes in a table. */
export const ABORT_REASONS = [
  "none",
  "outside the gate",
  "closure outside limits",
  "navigation lost",
  "out of time",
  "overrun",
  "not latched",
  "breakaway commanded",
] as const;
export type AbortReason = (typeof ABORT_REASONS)[number];

export const APPROACH_PHASES = [
  "observation",
  "pre-contact",
  "closing",
  "hooked",
  "going around",
  "breakaway",
] as const;
export type ApproachPhase = (typeof APPROACH_PHASES)[number];

/** A law with memory; one object serves one thread. */
export interface ApproachGuide {
  /** Time between ticks [s]. */
  readonly tick: number;
  /** Begins a sample; random numbers come from (seed, index) alone. */
  restart(seed: number, index: number): void;
  /** Writes the commands that hold until the next tick. */
  step(truth: ApproachTruth, out: ApproachCommands): void;
}

/**
 * Velocity that the nose of the coming aircraft gives the air at the socket, by the place of the probe head aft of and below the
 * mouth [m].
 */
export interface BowWave {
  /**
   * Writes the velocity of the air, in H [m/s], shape (3).
   *
   * @returns false outside the table: what is written there is the nearest value and counts as not analysed
   */
  evaluate(aft: number, below: number, out: Float64Array): boolean;
}

/** Carrier's wake and slipstream by the place of the c.g. aft of, right of and below the boom hinge [m]. */
export interface WakeFlow {
  /**
   * Writes the extra mean velocity of the air, in H [m/s], then the factor on the intensity of turbulence [1]; shape (4).
   *
   * @returns false outside the table, as `BowWave`
   */
  evaluate(aft: number, right: number, below: number, out: Float64Array): boolean;
}
