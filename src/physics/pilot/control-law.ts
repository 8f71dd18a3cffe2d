import { DomainError } from "../../math/errors.ts";
import type { Controls } from "../airloads/types.ts";

/** What a control law may sense; angles in the sense of NOTATION.md, rates in body axes. */
export interface AircraftMotion {
  /** Bank angle, right wing down positive [rad]. */
  bank: number;
  /** Pitch angle, nose up positive [rad]. */
  pitch: number;
  /** Heading against the carrier's steady flight, nose right positive [rad]. */
  yaw: number;
  /** Body rates [rad/s]. */
  rollRate: number;
  pitchRate: number;
  yawRate: number;
  /** Angle of attack and of sideslip [rad], and speed through the air [m/s]. */
  angleOfAttack: number;
  sideslip: number;
  airspeed: number;
  /** Height of the c.g. above the origin of H [m] and its rate, up positive [m/s]. */
  height: number;
  verticalSpeed: number;
}

/** Names of what is sensed, in the order in which linear laws and plants carry it. */
export const SIGNALS = [
  ...(["bank", "pitch", "yaw", "rollRate", "pitchRate", "yawRate"] as const),
  ...(["angleOfAttack", "sideslip", "airspeed", "height", "verticalSpeed"] as const),
] as const;
export type Signal = (typeof SIGNALS)[number];

/** Everything zero: a place to write a motion into. */
export function noMotion(): AircraftMotion {
  const angles = { bank: 0, pitch: 0, yaw: 0, rollRate: 0, pitchRate: 0, yawRate: 0 };
  return { ...angles, angleOfAttack: 0, sideslip: 0, airspeed: 0, height: 0, verticalSpeed: 0 };
}

/**
 * A control law as a port of the equations of motion: it may have states of its own and writes control
 * deflections from the trim values. The equations call `command` and then `derivative`.
 */
export interface ControlLaw {
  readonly stateCount: number;
  /** Writes the deflections [rad, thrust N]; `trim` holds the deflections at trim. */
  command(state: Float64Array, offset: number, motion: AircraftMotion, trim: Controls, out: Controls): void;
  /** Writes the derivatives of the law's states into `out` from `offset`. */
  derivative(state: Float64Array, offset: number, motion: AircraftMotion, out: Float64Array): void;
}

/** Controls held at their trim position. */
export const controlsFixed: ControlLaw = {
  stateCount: 0,
  command(_state, _offset, _motion, trim, out) {
    out.elevator = trim.elevator;
    out.aileron = trim.aileron;
    out.rudder = trim.rudder;
    out.thrust = trim.thrust;
  },
  derivative() {},
};

export interface RollHoldSettings {
  /** Aileron per bank angle [rad/rad], ≥ 0 for a restoring law. */
  readonly rollGain: number;
  /** Aileron per roll rate [s], ≥ 0 for a damping law. */
  readonly rateGain: number;
  /** Time constant of the actuator [s], > 0. */
  readonly actuatorLag: number;
  /** Largest aileron deflection from trim, either way [rad], > 0. */
  readonly aileronLimit: number;
}

/**
 * Roll hold: aileron against bank and roll rate through a first-order actuator with a deflection limit.
 *
 *     δ̇ = (limit(−k_φ·φ − k_p·p) − δ)/T,   aileron = trim + δ          (README eq. 1)
 *
 * Positive aileron rolls the aircraft to the right (see NOTATION.md).
 *
 * @throws {DomainError} for a lag or limit that is not positive, or a gain that is not finite
 * @source own derivation, README eq. 1
 * @verified control-law.test.ts (limits, time constant, sign: a right bank gives left aileron)
 */
export function rollHold(settings: RollHoldSettings): ControlLaw {
  const { rollGain, rateGain, actuatorLag, aileronLimit } = settings;
  if (!(actuatorLag > 0)) throw new DomainError("roll hold, actuator lag", actuatorLag, "greater than 0");
  if (!(aileronLimit > 0)) throw new DomainError("roll hold, aileron limit", aileronLimit, "greater than 0");
  if (!Number.isFinite(rollGain) || !Number.isFinite(rateGain)) {
    throw new DomainError("roll hold, gain", [rollGain, rateGain], "finite");
  }
  return {
    stateCount: 1,
    command(state, offset, motion, trim, out) {
      controlsFixed.command(state, offset, motion, trim, out);
      out.aileron = trim.aileron + state[offset];
    },
    derivative(state, offset, motion, out) {
      const wanted = -rollGain * motion.bank - rateGain * motion.rollRate;
      const limited = Math.min(aileronLimit, Math.max(-aileronLimit, wanted));
      out[offset] = (limited - state[offset]) / actuatorLag;
    },
  };
}
