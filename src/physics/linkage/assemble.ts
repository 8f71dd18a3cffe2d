import { DomainError } from "../../math/errors.ts";
import { requireFinite } from "../../math/require.ts";
import { rotateToParent, rotationMatrix } from "../../math/rotation/index.ts";
import { coordinate, PARTIALS } from "./joint-rows.ts";
import { jointIndex, type Linkage, STATE } from "./linkage.ts";
import { createPlaced, placeJoints } from "./place.ts";
import { createWork, factorAt, type LinkageWork, settle, turnedOver, worstJoint } from "./settle.ts";
import type { Drive, LinkagePose } from "./types.ts";

/** What became of putting a linkage together. */
export type Assembly =
  | {
      readonly outcome: "assembled";
      /** Solved state, shape (bodies, 7): for the other functions of this folder. */
      readonly state: Float64Array;
      readonly pose: LinkagePose;
      /** Largest residual of a row [m]. */
      readonly residual: number;
      /** Motions that joints and drives leave free: idle turns of rods and bodies, or a dead point. */
      readonly freedoms: number;
      /** Rows that repeat others: redundant joints. */
      readonly redundant: number;
      /** Smallest singular value of the independent rows [1]: towards zero near a dead point. */
      readonly smallestSingularValue: number;
    }
  | {
      readonly outcome: "does not close";
      /** The nearest that was found: least squares of the gaps. */
      readonly state: Float64Array;
      readonly pose: LinkagePose;
      /** Largest gap, or misalignment times ℓ [m]; for a joint that turned over: 0. */
      readonly residual: number;
      /** Joint with the largest gap, or the one whose axes oppose each other. */
      readonly worstJoint: string;
      readonly reason: "gap" | "turned over";
    };

/**
 * Puts a linkage together at given values of its drives.
 *
 * Starts from the stated pose (or `from`) and finds the assembly next to it. Redundant joints are allowed. A drive is a
 * length [m], an angle [rad] or a travel [m].
 *
 * @param linkage  from `createLinkage`
 * @param drives   joints that are held at a value
 * @param from     guess, shape (bodies, 7); default the stated pose
 * @throws {DomainError} if a drive names no joint that can be driven or its value is not finite
 * @source own derivation, README eq. 1–7; line search after Dennis and Schnabel (1983), section 6.3
 * @verified linkage.test.ts: residual below 1e-12 m, frame invariance; analytic/four-bar, analytic/slider-crank,
 *           analytic/spatial-four-bar (positions to 1e-11)
 */
export function assemble(linkage: Linkage, drives: readonly Drive[], from: Float64Array = linkage.stated): Assembly {
  const work = workFor(linkage, drives);
  return assembleWith(work, from);
}

/** Work of a linkage with drives, values set; checks the drives. */
export function workFor(linkage: Linkage, drives: readonly Drive[]): LinkageWork {
  const driven = drives.map(({ joint, value }) => {
    requireFinite(`drive of ${joint}`, value);
    return drivenIndex(linkage, joint);
  });
  driven.forEach((index, at) => {
    if (driven.indexOf(index) !== at)
      throw new DomainError("driven joint", drives[at].joint, "one drive for each joint");
  });
  const work = createWork(linkage, driven);
  drives.forEach(({ value }, at) => {
    work.rows.values[at] = value;
  });
  return work;
}

/** As `assemble`, with work of one's own. */
export function assembleWith(work: LinkageWork, from: Float64Array): Assembly {
  const { linkage, squares } = work;
  const state = from.slice();
  const closed = settle(work, state);
  const pose = poseOf(linkage, state);
  const { residual } = work;
  if (!closed) {
    const { joint } = worstJoint(work);
    return { outcome: "does not close", state, pose, residual, worstJoint: linkage.joints[joint].name, reason: "gap" };
  }
  const over = turnedOver(work);
  if (over >= 0) {
    const worstJoint = linkage.joints[over].name;
    return { outcome: "does not close", state, pose, residual: 0, worstJoint, reason: "turned over" };
  }
  factorAt(work, state);
  return {
    outcome: "assembled",
    state,
    pose,
    residual,
    freedoms: work.columns - squares.rank,
    redundant: work.rows.count - squares.rank,
    smallestSingularValue: squares.smallestSingularValue(),
  };
}

/** Index of a joint that can be driven. @throws {DomainError} otherwise */
export function drivenIndex(linkage: Linkage, name: string): number {
  const index = jointIndex(linkage, name);
  const { kind } = linkage.joints[index];
  if (kind !== "jack" && kind !== "hinge" && kind !== "slider" && kind !== "cylindrical") {
    throw new DomainError(`drive of ${name}`, kind, "a jack, hinge, slider or cylindrical joint");
  }
  return index;
}

/** Origins and attitudes of all bodies for a state, shape (bodies, 7). */
export function poseOf(linkage: Linkage, state: Float64Array): LinkagePose {
  const count = linkage.bodies.length;
  const positions = new Float64Array(3 * count);
  const attitudes = new Float64Array(4 * count);
  const rotation = new Float64Array(9);
  const shift = new Float64Array(3);
  for (let body = 0; body < count; body++) {
    rotationMatrix(state, STATE * body + 3, rotation);
    rotateToParent(rotation, linkage.centres, 3 * body, shift, 0);
    for (let k = 0; k < 3; k++) positions[3 * body + k] = state[STATE * body + k] - shift[k];
    for (let k = 0; k < 4; k++) attitudes[4 * body + k] = state[STATE * body + 3 + k];
  }
  return { positions, attitudes };
}

/**
 * Length of a jack or rod [m], angle of a hinge [rad] or travel of a slider [m] at a state.
 * @throws {DomainError} if the joint has no coordinate
 */
export function coordinateAt(linkage: Linkage, state: Float64Array, joint: string): number {
  const index = jointIndex(linkage, joint);
  const found = linkage.joints[index];
  if (found.kind !== "rod") drivenIndex(linkage, joint);
  const placed = createPlaced(linkage);
  placeJoints(linkage, state, placed);
  return coordinate(found, index, placed.joints, new Float64Array(PARTIALS), 0);
}
