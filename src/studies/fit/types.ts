/**
 * Result of the study `fit`: does every pose clear, on the ground and in the air, and when may gear and doors move?
 *
 * Keys end in their unit. Everything is plain JSON data. Points are [FS, BL, WL] in carrier stations (FS aft, BL right,
 * WL up) unless a name says otherwise. Parts are named `body.shape` ("carried.wing", "mainDoorRight.door").
 */
import type { Finding, Limit } from "../finding/types.ts";

/** [FS, BL, WL] in carrier stations. */
export type Station3 = readonly [number, number, number];
/** A polyline in the plane of a picture; the names of the picture say which coordinates. */
export type Line2 = readonly (readonly [number, number])[];

/** How the part moves. */
export type PartOwner = "carrier" | "gear" | "mechanism" | "carried";

export interface FitPart {
  /** `body.shape`. */
  readonly name: string;
  readonly body: string;
  readonly owner: PartOwner;
  /** Group of a moving carrier part; `null` for the others. */
  readonly group: string | null;
  /** Not solid: nearness is "in the zone", not contact. */
  readonly zone: boolean;
  readonly triangles: number;
  /** Bound of the distance between drawn shape and mesh, taken off every clearance. */
  readonly facetingError_m: number;
  /** What is wrong with the surface, in words; empty for a sound solid. */
  readonly faults: readonly string[];
}

/** A body's place: its origin, and its attitude [w, x, y, z] from body axes to carrier axes (x forward, y right, z down). */
export interface BodyPlace {
  readonly body: string;
  readonly position_m: Station3;
  readonly attitude: readonly [number, number, number, number];
}

/** Force of the drive for one mass and share of the weight: positive pushes its ends apart. */
export interface JackLoad {
  readonly mass: string;
  readonly weightShare_1: number;
  /** `null` at a dead point of the jack. */
  readonly load_N: number | null;
}

export interface StrokePoint {
  readonly boomAngle_deg: number;
  readonly jackLength_m: number;
  /** From stowed. */
  readonly jackTravel_m: number;
  /** Tip travel per jack travel; `null` at a dead point of the jack. */
  readonly tipPerJack_1: number | null;
  /** Smaller of jack and coupler; see the next two. */
  readonly transmissionAngle_deg: number;
  readonly jackTransmissionAngle_deg: number;
  /** Between carried aircraft and aft yoke; `null` at single point. */
  readonly couplerTransmissionAngle_deg: number | null;
  readonly jackLoads: readonly JackLoad[];
  readonly poses: readonly BodyPlace[];
  /** Nose up. */
  readonly carriedPitch_deg: number;
  readonly socket_m: Station3;
  /** By mass state. */
  readonly cg: readonly { readonly mass: string; readonly at_m: Station3 }[];
  /** Pitch of the carried aircraft from the tolerances of the mechanism; `null` when the stack could not be made. */
  readonly attitudeError_deg: { readonly worst: number; readonly rss: number } | null;
}

export interface StrokeEventResult {
  readonly kind: "dead point" | "lost" | "branch crossing" | "jack dead point" | "tip dead point";
  readonly boomAngle_deg: number;
  readonly joint: string | null;
}

export type ClearanceState = "clear" | "near" | "contact" | "unresolved" | "in the zone" | "outside the zone";

/** "moving": along the whole stroke. "static": at rest at one end of it, for pairs that are near there. */
export type ClearanceKind = "static" | "moving";

export interface PairClearance {
  readonly pair: readonly [string, string];
  readonly kind: ClearanceKind;
  readonly zone: boolean;
  /**
   * Certified bounds of the least clearance between this angle and the next one, faceting taken off the lower bound; the last
   * entry is the last pose itself; at rest the only one. Groups where they stand while the boom moves
   * (`groups`), at rest stowed as drawn.
   */
  readonly alongStroke: readonly {
    readonly boomAngle_deg: number;
    readonly lower_m: number;
    readonly upper_m: number;
  }[];
  /** Least clearance along the stroke, certified: faceting taken off, stack not yet. */
  readonly least_m: number;
  readonly at: { readonly boomAngle_deg: number; readonly pointA: Station3; readonly pointB: Station3 };
  /** At the two ends of the stroke, faceting taken off. */
  readonly atEnds_m: { readonly stowed: number; readonly extended: number };
  /** Least clearance less the stack (build, deflection, thermal …). */
  readonly leastAfterStack_m: { readonly worst: number; readonly rss: number };
  readonly criterion: { readonly value_m: number; readonly source: string } | null;
  readonly state: ClearanceState;
}

export type MapState = "free" | "near" | "collides" | "unresolved";

export interface MapNode {
  readonly fraction_1: number;
  readonly boomAngle_deg: number;
}

