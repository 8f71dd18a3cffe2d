/** Result of the part `attachment` of `hold`: what holds the carried aircraft in which state, and from which pose on it must. */
import type { Mode, ModePlane } from "../hold/types.ts";

/** Who holds the carried aircraft. */
export const ATTACHMENT_STATES = [
  "free",
  "single point",
  "single point, socket",
  "left aft pin",
  "right aft pin",
  "three point",
  "three point, in clearance",
] as const;
export type AttachmentState = (typeof ATTACHMENT_STATES)[number];

/** Loads of a state with latched pins; forces on the carried aircraft. */
export interface AttachmentLoads {
  readonly socketForward_N: number;
  readonly socketUp_N: number;
  /** By pin: tension of its leg, load on its leg to the right, force on the aircraft upwards. */
  readonly pins: readonly {
    readonly name: string;
    readonly tension_N: number;
    readonly lateral_N: number;
    readonly up_N: number;
  }[];
  /** What socket and pins carry of the weight [1]. */
  readonly weightShare_1: number;
}

/** One state at one mass and boom angle. */
export interface StatePoint {
  readonly condition: string;
  readonly mass: string;
  readonly boomAngle_deg: number;
  readonly state: AttachmentState;
  readonly outcome: "trimmed" | "no trim";
  readonly pitch_deg: number | null;
  readonly bank_deg: number | null;
  readonly elevator_deg: number | null;
  readonly loads: AttachmentLoads | null;
  readonly modes: readonly Mode[];
}

/** Least damping ratio of each state along the stroke; `null` where it has no trim or no oscillation in the plane. */
export interface StrokeDamping {
  readonly condition: string;
  readonly mass: string;
  readonly boomAngle_deg: readonly number[];
  readonly states: readonly {
    readonly state: AttachmentState;
    readonly longitudinal: readonly (number | null)[];
    readonly lateral: readonly (number | null)[];
  }[];
}

/**
 * Least damping ratio at single point over boom angle and airspeed, of the oscillations of rigid-body type and of structural ones
 * that grow; a real root by its growth against what is allowed.
 */
export interface PoseMap {
  readonly condition: string;
  readonly mass: string;
  readonly plane: ModePlane;
  readonly boomAngle_deg: readonly number[];
  readonly airspeed_m_s_EAS: readonly number[];
  /** Row-major, `worst[speed * angles + angle]`. */
  readonly worst: readonly number[];
  /** Boundary ζ = 0 as pairs [deg, m/s]. */
  readonly boundary: readonly (readonly (readonly [number, number])[])[];
}

/** Where single-point stability is lost as the boom comes up. */
export type LossOutcome = "lost" | "stable throughout" | "unstable extended";

/** One uncertain value and how far it moves the boundary. */
export interface BoundaryDriver {
  readonly path: string;
  /** Boom angle of the boundary with the value low and high [deg]; `null` where the pair is unstable extended. */
  readonly low_deg: number | null;
  readonly high_deg: number | null;
  /** Share of the asked deviation that was possible [1]: a body of uncertain inertia must still be one. */
  readonly reached_1: number;
}

/** From which boom angle on the aft pins must be latched, as far as one plane decides it. */
export interface RetractRule {
  readonly condition: string;
  readonly plane: ModePlane;
  readonly outcome: LossOutcome;
  /** Largest boom angle at which stability is lost, over masses and airspeeds of the band; `null` unless lost. */
  readonly nominal_deg: number | null;
  readonly mass: string | null;
  readonly airspeed_m_s_EAS: number | null;
  /** Root-sum-square of what each uncertain value moves it to larger angles; `null` when one makes it unstable extended. */
  readonly uncertainty_deg: number | null;
  readonly deviations: number;
  readonly margin_deg: number;
  /** Sum, rounded up to a whole degree: the boom stays below this line (at larger angles) until the pins are latched. */
  readonly rule_deg: number | null;
  readonly drivers: readonly BoundaryDriver[];
}

/** A steady oscillation inside and beyond the clearance of the pins, with no load on them in the mean. */
export interface LimitCycle {
  readonly condition: string;
  readonly mass: string;
  readonly boomAngle_deg: number;
  readonly plane: ModePlane;
  readonly outcome: "none" | "found" | "no trim" | "no clearance";
  /** Stable: motion grows towards it from inside, and decays towards it from outside. */
  readonly stable: boolean | null;
  readonly frequency_Hz: number | null;
  /** Largest travel of a pin over its clearance [1], and that travel. */
  readonly travelOverClearance_1: number | null;
  readonly travel_mm: number | null;
  /** Largest amplitude of the fundamental of a pin's load [N]. */
  readonly pinLoad_N: number | null;
  /** The nonlinear motion in time without friction in the socket; `null` when it was not run. */
  readonly inTime: CycleInTimeResult | null;
  /** The same with the dry friction of the socket; `null` when the pair states none. */
  readonly withFriction: CycleInTimeResult | null;
}

/** Motion in time, begun somewhat larger than the predicted oscillation; measured over its last cycles. */
export interface CycleInTimeResult {
  /** "dies out": the pins end inside their clearance. */
  readonly outcome: "persists" | "dies out" | "diverged";
  readonly frequency_Hz: number;
  readonly travel_mm: number;
  readonly pinLoad_N: number;
  readonly history: { readonly time_s: readonly number[]; readonly travel_mm: readonly number[] };
}

export interface AttachmentResult {
  readonly states: readonly StatePoint[];
  readonly stroke: readonly StrokeDamping[];
  readonly maps: readonly PoseMap[];
  readonly rules: readonly RetractRule[];
  readonly limitCycles: readonly LimitCycle[];
}
