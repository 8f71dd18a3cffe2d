import type { AirloadModel, Controls } from "../airloads/types.ts";
import type { ApproachGuide } from "../approach/types.ts";
import type { MassProperties } from "../bodies/index.ts";
import type { BoomSpringsSettings } from "../boom/index.ts";
import type { LatchSettings } from "../latch/types.ts";
import type { OrbitSettings, SocketSettings } from "../socket/types.ts";
import type { GustFilter } from "../turbulence/index.ts";

/** Everything that does not change from sample to sample of one condition. */
export interface HookonSettings {
  readonly mass: MassProperties;
  readonly airloads: AirloadModel;
  /** Probe head from the c.g., body axes [m]. */
  readonly probe: readonly [number, number, number];
  /** Trim of the free aircraft at the hook speed: angle of attack [rad] and controls. */
  readonly trim: { readonly alpha: number; readonly controls: Controls };
  readonly air: { readonly density: number; readonly soundSpeed: number; readonly trueAirspeed: number };
  readonly boom: BoomSpringsSettings;
  /** Effective mass of the boom tip [kg]. */
  readonly tipMass: number;
  readonly socket: SocketSettings;
  readonly latch: LatchSettings;
  readonly orbit?: OrbitSettings;
  /** Largest rate at which jack and hydraulics follow a steering command at the tip [m/s]; absent: the boom is not steered. */
  readonly boomRateLimit?: number;
  /** First-order lag, rate and travel of each surface; thrust lag [s] and limits [N]. */
  readonly actuators: ActuatorLimits;
  /** Gusts at the aircraft; absent: smooth air. */
  readonly gusts?: GustFilter;
  readonly guide: ApproachGuide;
  readonly limits: HookonLimits;
  /** Where the approach begins; absent: 5 m out along k1 at rest against the carrier, at trim attitude. */
  readonly start?: HookonStart;
  /** Motion of the carrier as a linear response; absent: it flies steadily. */
  readonly carrier?: CarrierResponse;
  /** What carrier wake, slipstream and bow wave add to the air, asked once a tick; absent: nothing. */
  readonly zones?: AirZones;
}

/** Beginning of a run; everything in H. */
export interface HookonStart {
  /** Probe head from the mouth's centre at rest [m]. */
  readonly p_RestPh_H: readonly [number, number, number];
  /** Velocity of the aircraft's c.g. [m/s]. */
  readonly v_HVcm_H: readonly [number, number, number];
  /** Against trim attitude [rad]. */
  readonly yaw: number;
  readonly pitch: number;
  readonly bank: number;
}

/**
 * Carrier as a linear response about steady flight: ẋ = A·x + B·(load − load at rest, gust), y = C·x.
 */
export interface CarrierResponse {
  readonly size: number;
  /** Row-major, shape (size, size). */
  readonly A: Float64Array;
  /** Row-major, shape (size, 12): force at the hinge [N], moment about it [N·m], gust u, v, w, p, q, r; all in H. */
  readonly B: Float64Array;
  /** Row-major, shape (12, size): place of the hinge [m], small angles [rad], velocity [m/s], rates [rad/s], in H. */
  readonly C: Float64Array;
}

/** Air against the undisturbed stream. */
export interface AirZones {
  /**
   * @param time      [s]
   * @param p_HoVcm_H c.g. of the aircraft from the hinge [m], shape (3)
   * @param p_MoPh_H  probe head from the mouth's centre [m], shape (3)
   * @param atAircraft velocity [m/s] and rotation [rad/s] of the air there, in H, shape (6), written
   * @param atSocket  velocity of the air at the socket [m/s], in H, shape (3), written
   */
  add(
    time: number,
    p_HoVcm_H: Float64Array,
    p_MoPh_H: Float64Array,
    atAircraft: Float64Array,
    atSocket: Float64Array,
  ): void;
}

export interface ActuatorLimits {
  readonly elevator: SurfaceLimits;
  readonly aileron: SurfaceLimits;
  readonly rudder: SurfaceLimits;
  readonly thrust: { readonly lag: number; readonly least: number; readonly most: number };
}
export interface SurfaceLimits {
  readonly lag: number;
  readonly rate: number;
  readonly travel: number;
}

/** Loads beyond which a run ends "overloaded", and what ends an approach. Limit loads, not ultimate. */
export interface HookonLimits {
  /** Force on the probe along its axis and across it [N]. */
  readonly axialLoad: number;
  readonly sideLoad: number;
  /** Tip travel from rest [m]; pitch and bank while hooked, from trim [rad]. */
  readonly tipTravel: number;
  readonly pitch: number;
  readonly bank: number;
  /** Longest approach, and how long the ring-down is followed after lock [s]. */
  readonly approachTime: number;
  readonly ringTime: number;
  /** Distance of the head from the mouth at which a run without lock is over [m]; default 6. */
  readonly separation?: number;
}

/** What became of an approach; the order is that of the codes in a table. */
export const HOOKON_OUTCOMES = [
  "locked, stable",
  "locked, diverging",
  "half-locked",
  "overloaded",
  "missed",
  "bounced",
  "socket tumbled",
  "jammed",
  "broken away",
  "lost",
] as const;
export type HookonOutcome = (typeof HOOKON_OUTCOMES)[number];
