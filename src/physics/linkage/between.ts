import { rotateToParent, rotationMatrix } from "../../math/rotation/index.ts";
import { drivenIndex } from "./assemble.ts";
import { STATE } from "./linkage.ts";
import { poseBetween, withTurns } from "./nodes.ts";
import { createWork, settle } from "./settle.ts";
import { type Stretch, stretchOf } from "./stretch.ts";
import type { Stroke } from "./stroke.ts";

/** Two stretches in place of one, with a solved pose between them; `null` where none closes. */
export type Between = (stretch: Stretch) => readonly [Stretch, Stretch] | null;

/**
 * Divides stretches at poses that are solved half-way.
 * @param stroke  rows and drives
 * @source README eq. 7, 18
 * @verified enclosure.test.ts: coarse nodes
 */
export function createBetween(stroke: Stroke): Between {
  const { linkage } = stroke;
  const driven = [...stroke.held.map(({ joint }) => joint), stroke.along].map((name) => drivenIndex(linkage, name));
  const work = createWork(linkage, driven);
  const state = linkage.stated.slice();
  const rotation = new Float64Array(9);
  const arm = new Float64Array(3);
  const pose = new Float64Array(STATE);
  /** From the reference of a body to its centre, carrier axes, at its attitude in the state. */
  const setArm = (body: number, reference: readonly number[]): void => {
    for (let k = 0; k < 3; k++) arm[k] = linkage.centres[3 * body + k] - reference[k];
    rotationMatrix(state, STATE * body + 3, rotation);
    rotateToParent(rotation, arm, 0, arm, 0);
  };
  return ({ nodes, node, drives }) => {
    const half = drives.map(({ from, to }) => 0.5 * (from + to));
    work.rows.values.set(half);
    nodes.forEach((own, index) => {
      const at = STATE * (index + 1);
      poseBetween(own, node, 0.5, pose);
      state.set(pose, at);
      setArm(index + 1, own.reference);
      for (let k = 0; k < 3; k++) state[at + k] += arm[k];
    });
    if (!settle(work, state, 20)) return null;
    const halves = nodes.map(({ reference, points, attitudes }, index) => {
      const at = STATE * (index + 1);
      setArm(index + 1, reference);
      const middle = arm.map((value, k) => state[at + k] - value);
      const [p, q] = [3 * node, 4 * node];
      return withTurns(
        reference,
        Float64Array.of(...points.subarray(p, p + 3), ...middle, ...points.subarray(p + 3, p + 6)),
        Float64Array.of(
          ...attitudes.subarray(q, q + 4),
          ...state.subarray(at + 3, at + 7),
          ...attitudes.subarray(q + 4, q + 8),
        ),
      );
    });
    const first = drives.map(({ joint, from }, at) => ({ joint, from, to: half[at] }));
    const second = drives.map(({ joint, to }, at) => ({ joint, from: half[at], to }));
    return [stretchOf(halves, 0, first), stretchOf(halves, 1, second)];
  };
}
