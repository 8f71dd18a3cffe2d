import { type HoldInputs, type Operating, PointModel, pathBoundary } from "../hold/index.ts";
import { buildMap, shade } from "./build-map.ts";
import { type MapAxis, snubberAxis, stiffnessAxis } from "./map-axes.ts";
import type { BoundaryMap } from "./types.ts";

const GRID = 33;

/** Evenly spaced places of an axis, in map lengths. */
export function evenly({ toLength, from, to }: MapAxis, count: number): number[] {
  const [a, b] = [toLength(from), toLength(to)];
  return Array.from({ length: count }, (_, i) => (i === count - 1 ? b : a + ((b - a) * i) / (count - 1)));
}

/** Maps of stiffness and snubber rate at one operating point, by D-decomposition; none without trim. */
export function pathMaps(inputs: HoldInputs, at: Operating, further: readonly number[]): BoundaryMap[] {
  const model = new PointModel(inputs, at);
  if (!model.trimmed) return [];
  return (["accumulator", "bending"] as const).map((along) => {
    const axes = [stiffnessAxis(inputs, at, along), snubberAxis(inputs, at)] as const;
    const modesAt = (x: number, y: number) =>
      model.modes(model.ratesWith({ [along]: axes[0].toValue(x), snubber: axes[1].toValue(y) }), "longitudinal");
    const [xs, ys] = [evenly(axes[0], GRID), evenly(axes[1], GRID)];
    const worst = ys.flatMap((y) => xs.map((x) => shade(inputs, modesAt(x, y))));
    const ranges = { stiffness: axes[0], snubber: axes[1] };
    return buildMap(
      inputs,
      at,
      {
        id: `${along}-snubber`,
        title:
          along === "bending" ? "Boom bending stiffness and snubber rate" : "Accumulator stiffness and snubber rate",
        method: "D-decomposition",
        ...{ axes, modesAt, grid: { x: xs, y: ys, worst } },
        pieces: (level, limit) => pathBoundary(inputs, model, along, ranges, level, limit),
      },
      further,
    );
  });
}
