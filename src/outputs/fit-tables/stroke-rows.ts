/** Points of the stroke that are printed. */
import type { StrokePoint } from "../../studies/fit/types.ts";

/** Evenly spread points of the stroke, first and last always among them. */
export function strokeRows(stroke: readonly StrokePoint[], most: number): StrokePoint[] {
  if (stroke.length <= most) return [...stroke];
  const chosen = Array.from({ length: most }, (_, i) => Math.round((i * (stroke.length - 1)) / (most - 1)));
  return chosen.map((i) => stroke[i]!);
}
