/**
 * Result of the study `hold`: is the hooked pair stable, which stiffness and snubber does it need?
 *
 * Keys end in their unit. Everything is plain JSON data.
 */
import type { Finding, Limit } from "../finding/types.ts";

export type ModeClass = "rigid-body-type" | "structural";
export type ModePlane = "longitudinal" | "lateral";

/** Share of a mode's energy by motion; the shares add up to 1. */
export type EnergyShares = Readonly<Record<string, number>>;

export interface Mode {
  /** Dominant motion, e.g. "heave" or "coupled heave–pitch"; unique inside a point. */
  readonly name: string;
  /** Energy share of the motion (or of the two motions) in `name`. */
  readonly share: number;
  readonly class: ModeClass;
  readonly plane: ModePlane;
  readonly real_1_s: number;
  /** ≥ 0; 0 for a real root. */
  readonly imag_rad_s: number;
  /** |imag|/2π; 0 for a real root. */
  readonly frequency_Hz: number;
  /** −real/|λ|; ±1 for a real root. */
  readonly dampingRatio: number;
  readonly timeToHalf_s: number | null;
  readonly timeToDouble_s: number | null;
  readonly cyclesToHalf: number | null;
  /** Kinetic energy by motion. */
  readonly energy: EnergyShares;
  /** Strain energy by spring of the boom; all 0 when nothing is strained. */
  readonly strain: EnergyShares;
}

export interface HoldTrim {
  readonly alpha_deg: number;
  readonly elevator_deg: number;
  /** 0 for a pair that is symmetric about its middle plane. */
  readonly aileron_deg: number;
  readonly rudder_deg: number;
  /** Force on the aircraft by the tip: forward, up. */
  readonly towLoad_N: number;
  readonly lift_N: number;
  readonly supportLoad_N: number;
  /** On the tip by the aircraft: along the boom away from the hinge, and normal to it (down and forward positive). */
  readonly tipAxialLoad_N: number;
  readonly tipTangentialLoad_N: number;
  readonly jackLoad_N: number;
  readonly unloadedBoomAngle_deg: number;
  readonly liftCoefficient: number;
  /** 1 − CL/CLmax; negative when stalled. */
  readonly stallMargin: number;
}

export interface HoldPoint {
  readonly id: string;
  readonly condition: string;
  readonly mass: string;
  readonly airspeed_m_s_EAS: number;
  readonly airspeed_m_s_TAS: number;
  readonly altitude_m: number;
  readonly density_kg_m3: number;
  readonly boomAngle_deg: number;
  readonly weightShare_1: number;
  readonly bendingStiffness_N_m: number;
  readonly accumulatorStiffness_N_m: number;
  readonly snubberRate_N_s_m: number;
  readonly outcome: "trimmed" | "no trim" | "stalled";
  readonly trim: HoldTrim | null;
  readonly modes: readonly Mode[];
}

/** One mode followed along a sweep; arrays have the length of `values`, NaN-free, `null` where the mode does not exist. */
export interface SweepTrack {
  readonly name: string;
  readonly class: ModeClass;
  readonly plane: ModePlane;
  readonly real_1_s: readonly (number | null)[];
  readonly imag_rad_s: readonly (number | null)[];
  readonly dampingRatio: readonly (number | null)[];
}

export interface Sweep {
  /** airspeed, boomAngle, altitude, weightShare, mass, snubber, bending, accumulator. */
  readonly id: string;
  readonly title: string;
  readonly axis: { readonly label: string; readonly unit: string; readonly scale: "linear" | "log" };
  readonly condition: string;
  readonly mass: string;
  /** In `axis.unit`. */
  readonly values: readonly number[];
  /** The value of the pair itself, in `axis.unit`. */
  readonly at: number;
  readonly tracks: readonly SweepTrack[];
}

/** A map of the worst damping ratio of the oscillatory rigid-body-type modes. */
export interface StabilityMap {
  readonly id: string;
  readonly title: string;
  readonly condition: string;
  readonly mass: string;
  readonly x: { readonly label: string; readonly unit: string; readonly values: readonly number[] };
  readonly y: { readonly label: string; readonly unit: string; readonly values: readonly number[] };
  readonly plane: ModePlane;
  /** Row-major, `worst[iy * nx + ix]`. */
  readonly worst: readonly number[];
  /** Curves of equal worst damping ratio, in axis units. */
  readonly boundaries: readonly {
    readonly level: number;
    readonly lines: readonly (readonly (readonly [number, number])[])[];
  }[];
  readonly marks: readonly { readonly label: string; readonly x: number; readonly y: number }[];
}

/** Worst ζ over the speed band against the snubber rate. */
export interface SnubberCurve {
  readonly mass: string;
  readonly rate_N_s_m: readonly number[];
  readonly worstDampingRatio: readonly number[];
  readonly optimum: { readonly rate_N_s_m: number; readonly dampingRatio: number; readonly atAirspeed_m_s_EAS: number };
  readonly at_N_s_m: number;
}

export interface StiffnessInterval {
  readonly from_N_m: number;
  /** `null` means up to rigid. */
  readonly to_N_m: number | null;
}

/** Tangential stiffness without snubber. */
export interface StiffnessNeed {
  readonly mass: string;
  readonly criterion_1: number;
  readonly stable: readonly StiffnessInterval[];
  readonly meetsCriterion: readonly StiffnessInterval[];
  /** Above it every value up to rigid meets the criterion; `null` when not even rigid does. */
  readonly headline_N_m: number | null;
  /** Where an oscillation changes between rigid-body type and structural, and so its criterion. */
  readonly classChanges_N_m: readonly number[];
  /** Worst ζ of the oscillatory rigid-body-type modes. */
  readonly curve: { readonly stiffness_N_m: readonly number[]; readonly worstDampingRatio: readonly number[] };
}

/** Time from the stated upset to the stated limit, nonlinear simulation, controls fixed. */
export interface PilotTime {
  readonly pointId: string;
  readonly plane: ModePlane;
  readonly outcome: "limit reached" | "stays inside" | "diverged elsewhere";
  readonly time_s: number | null;
  /** ln(limit/upset)/σ of the fastest growing mode; null when none grows. */
  readonly linearEstimate_s: number | null;
  readonly upset_deg: number;
  readonly limit_deg: number;
  readonly history: { readonly time_s: readonly number[]; readonly angle_deg: readonly number[] };
}

export interface HoldResult {
  readonly study: "hold";
  /** Name of the variant, or the base's name. */
  readonly variant: string;
  readonly points: readonly HoldPoint[];
  readonly sweeps: readonly Sweep[];
  readonly maps: readonly StabilityMap[];
  readonly snubber: readonly SnubberCurve[];
  readonly stiffness: readonly StiffnessNeed[];
  readonly pilotTime: readonly PilotTime[];
  readonly findings: readonly Finding[];
  readonly limits: readonly Limit[];
  readonly assumptions: readonly string[];
  readonly notAnalysed: readonly string[];
}
