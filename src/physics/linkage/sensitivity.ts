import { workFor } from "./assemble.ts";
import { type Dimension, directChange, type ResolvedPart, resolveDimensions, rowChange } from "./dimensions.ts";
import { coordinate, PARTIALS } from "./joint-rows.ts";
import { jointIndex, type Linkage } from "./linkage.ts";
import { type Measure, measureGradient } from "./measures.ts";
import { factorAt, type LinkageWork } from "./settle.ts";
import type { Drive } from "./types.ts";

export interface Sensitivity {
  /** ∂measure/∂dimension, shape (measures, dimensions) row-major. */
  readonly matrix: Float64Array;
  /**
   * Gap per unit of each dimension that no motion of the bodies closes [m per unit], shape (dimensions): above zero when
   * redundant joints would bind or need play. The derivatives are then those of the least gap.
   */
  readonly gaps: Float64Array;
}

/**
 * Sensitivity of measures to dimensions at a pose, drives held.
 *
 *     J q_x = −∂C/∂x,   dm/dx = ∂m/∂q·q_x + ∂m/∂x                                (README eq. 15)
 *
 * @param linkage     the linkage
 * @param state       a closed state, shape (bodies, 7)
 * @param drives      that hold the pose
 * @param dimensions  what may deviate
 * @param measures    what is asked
 * @throws {DomainError} if a name is unknown or a dimension does not exist
 * @source implicit function theorem; own derivation, README eq. 15
 * @verified sensitivity.test.ts: extrapolated differences of full solutions (rtol 1e-7), closed forms
 */
export function sensitivity(
  linkage: Linkage,
  state: Float64Array,
  drives: readonly Drive[],
  dimensions: readonly Dimension[],
  measures: readonly Measure[],
): Sensitivity {
  const work = workFor(linkage, drives);
  factorAt(work, state);
  const parts = resolveDimensions(linkage, dimensions);
  const gradients = measures.map((measure) => measureGradient(linkage, state, measure));
  const matrix = new Float64Array(measures.length * dimensions.length);
  const gaps = new Float64Array(dimensions.length);
  const change = new Float64Array(work.rows.count);
  const motion = new Float64Array(work.columns);
  parts.forEach((own, d) => {
    rowChange(linkage, work, own, change);
    const gap = work.squares.solve(change, motion);
    gaps[d] = gap > 1e-9 ? gap : 0;
    measures.forEach((measure, m) => {
      let sum = directMeasureChange(linkage, work, own, measure);
      for (let k = 0; k < work.columns; k++) sum -= gradients[m][k] * motion[k];
      matrix[m * dimensions.length + d] = sum;
    });
  });
  return { matrix, gaps };
}

function directMeasureChange(
  linkage: Linkage,
  work: LinkageWork,
  parts: readonly ResolvedPart[],
  measure: Measure,
): number {
  const partials = new Float64Array(PARTIALS);
  if (measure.kind === "coordinate") {
    const index = jointIndex(linkage, measure.joint);
    coordinate(linkage.joints[index], index, work.placed.joints, partials, 0);
    return directChange(linkage, work, parts, index, partials, 0);
  }
  if (measure.kind !== "position" || !("joint" in measure.point)) return 0;
  partials.set(measure.direction, measure.point.on === "first" ? 0 : 6);
  return directChange(linkage, work, parts, jointIndex(linkage, measure.point.joint), partials, 0);
}
