import type { Withdrawal } from "../../physics/separation/index.ts";
import type { Finding, Limit } from "../finding/types.ts";
import type { Line2 } from "../fit/types.ts";

/** How a separation is judged; "not analysed": it left the grid of increments near the carrier before anything touched. */
export const RELEASE_OUTCOMES = [
  "clean",
  "hang-up",
  "touches",
  "too near",
  "still held",
  "not analysed",
  "no balance",
] as const;
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

/** Outlines of the other bodies and of the aircraft at a few times, carrier axes turned to a picture: aft, right, up from the boom hinge [m]. */
export interface SeparationStrip {
  readonly case: string;
  readonly mass: string;
  readonly still: { readonly side: readonly Line2[]; readonly rear: readonly Line2[] };
  readonly frames: readonly {
    readonly time_s: number;
    readonly side: readonly Line2[];
    readonly rear: readonly Line2[];
  }[];
}

/** Share of clean releases with its two-sided interval. */
export interface CleanShare {
  readonly count: number;
  readonly of: number;
  readonly share_1: number;
  readonly lower_1: number;
  readonly upper_1: number;
}

/** Releases drawn in one turbulence with one loading. */
export interface ReleaseBatch {
  readonly key: string;
  readonly sigma: string;
  readonly sigma_m_s: number;
  readonly mass: string;
  readonly samples: number;
  readonly outcomes: readonly { readonly outcome: ReleaseOutcome; readonly count: number }[];
  readonly clean: CleanShare;
  /** Least distance once free, of those that came free. */
  readonly clearance_m: { readonly p05: number; readonly p50: number; readonly p95: number } | null;
  readonly exitSpeed_m_s: { readonly p05: number; readonly p50: number; readonly p95: number } | null;
  /** Distance from everything over time; only times at which nine of ten are free. */
  readonly band: {
    readonly time_s: readonly number[];
    readonly p05_m: readonly number[];
    readonly p50_m: readonly number[];
    readonly p95_m: readonly number[];
  };
}

/** From where to where a normal release is clean with one loading, one quantity at a time. */
export interface ReleaseEdge {
  readonly mass: string;
  readonly quantity: "airspeed" | "thrust";
  /** Least airspeed [m/s EAS] or largest thrust [N]; `null`: clean nowhere in the range. */
  readonly limit: number | null;
  readonly unit: "m/s EAS" | "N";
  /** The whole range is clean: the limit is its end, not an edge. */
  readonly wholeRange: boolean;
  /** What ends it. */
  readonly because: ReleaseOutcome | null;
}

/** Outcome of the normal release over airspeed and load factor. */
export interface ReleaseEnvelope {
  readonly mass: string;
  readonly airspeed_m_s_EAS: readonly number[];
  readonly loadFactor_1: readonly number[];
  /** Row for each load factor, column for each airspeed. */
  readonly outcome: readonly (readonly ReleaseOutcome[])[];
  readonly clearance_m: readonly (readonly (number | null)[])[];
}

/** What is left after a partial release, and how it goes on. */
export interface HangUpState {
  readonly left: string;
  readonly mass: string;
  readonly outcome: "balanced" | "no balance";
  readonly bank_deg: number | null;
  readonly socketLoad_N: number | null;
  readonly pins: readonly { readonly name: string; readonly tension_N: number; readonly lateral_N: number }[];
  /** The root that grows fastest, or decays slowest; time to double where it grows. */
  readonly worstMode: string | null;
  readonly dampingRatio_1: number | null;
  readonly timeToDouble_s: number | null;
  readonly waysOut: readonly { readonly way: string; readonly outcome: ReleaseOutcome }[];
}

/** Where a thing comes down, from below the place of release: along the track and to its right. */
export interface JettisonFall {
  readonly thing: string;
  readonly height_m: number;
  readonly terminal_m_s: number;
  readonly still: Landing;
  readonly inWind: Landing;
  /** Footprint in winds up to that of the pair from any direction: centre and half axes along and across the track. */
  readonly footprint: {
    readonly along_m: number;
    readonly right_m: number;
    readonly halfAlong_m: number;
    readonly halfRight_m: number;
  };
}
export interface Landing {
  readonly along_m: number;
  readonly right_m: number;
  readonly time_s: number;
  readonly speed_m_s: number;
}

/** What a cut leaves on the aircraft. */
export interface StubResult {
  readonly length_m: number;
  /** Least distance of the stub's end from the other bodies as the cut aircraft leaves; `null`: not free, or no bodies. */
  readonly clearance_m: number | null;
  /** Height of the stub's end above the aircraft's own lowest point, level; negative: it touches the ground first. */
  readonly aboveLowest_m: number | null;
}

/** Time that one way out takes. */
export interface PathTime {
  readonly path: string;
  readonly mass: string;
  readonly command_s: number | null;
  readonly free_s: number | null;
  /** Until the aircraft is farther from everything than its criterion, for good. */
  readonly clear_s: number | null;
  readonly outcome: ReleaseOutcome;
}

/** What the carrier feels in the normal release. */
export interface CarrierAnswer {
  readonly mass: string;
  /** Balance of forces at the same angle of attack: README of `physics/separation`, eq. 11. */
  readonly closedForm_1: number | null;
  readonly loadFactor_1: number | null;
  readonly pitch_deg: number | null;
  /** Pitching moment about the c.g. that ends with the load of the boom, nose up positive, for the crew or the autopilot to trim. */
  readonly trimMoment_N_m: number | null;
  readonly time_s: readonly number[];
  readonly loadFactorCourse_1: readonly number[];
  readonly pitchCourse_deg: readonly number[];
}

export interface ReleaseCriteria {
  readonly clearance_m: number;
  readonly exitSpeed_m_s: number;
  readonly exitPitchRate_deg_s: number;
  readonly clean_1: number;
  readonly confidence_1: number;
  readonly carrierLoadFactor_1: number;
}

export interface ReleaseResult {
  readonly study: "release";
  readonly variant: string;
  readonly point: {
    readonly condition: string;
    readonly airspeed_m_s_EAS: number;
    readonly altitude_m: number;
    readonly boomAngles_deg: readonly number[];
    readonly masses: readonly string[];
  };
  readonly seed: number;
  readonly design: string;
  readonly criteria: ReleaseCriteria;
  readonly cases: readonly ReleaseCaseResult[];
  readonly edges: readonly ReleaseEdge[];
  readonly envelopes: readonly ReleaseEnvelope[];
  /** The case nearest to its criterion within the envelope that is clean; `null`: none is clean. */
  readonly limiting: string | null;
  readonly batches: readonly ReleaseBatch[];
  readonly hangUps: readonly HangUpState[];
  readonly jettison: readonly JettisonFall[];
  readonly stub: StubResult | null;
  readonly paths: readonly PathTime[];
  readonly carrier: readonly CarrierAnswer[];
  readonly strips: readonly SeparationStrip[];
  readonly findings: readonly Finding[];
  readonly limits: readonly Limit[];
  readonly assumptions: readonly string[];
  readonly notAnalysed: readonly string[];
}

/** The study before it is judged. */
export type ComputedRelease = Omit<ReleaseResult, "findings" | "limits">;
