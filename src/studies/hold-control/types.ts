/**
 * Result of the part `control` of `hold`: pilot and autopilot in the loop, free, hooked and latched. Plain JSON data; keys end in their unit.
 */

/** How the carried aircraft is held; with aft pins at the boom angle of the condition, and stowed. */
export const ATTACHMENT_STATES = [
  "free",
  "single point",
  "left aft pin",
  "three point",
  "left aft pin, stowed",
  "three point, stowed",
] as const;
export type AttachmentState = (typeof ATTACHMENT_STATES)[number];
/** Whether aft pins hold the aircraft beside the socket. */
export const isLatched = (state: AttachmentState): boolean => state !== "free" && state !== "single point";
/** Whether the boom is up. */
export const isStowed = (state: AttachmentState): boolean => state.endsWith("stowed");
/** Which of the two gain sets works. */
export const GAIN_SETS = ["free", "hooked"] as const;
export type GainSet = (typeof GAIN_SETS)[number];

export const LOOP_NAMES = ["elevator", "aileron", "rudder", "pilot in pitch", "pilot in bank"] as const;
export type LoopName = (typeof LOOP_NAMES)[number];

/** Where a point was: condition, mass, attachment, gain set. */
export interface Place {
  readonly condition: string;
  readonly mass: string;
  readonly state: AttachmentState;
  readonly gains: GainSet;
}

/** Bode curve of L, thinned for a picture. */
export interface LoopCurve {
  readonly omega_rad_s: readonly number[];
  readonly gain_dB: readonly number[];
  /** Unwrapped [deg]. */
  readonly phase_deg: readonly number[];
}

/** One loop, cut at the actuator of its surface, with everything else closed. */
export interface ControlLoop extends Place {
  readonly loop: LoopName;
  /** Functions in the loop. */
  readonly functions: readonly string[];
  /** No root grows faster than the pair's time to double allows, the delay by Padé. */
  readonly stable: boolean;
  /** Roots that grow faster with this loop open and everything else closed. */
  readonly growingRootsOpen: number;
  /** Roots that grow faster with it closed: by Padé, and by the exact count of Nyquist (`null` when unresolved). */
  readonly growingRoots: number;
  readonly growingRootsExact: number | null;
  /** Factors on the gain that bring the loop to the limit of stability; `null` when none within 50 does. */
  readonly gainIncrease_1: number | null;
  readonly gainDecrease_1: number | null;
  /** `null` when |L| never is 1. */
  readonly phaseMargin_deg: number | null;
  readonly delayMargin_s: number | null;
  readonly crossover_rad_s: number | null;
  /** Smallest |1 + L|. */
  readonly closest_1: number;
  /** In the result of the first mass of a condition only. */
  readonly curve: LoopCurve | null;
}

/** A pilot in the loop, besides the margins. */
export interface PilotLoop extends Place {
  readonly axis: "pitch" | "bank";
  /** Where the pilot learnt: equaliser and gain chosen for this state. */
  readonly tunedFor: AttachmentState;
  readonly gain_1: number;
  readonly lead_s: number;
  readonly lag_s: number;
  /** Slope of the open loop at the crossover: −1 is the crossover model. */
  readonly slope_1: number;
  readonly stable: boolean;
  /** Whether something grows without the pilot too. */
  readonly growsWithout: boolean;
  /** Largest |L/(1 + L)| and its frequency; `null` when the loop is not stable. */
  readonly resonance_1: number | null;
  readonly resonanceAt_rad_s: number | null;
  /** Phase delay of the aircraft without the pilot beyond −180°; `null` when its phase does not go there. */
  readonly phaseDelay_s: number | null;
  readonly phase180_rad_s: number | null;
}

/** Roots with a gain set engaged, or without any function. */
export interface ControlledModes {
  readonly condition: string;
  readonly mass: string;
  readonly state: AttachmentState;
  readonly gains: GainSet | "none";
  readonly plane: "longitudinal" | "lateral";
  /** Held by pins that of every oscillation. Else: worst damping ratio of the oscillations below the fastest that a pilot or structure knows; `null` without one. */
  readonly worstDampingRatio: number | null;
  readonly frequency_Hz: number | null;
  /** Shortest time to double of any root; `null` when none grows. */
  readonly timeToDouble_s: number | null;
  readonly meetsCriteria: boolean;
}

/** Smallest lateral damping ratio of all masses along airspeed. */
export interface LateralCurve {
  /** −1 where a real root doubles too fast, `null` without trim. */
  readonly dampingRatio: readonly (number | null)[];
  readonly worst: { readonly value: number; readonly airspeed_m_s_EAS: number; readonly mass: string } | null;
}

