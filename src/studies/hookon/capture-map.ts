import type { MapPlan } from "./inputs.ts";
import { isLatched, type StraightRuns } from "./straight-runs.ts";
import type { CaptureMap } from "./types.ts";

const DEGREES = 180 / Math.PI;

/**
 * Outcome of straight paths over offset and closure, a map for each angle of the path; the offset lies to the right of the axis.
 *
 * @param runs straight runs in still air
 * @param plan largest offset and closure, steps, angles; the smallest offset is 0, the smallest closure one step
 * @source README "Capture map"
 * @verified window.test.ts: a wider funnel captures no less; without centring the funnel tumbles
 */
export function captureMaps(runs: StraightRuns, plan: MapPlan): CaptureMap[] {
  const offsets = Array.from({ length: plan.steps }, (_, i) => (plan.offset * i) / (plan.steps - 1));
  const closures = Array.from({ length: plan.steps }, (_, i) => (plan.closure * (i + 1)) / plan.steps);
  return plan.angles.map((angle) => {
    const outcome = closures.map((closure) =>
      offsets.map((right) => runs.run({ closure, right, up: 0, angle }).outcome),
    );
    const latching = offsets.filter((_, j) => outcome.some((row) => isLatched(row[j])));
    return {
      angle_deg: angle * DEGREES,
      offset_m: offsets,
      closure_m_s: closures,
      outcome,
      captureRadius_m: latching.at(-1) ?? null,
    };
  });
}
