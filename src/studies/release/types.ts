import type { Withdrawal } from "../../physics/separation/index.ts";

/** How a separation is judged; the first that holds, in this order. */
export const RELEASE_OUTCOMES = ["clean", "hang-up", "touches", "too near", "still held", "no balance"] as const;
export type ReleaseOutcome = (typeof RELEASE_OUTCOMES)[number];

/** Two groups of bodies and how near they come. */
export interface NearestPair {
  readonly carried: string;
  readonly other: string;
}

/** One separation: a case at a pose and a mass, nothing scattered. */
export interface ReleaseCaseResult {
  readonly name: string;
  readonly what: string;
  readonly mass: string;
  readonly boomAngle_deg: number;
  readonly attachment: "three point" | "single point";
  readonly outcome: ReleaseOutcome;
  readonly withdrawal: Withdrawal | null;
  /** From the command until the probe is out or cut, and until the nose was commanded [s]. */
  readonly leftAt_s: number | null;
  readonly noseAt_s: number | null;
  readonly exitSpeed_m_s: number | null;
  readonly exitPitchRate_deg_s: number | null;
  /** Pull along the bore when the nose was commanded, and what friction can hold. */
  readonly offered_N: number | null;
  readonly needed_N: number | null;
  /** Least distance once free, when, and between which bodies. */
  readonly clearance_m: number | null;
  readonly clearanceAt_s: number | null;
  readonly nearest: NearestPair | null;
  /** Largest change of the carrier's load factor and pitch; `null` on a steady carrier. */
  readonly carrierLoadFactor_1: number | null;
  readonly carrierPitch_deg: number | null;
  /** The run left the grid of increments near the carrier, or the pair gives none. */
  readonly proximity: "inside" | "left the grid" | "no data";
  /** Distance of the aircraft from everything, at equal steps of time. */
  readonly course: ReleaseCourse;
}

/** Course for the pictures; places of the c.g. from its place at the command, carrier axes [m]. */
export interface ReleaseCourse {
  readonly time_s: readonly number[];
  readonly aft_m: readonly number[];
  readonly right_m: readonly number[];
  readonly below_m: readonly number[];
  readonly pitch_deg: readonly number[];
  readonly bank_deg: readonly number[];
  readonly distance_m: readonly (number | null)[];
}