/** One move of a path: one thing moves, the other stands. */
export interface MapMove {
  readonly moves: "boom" | "group";
  readonly from: MapNode;
  readonly to: MapNode;
  /** Certified least clearance of the move, faceting taken off; with a held member no more than near is looked for. */
  readonly leastClearance_m: number;
  readonly words: string;
}

export interface MapPath {
  /** One sentence each, in order. */
  readonly steps: readonly string[];
  readonly moves: readonly MapMove[];
  /** Corners of the path, first to last. */
  readonly nodes: readonly MapNode[];
  /** Certified along the whole path, faceting taken off, stack not; and the pair that sets it. */
  readonly leastClearance_m: number;
  readonly leastPair: readonly [string, string] | null;
  /** Length in steps of the grid. */
  readonly length: number;
  /** Whether it leads through cells that are near. */
  readonly throughNear: boolean;
}

/** A set of free and near cells that hang together. */
export interface MapRegion {
  readonly cells: number;
  readonly freeCells: number;
  readonly fractions_1: readonly [number, number];
  readonly boomAngles_deg: readonly [number, number];
  readonly holdsStart: boolean;
  readonly holdsEnd: boolean;
}

/**
 * Group × stroke map. A cell reaches half a step to either side of its node (fraction, angle), so that the cells cover
 * everything; its state holds for the whole cell, proven by the motion bound.
 */
export interface GearMap {
  /** `<group>` or `<group>.<member>-held-<fraction>`. */
  readonly id: string;
  readonly title: string;
  readonly group: string;
  /** Member that does not move with the others; `null` for the nominal map. */
  readonly held: { readonly body: string; readonly fraction_1: number } | null;
  /** Where the other groups stand. */
  readonly others: readonly { readonly group: string; readonly standsAt_1: number }[];
  readonly fractions: readonly number[];
  readonly boomAngles_deg: readonly number[];
  /** Row-major: `state[iAngle * fractions.length + iFraction]`. */
  readonly state: readonly MapState[];
  /** Index into `pairs` of the pair that is nearest in the cell, same order as `state`; −1 where every pair is beyond near. */
  readonly leastPair: readonly number[];
  readonly pairs: readonly (readonly [string, string])[];
  readonly near_m: number;
  readonly counts: Readonly<Record<MapState, number>>;
  readonly regions: readonly MapRegion[];
  /** Boom angles at which the group may move through its whole travel: no cell of the row collides or is unresolved. */
  readonly groupMayMove_deg: readonly (readonly [number, number])[];
  /** Fractions of the group at which the boom may move through its whole stroke. */
  readonly boomMayMove_1: readonly (readonly [number, number])[];
  /** Number of each cell's region in `regions`, −1 for cells that collide or are unresolved; order of `state`. */
  readonly regionOf: readonly number[];
  /** From (retracted, stowed) to (extended, extended); `null` when there is none. */
  readonly path: MapPath | null;
  readonly wayBack: MapPath | null;
  /** Why there is no path. */
  readonly noPathBecause: string | null;
}

export interface ToleranceContributor {
  readonly dimension: string;
  readonly tolerance_m: number;
  readonly derivative_deg_mm: number;
  readonly contribution_deg: number;
  readonly shareOfSquares_1: number;
  readonly shareOfWorst_1: number;
}

/** Attitude of the carried aircraft against every dimension of the mechanism, at one pose. */
export interface ToleranceResult {
  readonly pose: string;
  readonly boomAngle_deg: number;
  readonly worst_deg: number;
  readonly rss_deg: number;
  readonly monteCarlo: {
    readonly samples: number;
    readonly seed: number;
    readonly notClosed: number;
    readonly standardDeviation_deg: number;
    readonly within99_73_deg: number;
    readonly largest_deg: number;
  };
  /** Largest first. */
  readonly contributors: readonly ToleranceContributor[];
}

export type GroundStateName = "static" | "flat tyre" | "bottomed strut" | "flat tyre and bottomed strut";

export interface GroundState {
  readonly name: GroundStateName;
  /** WL of the ground line. */
  readonly groundLine_m: number;
  /** Least of everything above the ground, stowed, and where. Negative: below the ground. */
  readonly clearance_m: number;
  readonly at: { readonly part: string; readonly point: Station3 };
  /** Of every body along the stroke: least height above the ground. */
  readonly alongStroke: readonly {
    readonly boomAngle_deg: number;
    readonly clearance_m: number;
    readonly part: string;
  }[];
  readonly parts: readonly { readonly part: string; readonly clearance_m: number; readonly point: Station3 }[];
  /** Largest nose-up angle about the main wheel contact, by pose. */
  readonly rotationLimits: readonly RotationLimit[];
  /** `null` without an aft c.g.; negative when the c.g. lies behind the contact. */
  readonly tipBack_deg: number | null;
}

