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