/** Worst lateral damping with and without the roll hold, hooked, over airspeeds and masses. */
export interface RollHoldNeed {
  readonly condition: string;
  readonly airspeed_m_s_EAS: readonly number[];
  /** With no function at all. */
  readonly none: LateralCurve;
  /** With the roll hold of the hooked set alone; `null` when the set has none. */
  readonly alone: LateralCurve | null;
  /** With every other function of the hooked set. */
  readonly others: LateralCurve;
}

export const SURFACES = ["elevator", "aileron", "rudder"] as const;

/** What a surface can do in a state: its full travel swung at the crossover that the pilot has in its axis, nothing engaged. */
export interface SurfaceAuthority {
  readonly condition: string;
  readonly mass: string;
  readonly state: AttachmentState;
  readonly surface: (typeof SURFACES)[number];
  /** Amplitude of pitch, bank or yaw. */
  readonly angle_deg: number;
  /** Amplitude of the change of the socket load; 0 when free. */
  readonly load_kN: number;
  /** Less than a tenth of the declared upset in its axis: the surface fights the mechanism, not the motion. */
  readonly movesNothing: boolean;
}

export const FAILURE_KINDS = ["loss", "hard-over", "oscillatory", "wrong gain set"] as const;
export type FailureKind = (typeof FAILURE_KINDS)[number];
export const ACTIONS = ["switch off", "pilot takes over", "release"] as const;
export type RecoveryAction = (typeof ACTIONS)[number];
export const LIMIT_NAMES = ["pitch", "bank", "socket load", "pin load"] as const;
export type LimitName = (typeof LIMIT_NAMES)[number];

export const RECOVERY_OUTCOMES = ["held", "not settled", "limit reached", "too late"] as const;
export type RecoveryOutcome = (typeof RECOVERY_OUTCOMES)[number];

export interface Recovery {
  readonly action: RecoveryAction;
  /** When it begins; a release is complete `release` later. */
  readonly from_s: number;
  /** "not settled": inside every limit, but beyond half of one in the last quarter of the time followed. */
  readonly outcome: RecoveryOutcome;
  /** Time of the limit after the failure, if one is reached. */
  readonly limitAt_s: number | null;
  readonly limit: LimitName | null;
}

/** One failure at one attachment state. */
export interface FailureCase {
  readonly condition: string;
  readonly mass: string;
  readonly state: AttachmentState;
  readonly function: string;
  /** Whether a plane that meets its criteria with the whole set of the state misses them without this function. */
  readonly needed: boolean;
  readonly kind: FailureKind;
  /** Direction of a hard-over, frequency of an oscillation. */
  readonly detail: string;
  /** Share of the declared upset with which it begins: pins bear no more. `null` when it begins at trim. */
  readonly upset_1: number | null;
  /** Time from the failure to the first limit without any action; `null` when none is reached in the time followed. */
  readonly timeToLimit_s: number | null;
  readonly limit: LimitName | null;
  /** Largest share of a limit that was reached [1]. */
  readonly largestShare_1: number;
  readonly recoveries: readonly Recovery[];
  /** Recognition and release together take less than the time to the limit; `null` in free flight. */
  readonly releaseInTime: boolean | null;
  /** Without action and after each: for the case that reaches its limit first of its state and kind. */
  readonly histories: readonly FailureHistory[];
}

export interface FailureHistory {
  readonly action: RecoveryAction | "none";
  readonly time_s: readonly number[];
  readonly pitch_deg: readonly number[];
  readonly bank_deg: readonly number[];
  /** Larger of the changes of the socket load and of the load of a latched pin. */
  readonly load_kN: readonly number[];
  readonly surface_deg: readonly number[];
}

export interface HoldControl {
  readonly padeOrder: number;
  readonly criteria: {
    readonly gainMargin_1: number;
    readonly phaseMargin_deg: number;
    readonly delayMargin_s: number;
    readonly resonance_1: number;
    readonly phaseDelay_s: number;
  };
  readonly failureSettings: {
    readonly recognition_s: number;
    readonly release_s: number;
    readonly duration_s: number;
    readonly pitchLimit_deg: number;
    readonly bankLimit_deg: number;
    readonly loadLimit_kN: number;
  };
  readonly loops: readonly ControlLoop[];
  readonly pilots: readonly PilotLoop[];
  readonly modes: readonly ControlledModes[];
  readonly authority: readonly SurfaceAuthority[];
  readonly rollHold: readonly RollHoldNeed[];
  readonly failures: readonly FailureCase[];
  /** Where there is no balance, so that nothing above exists. */
  readonly noTrim: readonly { readonly condition: string; readonly mass: string; readonly state: AttachmentState }[];
}
