import { rotateToParent, rotationMatrix } from "../../math/rotation/index.ts";
import type { Linkage } from "./linkage.ts";
import { STATE } from "./linkage.ts";
import { coordinateGradient, resolvePoint } from "./motion.ts";
import type { PointRef } from "./types.ts";
import { dot } from "./vectors.ts";
import type { PathPoint, Walker } from "./walker.ts";

/** Something that happens at one value of a stroke. */
export interface StrokeEvent {
  /**
   * "branch crossing": two assembly branches meet, the linkage may go either way, and play decides; "jack dead point": a jack
   * that is not the stroke stands still while the linkage moves, so that it cannot move it; "tip dead point": the tip stands
   * still while the drive moves.
   */
  readonly kind: "branch crossing" | "jack dead point" | "tip dead point";
  /** Value of the stroke. */
  readonly at: number;
  /** The jack. */
  readonly joint?: string;
  /** Smallest singular value of the independent rows there [1]. */
  readonly smallestSingularValue: number;
  readonly state: Float64Array;
}

/** A branch crossing is one only if the rows really lose rank there; otherwise the rows that were watched did. */
const SINGULAR = 1e-3;

/** Looks at each step of a walk for passages through zero. */
export interface PathEvents {
  readonly list: readonly StrokeEvent[];
  /**
   * @param length  of the step that ended at the walker's point [m]
   * @param shift   what to add to the walker's value
   */
  look(length: number, shift: number): void;
}

/**
 * Watches the orientation of the path, the rates of all jacks that are not the stroke, and the direction of the tip.
 * @param linkage  the linkage
 * @param walker   stands at the start
 * @param request  the stroke's joint and the tip
 * @source own derivation, README section "Stroke"
 * @verified stroke.test.ts
 */
export function createPathEvents(
  linkage: Linkage,
  walker: Walker,
  request: { readonly along: string; readonly tip?: PointRef },
): PathEvents {
  const list: StrokeEvent[] = [];
  const jacks = linkage.joints.flatMap((joint, at) =>
    joint.kind === "jack" && joint.name !== request.along ? [at] : [],
  );
  const jackRate = (point: PathPoint, jack: number): number => {
    const gradient = coordinateGradient(linkage, point.state, jack);
    let rate = 0;
    for (let k = 0; k < gradient.length; k++) rate += gradient[k] * point.tangents[k];
    return rate;
  };
  const found = walker.createPoint();
  const report = (kind: StrokeEvent["kind"], shift: number, joint?: string) => {
    const smallestSingularValue = walker.singularValueAt(found.state);
    if (kind === "branch crossing" && !(smallestSingularValue < SINGULAR)) return;
    const state = found.state.slice();
    const common = { kind, at: found.value + shift, smallestSingularValue, state };
    list.push(joint === undefined ? common : { ...common, joint });
  };
  const tipVelocity = (point: PathPoint): Float64Array => velocityOf(linkage, point, request.tip);
  return {
    list,
    look(length, shift) {
      const { before, point } = walker;
      if (before.orientation * point.orientation < 0) {
        walker.locate(length, (at) => at.orientation, found);
        report("branch crossing", shift);
      }
      for (const jack of jacks) {
        if (!(jackRate(before, jack) * jackRate(point, jack) < 0)) continue;
        walker.locate(length, (at) => jackRate(at, jack), found);
        report("jack dead point", shift, linkage.joints[jack].name);
      }
      if (request.tip === undefined) return;
      const first = tipVelocity(before);
      if (!(dot(first, 0, tipVelocity(point), 0) < 0)) return;
      walker.locate(length, (at) => dot(first, 0, tipVelocity(at), 0), found);
      report("tip dead point", shift);
    },
  };
}

/** Velocity of a point per metre of the path's motion [1], shape (3). */
function velocityOf(linkage: Linkage, point: PathPoint, tip: PointRef | undefined): Float64Array {
  const velocity = new Float64Array(3);
  if (tip === undefined) return velocity;
  const { body, fromCentre } = resolvePoint(linkage, tip);
  if (body === 0) return velocity;
  const rotation = new Float64Array(9);
  const arm = new Float64Array(3);
  rotationMatrix(point.state, STATE * body + 3, rotation);
  rotateToParent(rotation, fromCentre, 0, arm, 0);
  const m = 6 * (body - 1);
  const t = point.tangents;
  const [wx, wy, wz] = [3, 4, 5].map((k) => t[m + k] / linkage.size);
  velocity[0] = t[m] + wy * arm[2] - wz * arm[1];
  velocity[1] = t[m + 1] + wz * arm[0] - wx * arm[2];
  velocity[2] = t[m + 2] + wx * arm[1] - wy * arm[0];
  return velocity;
}
