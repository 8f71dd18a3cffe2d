import type { HoldInputs } from "./inputs.ts";
import { intervalsAbove } from "./intervals.ts";
import type { Operating } from "./operating.ts";
import { dampingRatio } from "./points.ts";
import { PointModel } from "./stability.ts";
import { equivalentAt } from "./sweeps.ts";
import type { ModePlane } from "./types.ts";

const GRID = 36;

/** Ranges of equivalent airspeed [m/s] in which a plane meets every criterion at all given masses. */
export interface SpeedBands {
  readonly plane: ModePlane;
  readonly from: number;
  readonly to: number;
  readonly bands: readonly { readonly from: number; readonly to: number }[];
}

/**
 * Smallest margin of the modes of a plane against their criteria, in units of damping ratio; negative when one is
 * not met. A real root counts by its growth against the growth that the time to double allows.
 */
export function planeMargin(inputs: HoldInputs, model: PointModel, plane: ModePlane): number {
  if (!model.trimmed) return -1;
  const { rigidBodyDamping, structuralDamping, timeToDouble } = inputs.criteria;
  let margin = 1;
  for (const mode of model.modes()) {
    if (mode.plane !== plane) continue;
    const limit = mode.class === "structural" ? structuralDamping.value : rigidBodyDamping.value;
    const own =
      mode.imag === 0 ? Math.LN2 / timeToDouble.value - mode.real : dampingRatio(mode.real, mode.imag) - limit;
    margin = Math.min(margin, own);
  }
  return margin;
}

/** Airspeeds that meet the criteria of a plane over the declared sweep range, ends by bisection. */
export function speedBands(inputs: HoldInputs, points: readonly Operating[], plane: ModePlane): SpeedBands {
  const from = equivalentAt(inputs.sweeps.airspeed.from, points[0]);
  const to = equivalentAt(inputs.sweeps.airspeed.to, points[0]);
  const margin = (speed: number): number =>
    Math.min(
      ...points.map((at) =>
        planeMargin(inputs, new PointModel(inputs, { ...at, airspeed: { kind: "EAS", value: speed } }), plane),
      ),
    );
  const grid = Array.from({ length: GRID }, (_, i) => from + ((to - from) * i) / (GRID - 1));
  const found = intervalsAbove(grid, grid.map(margin), margin, 0, "linear");
  const bands = found.map((band) => ({ from: band.from, to: band.to ?? to }));
  return { plane, from, to, bands };
}
