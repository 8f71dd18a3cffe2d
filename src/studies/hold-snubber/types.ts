/**
 * Result of the part `snubber` of `hold`: what the hardware of snubber and accumulator does to the hooked pair.
 *
 * Keys end in their unit. Everything is plain JSON data. Values are at the tip unless a key says jack.
 */

/** A declared value against what the hardware gives. */
export interface Agreement {
  readonly quantity: "C1" | "C2" | "accumulator";
  readonly declared: number;
  readonly hardware: number;
  readonly unit: string;
  /** |hardware − declared| over the larger of the two; 0 when both are 0. */
  readonly difference_1: number;
}

/** One condition, mass and oil temperature. */
export interface SnubberPoint {
  readonly condition: string;
  readonly mass: string;
  readonly temperature: "cold" | "normal" | "hot";
  readonly temperature_degC: number;
  readonly jackLoad_N: number;
  /** Absolute pressure behind the piston. */
  readonly pressure_Pa: number;
  readonly precharge_Pa: number;
  readonly accumulator: "gas" | "bottomed" | "no pressure";
  readonly gasVolume_m3: number;
  readonly accumulatorStiffness_N_m: number;
  readonly slowAccumulatorStiffness_N_m: number;
  readonly shutInOilStiffness_N_m: number;
  readonly C1_N_s_m: number;
  readonly C2_N_s2_m2: number;
  /** At the declared amplitude and frequency. */
  readonly rate_N_s_m: number;
  /** Worst ζ at that rate, and of the smallest motion, with the bleed alone or held fast by friction, whichever is less damped. */
  readonly dampingRatio: number | null;
  readonly smallDampingRatio: number | null;
  readonly nodding: Nodding;
}

/** A lasting oscillation by harmonic balance. */
export interface NoddingCycle {
  readonly rate_N_s_m: number;
  readonly frequency_Hz: number;
  readonly snubberAmplitude_m: number;
  readonly tipAmplitude_m: number;
  readonly pitchAmplitude_deg: number;
  readonly attracts: boolean;
}

/** The last cycle with its odd harmonics 1 to 7. */
export interface NoddingHarmonics {
  readonly frequency_Hz: number;
  /** Largest travel over a cycle. */
  readonly tipAmplitude_m: number;
}

/** The same by integration of the nonlinear pair. */
export interface NoddingSimulation {
  readonly outcome: "settles" | "dies out" | "grows" | "does not settle";
  readonly frequency_Hz: number;
  readonly tipAmplitude_m: number;
  readonly pitchAmplitude_deg: number;
  readonly time_s: number;
  /** Over the balanced amplitude and frequency, with harmonics where those were found, minus 1; `null` when it does not settle. */
  readonly amplitudeDifference_1: number | null;
  readonly frequencyDifference_1: number | null;
}

export interface Nodding {
  readonly outcome: "dies out" | "nods" | "nods after an upset" | "grows" | "grows after an upset";
  /** By rising amplitude, first harmonic. */
  readonly cycles: readonly NoddingCycle[];
  /** Of the last cycle where it attracts; `null` otherwise, or where the balance does not close. */
  readonly harmonics: NoddingHarmonics | null;
  /** Bleed above which the smallest motion dies out; `null` when no rate damps it. */
  readonly leastRate_N_s_m: number | null;
  /** `null` where it was not run. */
  readonly simulation: NoddingSimulation | null;
}

/** Amplitude at the tip against the orifice, by both methods, as built or with neither bleed nor friction. */
export interface AmplitudeCurve {
  readonly condition: string;
  readonly mass: string;
  readonly bleed: "as built" | "orifice alone";
  readonly bleed_N_s_m: number;
  readonly at_N_s2_m2: number;
  readonly C2_N_s2_m2: readonly number[];
  /** `null` where no lasting oscillation attracts. */
  readonly balance_m: readonly (number | null)[];
  readonly simulated: readonly { readonly C2_N_s2_m2: number; readonly tipAmplitude_m: number }[];
}

/** Commanded stroke at one oil temperature; at the jack. */
export interface SlowMotion {
  readonly temperature: "cold" | "normal" | "hot";
  readonly temperature_degC: number;
  readonly viscosity_m2_s: number;
  readonly jackTravel_m: number;
  readonly jackSpeed_m_s: number;
  readonly tipSpeed_m_s: number;
  readonly jackForce_N: number;
  readonly capacityShare_1: number | null;
  readonly reliefOpen: boolean;
  readonly strokeTime_s: number | null;
  readonly bleedReynolds_1: number;
}

/** Force against speed at the jack, as a bench measures it. */
export interface ForceCurve {
  readonly temperature: "cold" | "normal" | "hot";
  readonly temperature_degC: number;
  readonly jackSpeed_m_s: readonly number[];
  readonly jackForce_N: readonly number[];
}

/** A failed state of the snubber. */
export interface FailedState {
  readonly condition: string;
  readonly mass: string;
  readonly state: "valve closed" | "valve open" | "gas lost" | "no fluid";
  readonly outcome: "analysed" | "no balance";
  readonly weightShare_1: number;
  readonly accumulatorStiffness_N_m: number | null;
  readonly dampingRatio: number | null;
  readonly frequency_Hz: number | null;
  /** Of the fastest growing longitudinal motion; `null` when none grows. */
  readonly timeToDouble_s: number | null;
}

/** Worst ζ over C1 × C2, over masses, airspeeds, amplitudes up to the declared one and, where it says so, oil temperatures. */
export interface DesignMap {
  readonly condition: string;
  readonly oil: "normal" | "hot to cold";
  readonly C1_N_s_m: readonly number[];
  readonly C2_N_s2_m2: readonly number[];
  /** Row-major, `worst[i2 * C1.length + i1]`. */
  readonly worst: readonly number[];
  /** Largest C1 with which the cold stroke passes, for each C2; `null` when none does or no capacity is given. */
  readonly slowLimit_N_s_m: readonly (number | null)[];
  readonly at: { readonly C1_N_s_m: number; readonly C2_N_s2_m2: number };
  /** Best combination that passes slow motion; `null` when none passes. */
  readonly best: { readonly C1_N_s_m: number; readonly C2_N_s2_m2: number; readonly dampingRatio: number } | null;
}

export interface SnubberResult {
  readonly agreement: readonly Agreement[];
  readonly points: readonly SnubberPoint[];
  readonly amplitude: readonly AmplitudeCurve[];
  readonly slow: readonly SlowMotion[];
  readonly force: readonly ForceCurve[];
  readonly failed: readonly FailedState[];
  readonly maps: readonly DesignMap[];
}
