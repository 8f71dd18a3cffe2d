import {
  add,
  constantJet,
  divide,
  type Interval,
  type IntervalMatrix,
  type Jet,
  multiplyJets,
  negate,
  plusMinus,
  point,
  roundedUp,
  scaleJet,
  square,
  subtractJets,
} from "../../math/interval/index.ts";
import {
  addBounds,
  type Bounds3,
  crossBounds,
  dotJets,
  largestLength,
  points3,
  scaleBounds,
  subtractBounds,
  sumOfSizes,
  valuesOf,
  widened,
} from "./interval-vectors.ts";
import type { Linkage } from "./linkage.ts";
import { type DriveStretch, driveJets, type PlacedJoint } from "./stretch.ts";

const [AXIS, SIDE, THIRD] = [0, 1, 2];

/**
 * One row in a form without roots and angles, zero at the same poses as that of `joint-rows.ts`:
 *
 *     b − a;  ℓ x·y;  x·(b − a) − v;  (|b − a|² − L²)/2L;  ℓ(cos v e₂·f₁ − sin v e₁·f₁)        (README eq. 19)
 */
type RowForm =
  | { readonly form: "point"; readonly joint: number; readonly k: number }
  | { readonly form: "turn"; readonly joint: number; readonly onFirst: number; readonly onSecond: number }
  | { readonly form: "along"; readonly joint: number; readonly onFirst: number; readonly drive: number }
  | { readonly form: "length"; readonly joint: number; readonly drive: number }
  | { readonly form: "angle"; readonly joint: number; readonly drive: number };

/** Rows in the order of `createRows`: all joints, then the drives. */
export function rowForms(linkage: Linkage, driven: readonly number[]): RowForm[] {
  const forms: RowForm[] = [];
  const point = (joint: number) => forms.push(...[0, 1, 2].map((k): RowForm => ({ form: "point", joint, k })));
  const turn = (joint: number, onFirst: number, onSecond: number) =>
    forms.push({ form: "turn", joint, onFirst, onSecond });
  const parallel = (joint: number) => {
    for (const side of [SIDE, THIRD]) turn(joint, side, AXIS);
  };
  const along = (joint: number, onFirst: number, drive = -1) => forms.push({ form: "along", joint, onFirst, drive });
  linkage.joints.forEach(({ kind }, joint) => {
    if (kind === "ball" || kind === "hinge" || kind === "fixed") point(joint);
    if (kind === "cylindrical" || kind === "slider") for (const side of [SIDE, THIRD]) along(joint, side);
    if (kind !== "ball" && kind !== "rod" && kind !== "jack") parallel(joint);
    if (kind === "slider" || kind === "fixed" || kind === "attitude") turn(joint, THIRD, SIDE);
    if (kind === "planar") along(joint, AXIS);
    if (kind === "rod") forms.push({ form: "length", joint, drive: -1 });
  });
  driven.forEach((joint, drive) => {
    const { kind } = linkage.joints[joint];
    if (kind === "hinge") forms.push({ form: "angle", joint, drive });
    else if (kind === "jack") forms.push({ form: "length", joint, drive });
    else along(joint, AXIS, drive);
  });
  return forms;
}

/** The row along the interpolated motion, with its derivatives by the share. */
export function rowJet(
  linkage: Linkage,
  row: RowForm,
  placed: readonly PlacedJoint[],
  drives: readonly DriveStretch[],
  share: Interval,
): Jet {
  const { gap, axesFirst, axesSecond } = placed[row.joint];
  switch (row.form) {
    case "point":
      return gap[row.k];
    case "turn":
      return scaleJet(linkage.size, dotJets(axesFirst[row.onFirst], axesSecond[row.onSecond]));
    case "along": {
      const offset = dotJets(axesFirst[row.onFirst], gap);
      return row.drive < 0 ? offset : subtractJets(offset, driveJets(drives[row.drive], share).value);
    }
    case "length": {
      const value = row.drive < 0 ? undefined : driveJets(drives[row.drive], share).value;
      const length = point(linkage.lengths[row.joint]);
      const wanted = value === undefined ? constantJet(square(length)) : multiplyJets(value, value);
      const inverse = constantJet(divide(point(0.5), lengthOf(linkage, row, drives)));
      return multiplyJets(subtractJets(dotJets(gap, gap), wanted), inverse);
    }
    case "angle": {
      const { cosine, sine } = driveJets(drives[row.drive], share);
      const y = dotJets(axesFirst[THIRD], axesSecond[SIDE]);
      const x = dotJets(axesFirst[SIDE], axesSecond[SIDE]);
      return scaleJet(linkage.size, subtractJets(multiplyJets(cosine, y), multiplyJets(sine, x)));
    }
  }
}

function lengthOf(linkage: Linkage, row: RowForm & { form: "length" }, drives: readonly DriveStretch[]): Interval {
  return point(row.drive < 0 ? linkage.lengths[row.joint] : drives[row.drive].from);
}

/** A joint over a stretch and a box of small motions about it. */
export interface BoxedJoint {
  readonly armFirst: Bounds3;
  readonly armSecond: Bounds3;
  readonly axesFirst: readonly Bounds3[];
  readonly axesSecond: readonly Bounds3[];
  readonly gap: Bounds3;
}

/** Largest small motions of one body: of its reference point [m], by component, and its turn [rad]. */
export interface BodyBox {
  readonly way: readonly number[];
  readonly turn: number;
}

