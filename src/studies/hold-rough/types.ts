/**
 * Result of the part "rough air" of `hold`: how rough may the air be while the aircraft is hooked at one point?
 *
 * Plain JSON data. A quantity's numbers are in its own `unit`; all other keys end in their unit.
 */
import type { SpectrumForm, TurbulenceDocument } from "../../physics/turbulence/types.ts";

export type QuantityKey =
  | "tension"
  | "shear"
  | "sideLoad"
  | "towLoad"
  | "jackTravel"
  | "tipNormal"
  | "tipSide"
  | "pitch"
  | "bank"
  | "loadFactor"
  | "sideLoadFactor"
  | "incidence";

/** Band in which a quantity must stay; an open end is `null`. */
export interface RoughAirLimit {
  readonly lower: number | null;
  readonly upper: number | null;
  readonly source: string;
}

export interface RoughAirQuantity {
  readonly key: QuantityKey;
  readonly title: string;
  readonly unit: string;
  /** At trim. */
  readonly mean: number;
  /** Standard deviation per 1 m/s of σ. */
  readonly deviationPerSigma: number;
  /** Upward crossings of the mean. */
  readonly crossings_1_s: number;
  readonly limit: RoughAirLimit | null;
  /** Largest σ at which this limit alone holds with the stated probability; 0 when trim lies outside; `null` without limit. */
  readonly largestSigma_m_s: number | null;
}

/** One quantity in turbulence of one intensity. */
export interface RoughAirLevelRow {
  readonly key: QuantityKey;
  readonly deviation: number;
  /** Passed on either side, lower and upper together, with the stated probability in the time hooked. */
  readonly lower: number;
  readonly upper: number;
  /** Exits from the band of the limit. */
  readonly exits_1_h: number | null;
}

export interface RoughAirLevel {
  readonly name: string;
  readonly origin: "project" | "chart";
  readonly sigma_m_s: number;
  /** Probability that any limit is passed in the time hooked. */
  readonly probability_1: number;
  readonly rows: readonly RoughAirLevelRow[];
}

export interface RoughAirAnswer {
  /** Largest σ at which all limits together hold with the stated probability. */
  readonly sigma_m_s: number;
  /** Quantity whose own limit gives way first. */
  readonly limiting: QuantityKey;
  /** Strongest severity of the chart that is not above σ; `null` outside the chart. */
  readonly severity: string | null;
  /** Probability of the chart that the air is rougher than σ where it is turbulent at all; `null` outside the chart. */
  readonly exceedance_1: number | null;
}

export interface RoughAirGustRow {
  readonly key: QuantityKey;
  readonly direction: "vertical" | "lateral";
  readonly gradient_m: number;
  readonly time_s: number;
  /** Largest distance from trim, either way. */
  readonly distance: number;
  /** Share of the room between trim and the nearer limit. */
  readonly share_1: number | null;
  /** Distance at each gradient of the scan, in the worse direction. */
  readonly byGradient: readonly number[];
}

export interface RoughAirGusts {
  readonly reference_m_s_EAS: number;
  readonly alleviation_1: number;
  readonly gradients_m: readonly number[];
  readonly rows: readonly RoughAirGustRow[];
}

export interface RoughAirCheckRow {
  readonly key: QuantityKey;
  readonly computed: number;
  readonly simulated: number;
  /** The linear model in the same gusts. */
  readonly linear: number;
  /** Standard deviation of the simulated value by the length of the histories, over the value. */
  readonly samplingError_1: number;
}

export interface RoughAirCheck {
  readonly outcome: "completed" | "left" | "too stiff to simulate";
  readonly sigma_m_s: number;
  readonly seeds: number;
  /** All histories together. */
  readonly time_s: number;
  readonly rows: readonly RoughAirCheckRow[];
  /** Largest difference between Lyapunov's equation and the integral of the spectra, over the value; at least the integral's tolerance. */
  readonly integralDifference_1: number;
}

export interface RoughAirPoint {
  readonly id: string;
  readonly condition: string;
  readonly mass: string;
  readonly outcome: "stationary" | "grows without rough air" | "no trim";
  /** Time in which the fastest growing motion doubles; `null` when nothing grows. */
  readonly timeToDouble_s: number | null;
  readonly quantities: readonly RoughAirQuantity[];
  readonly levels: readonly RoughAirLevel[];
  readonly answer: RoughAirAnswer | null;
  /** Probability of passing a limit in the time hooked, by σ: any limit, and each alone. */
  readonly probability: {
    readonly sigma_m_s: readonly number[];
    readonly any_1: readonly number[];
    readonly alone_1: Readonly<Record<string, readonly number[]>>;
  };
  /** Exits per hour in the design turbulence by the share of the way from trim to the limit. */
  readonly exceedance: {
    readonly share_1: readonly number[];
    readonly perHour: Readonly<Record<string, readonly number[]>>;
  };
  /** At σ = 1 m/s, one-sided. */
  readonly spectra: {
    readonly frequency_Hz: readonly number[];
    readonly pitch_deg2_Hz: readonly number[];
    readonly bank_deg2_Hz: readonly number[];
    readonly tip_mm2_Hz: readonly number[];
  };
  readonly gusts: RoughAirGusts | null;
  readonly check: RoughAirCheck | null;
}

export interface RoughAirCondition {
  readonly condition: string;
  readonly height_m: number;
  readonly Lu_m: number;
  readonly Lv_m: number;
  readonly Lw_m: number;
  /** Intensities of the chart at this altitude; `null` outside it. */
  readonly severities: {
    readonly light_m_s: number;
    readonly moderate_m_s: number;
    readonly severe_m_s: number;
    readonly source: string;
  } | null;
}

export interface RoughAirResult {
  readonly document: TurbulenceDocument;
  readonly spectrum: SpectrumForm;
  readonly timeHooked_s: number;
  readonly probability_1: number;
  readonly design: { readonly name: string; readonly sigma_m_s: number };
  readonly conditions: readonly RoughAirCondition[];
  readonly points: readonly RoughAirPoint[];
}
