import type { ModeClass, ModePlane } from "../hold/types.ts";

/** Result of the part `carrier` of `hold`: the carrier's own motion, its flow, one gust at both. Plain JSON data. */

/** What is taken of the carrier: nothing, its mass, its rigid motion; its flow as it is at trim, or with gradients. */
export type CarrierModel =
  | "steady"
  | "free mass"
  | "rigid"
  | "steady, uniform flow"
  | "steady, flow with gradients"
  | "rigid, flow with gradients";

export interface CarrierTrim {
  /** Against the carrier's flight path. */
  readonly pitch_deg: number;
  /** Against the air at the aircraft. */
  readonly alpha_deg: number;
  readonly elevator_deg: number;
  readonly towLoad_N: number;
  readonly tipAxialLoad_N: number;
  readonly tipTangentialLoad_N: number;
  readonly jackLoad_N: number;
}

export interface CarrierMode {
  readonly name: string;
  readonly class: ModeClass;
  readonly plane: ModePlane;
  readonly real_1_s: number;
  readonly imag_rad_s: number;
  readonly frequency_Hz: number;
  readonly dampingRatio: number;
  /** Share of the kinetic energy in the carrier's own motion. */
  readonly carrierShare_1: number;
  /** The mode with a steady carrier and no flow that it comes from; `null` for one that the carrier brings. */
  readonly from: string | null;
}

export interface CarrierCase {
  readonly model: CarrierModel;
  /** outside: the aircraft hangs beyond the ends of the flow table. */
  readonly outcome: "trimmed" | "no trim" | "outside";
  readonly trim: CarrierTrim | null;
  readonly modes: readonly CarrierMode[];
}

/** Flow at the carried aircraft's c.g. */
export interface FlowAtAircraft {
  readonly below_m: number;
  readonly downwash_deg: number;
  readonly sidewash_deg: number;
  readonly pressureRatio_1: number;
  readonly downwashGradient_deg_m: number;
  readonly pressureGradient_1_m: number;
}

/** Response to a vertical gust of 1 m/s amplitude, by frequency. */
export interface GustCurve {
  readonly model: "rigid, with lag" | "rigid, without lag" | "steady";
  readonly tension_N_per_m_s: readonly number[];
  readonly shear_N_per_m_s: readonly number[];
  readonly relativePitch_deg_per_m_s: readonly number[];
  readonly loadFactor_1_per_m_s: readonly number[];
  /** Standard deviations in Dryden turbulence of σ_w = 1 m/s (MIL-F-8785C), over the frequencies of the curves. */
  readonly rms: {
    readonly tension_N: number;
    readonly shear_N: number;
    readonly relativePitch_deg: number;
    readonly loadFactor_1: number;
  };
}

export interface GustPenetration {
  /** Carried aircraft's c.g. aft of the carrier's; negative: ahead. */
  readonly distance_m: number;
  readonly lag_s: number;
  readonly frequency_Hz: readonly number[];
  /** Empty when the pair grows by itself. */
  readonly curves: readonly GustCurve[];
}

export interface CarrierPoint {
  readonly pointId: string;
  readonly condition: string;
  readonly mass: string;
  readonly flow: FlowAtAircraft | null;
  readonly cases: readonly CarrierCase[];
  readonly gust: GustPenetration | null;
}

/** The carrier by itself at a condition, nothing on its boom. */
export interface CarrierAlone {
  readonly condition: string;
  readonly liftCoefficient: number;
  readonly thrust_N: number;
  readonly modes: readonly {
    readonly name: string;
    readonly plane: ModePlane;
    readonly real_1_s: number;
    readonly imag_rad_s: number;
    readonly frequency_Hz: number;
    readonly dampingRatio: number;
  }[];
}

export interface CarrierResult {
  readonly alone: readonly CarrierAlone[];
  readonly points: readonly CarrierPoint[];
}