/** Widens what is placed by the box of every body, the fixed one first: |exp(φ)w − w| ≤ |φ||w|. */
export function boxJoints(linkage: Linkage, placed: readonly PlacedJoint[], boxes: readonly BodyBox[]): BoxedJoint[] {
  return linkage.joints.map(({ first, second }, index) => {
    const { armFirst, armSecond, axesFirst, axesSecond, gap } = placed[index];
    const [a, b] = [boxes[first], boxes[second]];
    const [reachA, reachB] = [largestLength(valuesOf(armFirst)), largestLength(valuesOf(armSecond))];
    const [moreA, moreB] = [roundedUp(a.turn * reachA), roundedUp(b.turn * reachB)];
    const off = (k: number): Interval =>
      plusMinus(roundedUp(roundedUp(moreA + moreB) + roundedUp(a.way[k] + b.way[k])));
    return {
      armFirst: widened(valuesOf(armFirst), moreA),
      armSecond: widened(valuesOf(armSecond), moreB),
      // Axes are of length one to a few roundings.
      axesFirst: axesFirst.map((axis) => widened(valuesOf(axis), 1.001 * a.turn)),
      axesSecond: axesSecond.map((axis) => widened(valuesOf(axis), 1.001 * b.turn)),
      gap: addBounds(valuesOf(gap), [off(0), off(1), off(2)]),
    };
  });
}

const ZERO3 = points3(0, 0, 0);

/** Drives of a stretch and the shares of it that are meant. */
interface DrivesOver {
  readonly list: readonly DriveStretch[];
  readonly share: Interval;
}

/**
 * Derivatives of one row by the small motions, for all shares of a stretch and all motions of the box.
 *
 *     as eq. 5, the turns' part times I + E,  |E| ≤ |φ| for |φ| ≤ 1             (README eq. 20)
 *
 * @param linkage  gives ℓ
 * @param row      which
 * @param joints   boxed
 * @param over     boxes of the bodies, the fixed one first; drives and shares
 * @param out      row of shape (6 · moving bodies), written from `to`
 */
export function rowSlopes(
  linkage: Linkage,
  row: RowForm,
  joints: readonly BoxedJoint[],
  over: { readonly boxes: readonly BodyBox[]; readonly drives: DrivesOver },
  out: IntervalMatrix,
  to: number,
): void {
  const { boxes, drives } = over;
  const columns = 6 * (linkage.bodies.length - 1);
  out.low.fill(0, to, to + columns);
  out.high.fill(0, to, to + columns);
  const { first, second } = linkage.joints[row.joint];
  const joint = joints[row.joint];
  const { onPoint, onTurn } = partials(linkage, row, joint, drives);
  const put = (body: number, arm: Bounds3, onIt: Bounds3, turn: Bounds3): void => {
    if (body === 0) return;
    const at = to + 6 * (body - 1);
    const moment = addBounds(crossBounds(arm, onIt), turn);
    const more = roundedUp(boxes[body].turn * sumOfSizes(moment));
    for (let k = 0; k < 3; k++) {
      const byTurn = divide(add(moment[k], plusMinus(more)), point(linkage.size));
      out.low[at + k] = onIt[k].low;
      out.high[at + k] = onIt[k].high;
      out.low[at + 3 + k] = byTurn.low;
      out.high[at + 3 + k] = byTurn.high;
    }
  };
  put(second, joint.armSecond, onPoint, negated(onTurn.second));
  put(first, joint.armFirst, negated(onPoint), onTurn.first);
}

function negated([x, y, z]: Bounds3): Bounds3 {
  return [negate(x), negate(y), negate(z)];
}

/** Gradients of a row by the second's point (the first's is its opposite) and by turns of the axes; the second's is given negated. */
function partials(
  linkage: Linkage,
  row: RowForm,
  joint: BoxedJoint,
  { list, share }: DrivesOver,
): { readonly onPoint: Bounds3; readonly onTurn: { readonly first: Bounds3; readonly second: Bounds3 } } {
  const { axesFirst, axesSecond, gap } = joint;
  const none = { first: ZERO3, second: ZERO3 };
  const both = (turn: Bounds3) => ({ first: turn, second: turn });
  const size = point(linkage.size);
  switch (row.form) {
    case "point":
      return { onPoint: [0, 1, 2].map((k) => point(k === row.k ? 1 : 0)) as unknown as Bounds3, onTurn: none };
    case "turn": {
      const turn = crossBounds(axesFirst[row.onFirst], axesSecond[row.onSecond]);
      return { onPoint: ZERO3, onTurn: both(scaleBounds(size, turn)) };
    }
    case "along": {
      const along = axesFirst[row.onFirst];
      return { onPoint: along, onTurn: { first: crossBounds(along, gap), second: ZERO3 } };
    }
    case "length":
      return { onPoint: scaleBounds(divide(point(1), lengthOf(linkage, row, list)), gap), onTurn: none };
    case "angle": {
      const { cosine, sine } = driveJets(list[row.drive], share);
      const arm = subtractBounds(scaleBounds(cosine.value, axesFirst[THIRD]), scaleBounds(sine.value, axesFirst[SIDE]));
      return { onPoint: ZERO3, onTurn: both(scaleBounds(size, crossBounds(arm, axesSecond[SIDE]))) };
    }
  }
}