export interface RotationLimit {
  /** "stowed", "stuck at 33°", "stuck extended"; "…, empty" without the carried aircraft. */
  readonly pose: string;
  readonly boomAngle_deg: number;
  /** `null` when nothing lies aft of the contact; 0 when something is already on or below the ground. */
  readonly limit_deg: number | null;
  readonly part: string | null;
  readonly point: Station3 | null;
}

export interface LoadingStep {
  readonly name: string;
  /** Forward travel of the dolly left to go. */
  readonly aftOfStowed_m: number;
  /** Height of the carried aircraft's WL 0 above the ground. */
  readonly height_m: number;
  readonly leastClearance_m: number;
  readonly pair: readonly [string, string] | null;
  readonly pointA: Station3 | null;
  readonly pointB: Station3 | null;
}

export interface LoadingResult {
  /** Least height by which the carrier has to be raised so that everything passes with the margin; `null` when none up to the limit does. */
  readonly requiredJacking_m: number | null;
  readonly margin_m: number;
  /** With the required jacking. */
  readonly steps: readonly LoadingStep[];
  /** Pair that sets the height. */
  readonly governing: readonly [string, string] | null;
  /** Without jacking: least clearance of the way in. */
  readonly unraisedClearance_m: number;
}

export interface ZoneResult {
  readonly zone: string;
  readonly part: string;
  readonly inside: boolean;
  /** Stretches of the stroke in which the part is in the zone. */
  readonly angles_deg: readonly (readonly [number, number])[];
  readonly least_m: number;
  readonly at_boomAngle_deg: number;
}

export type PoseName = "stowed" | "mid" | "extended";

export interface Silhouette {
  readonly part: string;
  readonly owner: PartOwner;
  readonly zone: boolean;
  /** FS–WL outlines, closed. */
  readonly elevation: readonly Line2[];
  /** FS–BL outlines, closed. */
  readonly plan: readonly Line2[];
  /** BL–WL cut at the FS of the carried c.g.; empty where the plane misses. */
  readonly section: readonly Line2[];
}

export interface PosePicture {
  readonly pose: PoseName;
  readonly boomAngle_deg: number;
  /** Where the section is cut. */
  readonly sectionFS_m: number;
  readonly parts: readonly Silhouette[];
}

export interface FitResult {
  readonly study: "fit";
  /** Name of the variant, or the base's name. */
  readonly variant: string;
  readonly parts: readonly FitPart[];
  readonly strokeOutcome: "complete" | "dead point" | "does not close" | "lost";
  readonly stroke: readonly StrokePoint[];
  readonly strokeEvents: readonly StrokeEventResult[];
  /** Angle against fraction of every moving carrier part. */
  readonly gear: readonly {
    readonly body: string;
    readonly group: string;
    readonly fractions: readonly number[];
    readonly angles_deg: readonly number[];
  }[];
  /** Fraction at which each group stands while the boom moves: 1 where it is in the way as drawn and not when extended. */
  readonly groups: readonly { readonly group: string; readonly standsAt_1: number }[];
  readonly clearances: readonly PairClearance[];
  /** Gear and door parts against each other and against what the boom carries: along the fraction, boom stowed. */
  readonly gearClearances: readonly {
    readonly pair: readonly [string, string];
    readonly group: string;
    readonly alongFraction: readonly {
      readonly fraction_1: number;
      readonly lower_m: number;
      readonly upper_m: number;
    }[];
    readonly least_m: number;
    readonly at: { readonly fraction_1: number; readonly pointA: Station3; readonly pointB: Station3 };
    readonly state: ClearanceState;
  }[];
  /** Pairs that were not looked at, and why. */
  readonly leftOut: readonly { readonly pair: readonly [string, string]; readonly because: string }[];
  readonly maps: readonly GearMap[];
  readonly tolerance: readonly ToleranceResult[];
  readonly stack: {
    readonly terms: readonly { readonly name: string; readonly value_m: number }[];
    readonly worst_m: number;
    readonly rss_m: number;
  };
  /** `null` when the pair says nothing about the ground. */
  readonly ground: {
    readonly mainContact_m: readonly [number, number];
    readonly states: readonly GroundState[];
  } | null;
  /** `null` when the pair says nothing about loading. */
  readonly loading: LoadingResult | null;
  readonly zones: readonly ZoneResult[];
  readonly pictures: readonly PosePicture[];
  readonly findings: readonly Finding[];
  readonly limits: readonly Limit[];
  readonly assumptions: readonly string[];
  readonly notAnalysed: readonly string[];
}

/** What was computed, before it is judged: everything but findings and limits. */
export type ComputedFit = Omit<FitResult, "findings" | "limits">;
