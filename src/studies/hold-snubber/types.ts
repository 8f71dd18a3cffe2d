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

/** A lasting oscillation by harmonic balance of all equations of motion, harmonics 0 to 7. */
export interface NoddingCycle {
  readonly frequency_Hz: number;
  readonly snubberAmplitude_m: number;
  readonly tipAmplitude_m: number;
  readonly pitchAmplitude_deg: number;
  /** Stable: motion near it ends in it. By the Floquet multipliers of the orbit, else by the growth on both sides. */
  readonly attracts: boolean;
  readonly orbit: NoddingOrbit | null;
}

/** The same closed by shooting; differences are over the balance, minus 1. */
export interface NoddingOrbit {
  readonly frequency_Hz: number;
  readonly tipAmplitude_m: number;
  /** Largest modulus of the Floquet multipliers without that of the shift along the orbit; stable below 1. */
  readonly largestMultiplier_1: number;
  readonly amplitudeDifference_1: number;
  readonly frequencyDifference_1: number;
}

/** A lasting oscillation of the linear pair with the real law: what the balance gives when only the snubber is nonlinear. */
export interface LinearCycle {
  readonly rate_N_s_m: number;
  readonly frequency_Hz: number;
  readonly tipAmplitude_m: number;
  readonly attracts: boolean;
  /** With harmonics 1, 3, 5, 7; `null` where that balance does not close. */
  readonly harmonics: { readonly frequency_Hz: number; readonly tipAmplitude_m: number } | null;
}

/** Growth by itself of the motion of an amplitude at the tip; a lasting oscillation has 0. */
export interface NoddingGrowth {
  readonly tipAmplitude_m: readonly number[];
  readonly growth_1_s: readonly number[];
  readonly frequency_Hz: readonly number[];
}

/** Integration of the nonlinear pair in time, from one side of the largest cycle, or between rest and reach without one. */
export interface NoddingSimulation {
  readonly side: "below" | "beyond" | "between";
  readonly startAmplitude_m: number;
  readonly outcome: "settles" | "dies out" | "grows" | "does not settle";
  /** Whether it ends as the periodic motions say. */
  readonly agrees: boolean;
  /** Where it settles; `null` when it does not. */
  readonly frequency_Hz: number | null;
  readonly tipAmplitude_m: number | null;
  readonly pitchAmplitude_deg: number | null;
  readonly time_s: number;
  /** Over the cycle that it settles in, minus 1; `null` when it does not settle. */
  readonly amplitudeDifference_1: number | null;
  readonly frequencyDifference_1: number | null;
  /** Time of growth or decay over that by `growth`, minus 1; `null` where there is none. */
  readonly timeDifference_1: number | null;
}

export interface Nodding {
  readonly outcome: "dies out" | "nods" | "nods after an upset" | "grows" | "grows after an upset";
  /** By rising amplitude, within the reach. */
  readonly cycles: readonly NoddingCycle[];
  readonly linear: readonly LinearCycle[];
  readonly growth: NoddingGrowth;
  /** Largest amplitude of the tip that the model reaches, and what ends it: the pair's own limit, maximum lift, or the method. */
  readonly reach_m: number;
  readonly reachEnds: "largest amplitude" | "lift" | "balance";
  /** Bleed above which the smallest motion dies out; `null` when no rate damps it. */
  readonly leastRate_N_s_m: number | null;
  /** Empty where none was run. */
  readonly simulations: readonly NoddingSimulation[];
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
