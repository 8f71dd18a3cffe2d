import { rotateToParent, rotationMatrix } from "../../math/rotation/index.ts";
import { coordinate, PARTIALS } from "./joint-rows.ts";
import { bodyIndex, GEOMETRY, jointIndex, type Linkage, POINT_FIRST, POINT_SECOND, STATE } from "./linkage.ts";
import { coordinateGradient, resolvePoint } from "./motion.ts";
import { createPlaced, motionBetween, placeJoints } from "./place.ts";
import type { PointRef, Vector3 } from "./types.ts";

/** A number that depends on the pose and whose deviation is wanted. */
export type Measure =
  /** Turn of a body about an axis from its nominal attitude [rad], by the right hand; the axis in carrier axes, length one. */
  | { readonly kind: "turn"; readonly body: string; readonly axis: Vector3 }
  /** Displacement of a point along a direction [m], in carrier axes, length one. */
  | { readonly kind: "position"; readonly point: PointRef; readonly direction: Vector3 }
  /** Length of a jack or rod [m], angle of a hinge [rad], travel of a slider [m]. */
  | { readonly kind: "coordinate"; readonly joint: string };

/** Derivative of a measure with respect to the motions of all bodies, shape (6 · moving bodies). */
export function measureGradient(linkage: Linkage, state: Float64Array, measure: Measure): Float64Array {
  if (measure.kind === "coordinate") return coordinateGradient(linkage, state, jointIndex(linkage, measure.joint));
  const gradient = new Float64Array(6 * (linkage.bodies.length - 1));
  if (measure.kind === "turn") {
    const body = bodyIndex(linkage, measure.body);
    if (body > 0)
      measure.axis.forEach((value, k) => {
        gradient[6 * (body - 1) + 3 + k] = value / linkage.size;
      });
    return gradient;
  }
  const { body, fromCentre } = resolvePoint(linkage, measure.point);
  if (body === 0) return gradient;
  const arm = new Float64Array(3);
  const rotation = new Float64Array(9);
  rotationMatrix(state, STATE * body + 3, rotation);
  rotateToParent(rotation, fromCentre, 0, arm, 0);
  const m = 6 * (body - 1);
  const n = measure.direction;
  for (let k = 0; k < 3; k++) {
    const [i, j] = [(k + 1) % 3, (k + 2) % 3];
    gradient[m + k] = n[k];
    gradient[m + 3 + k] = (arm[i] * n[j] - arm[j] * n[i]) / linkage.size;
  }
  return gradient;
}

/** Evaluates measures again and again without allocating. */
export interface MeasureReader {
  /**
   * @param linkage  nominal or deviated
   * @param state    shape (bodies, 7)
   * @param out      measures less their nominal values, written from `offset`
   */
  read(linkage: Linkage, state: Float64Array, out: Float64Array, offset: number): void;
}

/**
 * Reader of measures as deviations from a nominal pose.
 * @param nominal   the undisturbed linkage
 * @param state     its closed state, shape (bodies, 7)
 * @param measures  what is asked
 * @throws {DomainError} if a name is unknown
 * @source definition of `Measure`
 * @verified sensitivity.test.ts
 */
export function createMeasureReader(
  nominal: Linkage,
  state: Float64Array,
  measures: readonly Measure[],
): MeasureReader {
  const placed = createPlaced(nominal);
  const motion = new Float64Array(6 * (nominal.bodies.length - 1));
  const partials = new Float64Array(PARTIALS);
  const point = new Float64Array(3);
  const resolved = measures.map((measure) => {
    if (measure.kind === "coordinate") return { index: jointIndex(nominal, measure.joint), from: 0, fromCentre: point };
    if (measure.kind === "turn") return { index: bodyIndex(nominal, measure.body), from: 0, fromCentre: point };
    const { body, fromCentre } = resolvePoint(nominal, measure.point);
    const of = "joint" in measure.point ? jointIndex(nominal, measure.point.joint) : -1;
    const side = "joint" in measure.point && measure.point.on === "second" ? POINT_SECOND : POINT_FIRST;
    return { index: body, from: of < 0 ? -1 : GEOMETRY * of + side, fromCentre };
  });
  const value = (m: number, linkage: Linkage, at: Float64Array): number => {
    const measure = measures[m];
    const { index, from, fromCentre } = resolved[m];
    if (measure.kind === "coordinate") return coordinate(linkage.joints[index], index, placed.joints, partials, 0);
    if (measure.kind === "turn") {
      if (index === 0) return 0;
      const k = 6 * (index - 1) + 3;
      const { axis } = measure;
      return (axis[0] * motion[k] + axis[1] * motion[k + 1] + axis[2] * motion[k + 2]) / linkage.size;
    }
    const { direction } = measure;
    if (from >= 0) {
      const g = placed.joints;
      return direction[0] * g[from] + direction[1] * g[from + 1] + direction[2] * g[from + 2];
    }
    rotateToParent(placed.rotations[index], fromCentre, 0, point, 0);
    const p = STATE * index;
    return (
      direction[0] * (point[0] + at[p]) + direction[1] * (point[1] + at[p + 1]) + direction[2] * (point[2] + at[p + 2])
    );
  };
  const base = new Float64Array(measures.length);
  const read = (linkage: Linkage, at: Float64Array, out: Float64Array, offset: number) => {
    placeJoints(linkage, at, placed);
    motionBetween(linkage, state, at, motion);
    for (let m = 0; m < measures.length; m++) {
      const measure = measures[m];
      let change = value(m, linkage, at) - base[m];
      if (measure.kind === "coordinate" && linkage.joints[resolved[m].index].kind === "hinge") {
        change -= 2 * Math.PI * Math.round(change / (2 * Math.PI));
      }
      out[offset + m] = change;
    }
  };
  const first = new Float64Array(measures.length);
  read(nominal, state, first, 0);
  base.set(first);
  return { read };
}
