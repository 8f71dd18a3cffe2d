/** Exact boundaries of hooked stability. Keys end in their unit; everything is plain JSON data. */
import type { ModeClass } from "../hold/types.ts";

export interface BoundaryAxis {
  /** bending, accumulator, snubber, airspeed, boomAngle. */
  readonly key: string;
  readonly label: string;
  readonly unit: string;
  readonly scale: "linear" | "log";
  /** In `unit`. */
  readonly from: number;
  readonly to: number;
}

/** One piece of an exact curve, in axis units. */
export interface BoundaryCurve {
  /** Which root lies on it: an oscillation at a damping ratio, or a real root at a growth rate [1/s]. */
  readonly kind: "oscillation" | "real root";
  readonly level: number;
  readonly class: ModeClass;
  /** No other rigid-body-type root is below the level: crossing the piece is what decides. */
  readonly border: boolean;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly frequency_Hz: readonly number[];
}

/** Where the lines through the pair's own values cross the borders of a level, nearest on each side. */
export interface BoundaryCrossings {
  readonly level: number;
  readonly along: "x" | "y";
  /** In axis units; `null` when no border is crossed on that side within the map. */
  readonly below: number | null;
  readonly above: number | null;
}

/** How far the drawn curve is from the exact zero, found by bracketed roots along normals of the pair linearised at each place. */
export interface BoundaryCheck {
  readonly places: number;
  /** Largest distance, as a share of the parameters. */
  readonly largestMiss_1: number;
  /** Median distance of the grid's interpolated contour from the exact curve, as a share; `null` where there is none. */
  readonly gridDistance_1: number | null;
}

export interface BoundaryMap {
  readonly id: string;
  readonly title: string;
  readonly condition: string;
  readonly mass: string;
  readonly method: "D-decomposition" | "continuation";
  readonly x: BoundaryAxis;
  readonly y: BoundaryAxis;
  /** Grid that shades the map and checks the curves: places in axis units, worst damping row-major `iy * nx + ix`. */
  readonly grid: { readonly x: readonly number[]; readonly y: readonly number[]; readonly worst: readonly number[] };
  readonly curves: readonly BoundaryCurve[];
  /** The pair itself, in axis units, and its worst damping ratio and number of growing longitudinal roots there. */
  readonly at: { readonly x: number; readonly y: number; readonly worst: number; readonly growing: number };
  /** Signed shortest distance of the pair from the limit of stability, ln of the parameters; `null` without a border. */
  readonly distance_1: number | null;
  readonly crossings: readonly BoundaryCrossings[];
  readonly check: BoundaryCheck | null;
}

/** A map that could not be drawn, and why. */
export interface BoundaryMissing {
  readonly id: string;
  readonly condition: string;
  readonly reason: string;
}

export interface BoundaryResult {
  readonly criterion_1: number;
  readonly maps: readonly BoundaryMap[];
  readonly missing: readonly BoundaryMissing[];
}
