import { STANDARD_GRAVITY } from "../../physics/bodies/index.ts";
import type { HoldInputs } from "./inputs.ts";
import { intervalsAbove } from "./intervals.ts";
import { airOf, type Operating } from "./operating.ts";
import { PointModel, planeMargin } from "./stability.ts";
import { equivalentAt } from "./sweeps.ts";
import type { ModePlane } from "./types.ts";

const GRID = 36;

export interface SpeedRange {
  readonly from: number;
  readonly to: number;
  /** Whether every criterion of the plane is met at all masses, none of them stalled. */
  readonly met: boolean;
}

/** What was searched of equivalent airspeed [m/s], cut into ranges that meet the criteria of a plane and ranges that do not. */
export interface SpeedBands {
  readonly plane: ModePlane;
  readonly ranges: readonly SpeedRange[];
}

/** Margin of a plane at one airspeed; without trim or beyond the stall −1. */
function marginAt(inputs: HoldInputs, at: Operating, speed: number, plane: ModePlane): number {
  const point: Operating = { ...at, airspeed: { kind: "EAS", value: speed } };
  const model = new PointModel(inputs, point);
  if (!model.trimmed) return -1;
  const air = airOf(point);
  const lift = at.mass.properties.mass * STANDARD_GRAVITY + model.pair.trim.f_onV_byTip_H[2];
  const largest =
    0.5 * air.density * air.trueAirspeed ** 2 * inputs.carried.derivatives.area * inputs.carried.maximumLift;
  return lift > largest ? -1 : planeMargin(inputs, model.modes(model.rates, plane), plane);
}

/** Airspeeds that meet the criteria of a plane over the declared sweep range, ends by bisection. */
export function speedBands(inputs: HoldInputs, points: readonly Operating[], plane: ModePlane): SpeedBands {
  const from = equivalentAt(inputs.sweeps.airspeed.from, points[0]);
  const to = equivalentAt(inputs.sweeps.airspeed.to, points[0]);
  const margin = (speed: number): number => Math.min(...points.map((at) => marginAt(inputs, at, speed, plane)));
  const grid = Array.from({ length: GRID }, (_, i) => from + ((to - from) * i) / (GRID - 1));
  const found = intervalsAbove(grid, grid.map(margin), margin, 0, "linear");
  const ranges: SpeedRange[] = [];
  let end = from;
  for (const band of found) {
    if (band.from > end) ranges.push({ from: end, to: band.from, met: false });
    end = band.to ?? to;
    ranges.push({ from: band.from, to: end, met: true });
  }
  if (end < to) ranges.push({ from: end, to, met: false });
  return { plane, ranges };
}
