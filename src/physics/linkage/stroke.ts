import { DomainError } from "../../math/errors.ts";
import { requireFinite, requireLength } from "../../math/require.ts";
import { drivenIndex, poseOf, workFor } from "./assemble.ts";
import { type Linkage, STATE } from "./linkage.ts";
import { createPathEvents, type StrokeEvent } from "./path-events.ts";
import { motionBetween, moveState } from "./place.ts";
import { createWork, evaluateAt, type LinkageWork, settle, turnedOver, worstJoint } from "./settle.ts";
import type { Drive, LinkagePose, PointRef } from "./types.ts";
import { type PathPoint, Walker } from "./walker.ts";

export interface StrokeRequest {
  /** Name of the joint that is the stroke. */
  readonly along: string;
  /** Its values, all rising or all falling [m or rad], at least two. A hinge's may go beyond half a turn. */
  readonly values: readonly number[];
  /** Other drives, held. */
  readonly held?: readonly Drive[];
  /** A point whose standstill is reported: the tip. */
  readonly tip?: PointRef;
  /** Where the branch is chosen, shape (bodies, 7); default the stated pose. The walk to the first value starts there. */
  readonly from?: Float64Array;
}

export type StrokeOutcome = "complete" | "dead point" | "does not close" | "lost";

/** Poses along a stroke, all on the assembly branch of the stated pose. */
export interface Stroke {
  /**
   * "dead point": the drive cannot go beyond `reached`, where its rate of motion is infinite; "does not close": no assembly at the
   * stated pose; "lost": no step short enough stays on the branch, a corner or a crossing.
   */
  readonly outcome: StrokeOutcome;
  readonly linkage: Linkage;
  readonly along: string;
  readonly held: readonly Drive[];
  /** Values with a pose: the first ones that were asked for, shape (n). */
  readonly values: Float64Array;
  /** Shape (n) of states, each of shape (bodies, 7). */
  readonly states: readonly Float64Array[];
  readonly poses: readonly LinkagePose[];
  /** The value where the walk ended. */
  readonly reached: number;
  /** In the order in which they were passed. */
  readonly events: readonly StrokeEvent[];
  /** For "does not close": largest residual [m] and its joint. */
  readonly gap?: { readonly residual: number; readonly joint: string };
  /** Values and states between which the evaluator solves, in the order of the walk. */
  readonly path: readonly { readonly value: number; readonly state: Float64Array }[];
}

/**
 * Poses along a stroke.
 *
 * The joints are closed at the stated pose first, which chooses the branch; then the linkage walks along the branch to the
 * first value and from there through the others. Every pose is closed to rounding.
 *
 * @param linkage  from `createLinkage`
 * @param request  what is driven, over which values
 * @throws {DomainError} if a name is unknown, or the values are fewer than two, not finite or not in order
 * @source own derivation, README eq. 7–9
 * @verified stroke.test.ts; analytic/four-bar, analytic/slider-crank, analytic/spatial-four-bar
 */
export function traceStroke(linkage: Linkage, request: StrokeRequest): Stroke {
  const { values } = request;
  const sense = requireOrdered(values);
  const held = request.held ?? [];
  const full = workFor(linkage, [...held, { joint: request.along, value: values[0] }]);
  const passive = workFor(linkage, held);
  const state = (request.from ?? linkage.stated).slice();
  const found = new Collected(linkage, request, held);
  if (!settle(passive, state) || turnedOver(passive) >= 0) {
    const { joint, residual } = worstJoint(passive);
    const over = turnedOver(passive);
    return found.result("does not close", Number.NaN, [], {
      residual,
      joint: linkage.joints[over >= 0 ? over : joint].name,
    });
  }
  const joint = drivenIndex(linkage, request.along);
  const scout = new Walker(passive, joint, state);
  if (scout.point.rate === 0) return found.result("dead point", scout.point.value, []);
  const turns = nearestTurn(linkage, joint, scout.point.value, values[0]);
  const toFirst = walk(scout, full, turns, values.slice(0, 1), Math.sign(values[0] - scout.point.value - turns), found);
  if (toFirst !== "complete") return found.result(toFirst, found.end, []);
  const walker = new Walker(passive, joint, found.states[0]);
  found.clear();
  found.end = values[0];
  if (walker.point.rate === 0) return found.result("dead point", values[0], []);
  const shift = nearestTurn(linkage, joint, walker.point.value, values[0]);
  const events = createPathEvents(linkage, walker, request);
  const outcome = walk(walker, full, shift, values, sense, found, (length) => events.look(length, shift));
  const reached = outcome === "complete" ? values[values.length - 1] : found.end;
  const passed = events.list.filter((event) => (event.at - reached) * sense <= 0);
  return found.result(outcome, reached, passed);
}

/** Turns to add to a hinge's angle so that the first value is not more than half a turn away. */
function nearestTurn(linkage: Linkage, joint: number, value: number, first: number): number {
  const isAngle = linkage.joints[joint].kind === "hinge";
  return isAngle ? 2 * Math.PI * Math.round((first - value) / (2 * Math.PI)) : 0;
}

function requireOrdered(values: readonly number[]): number {
  requireLength("stroke values", values.length, 2);
  values.forEach((value, at) => {
    requireFinite(`stroke value ${at}`, value);
  });
  const sense = Math.sign(values[1] - values[0]);
  for (let at = 1; at < values.length; at++) {
    if (!((values[at] - values[at - 1]) * sense > 0)) {
      throw new DomainError(`stroke value ${at}`, values[at], "values all rising or all falling");
    }
  }
  return sense;
}

/** What a walk has found so far. */
class Collected {
  readonly linkage: Linkage;
  readonly request: StrokeRequest;
  readonly held: readonly Drive[];
  values: number[] = [];
  states: Float64Array[] = [];
  path: { value: number; state: Float64Array }[] = [];
  end = Number.NaN;

  constructor(linkage: Linkage, request: StrokeRequest, held: readonly Drive[]) {
    this.linkage = linkage;
    this.request = request;
    this.held = held;
  }
  clear(): void {
    this.values = [];
    this.states = [];
    this.path = [];
  }
  result(
    outcome: StrokeOutcome,
    reached: number,
    events: readonly StrokeEvent[],
    gap?: { residual: number; joint: string },
  ): Stroke {
    return {
      outcome,
      linkage: this.linkage,
      along: this.request.along,
      held: this.held,
      values: Float64Array.from(this.values),
      states: this.states,
      poses: this.states.map((state) => poseOf(this.linkage, state)),
      reached,
      events,
      path: this.path,
      ...(gap === undefined ? {} : { gap }),
    };
  }
}

/** Walks through the wanted values in their order; the walker stands before the first of them or on it. */
function walk(
  walker: Walker,
  full: LinkageWork,
  shift: number,
  wanted: readonly number[],
  sense: number,
  found: Collected,
  onStep?: (length: number) => void,
): Exclude<StrokeOutcome, "does not close"> {
  const { point, before } = walker;
  const state = new Float64Array(point.state.length);
  let next = 0;
  const take = (from: PathPoint, length: number): boolean => {
    if (!solveAt(walker, full, from, length, wanted[next], shift, state)) return false;
    found.values.push(wanted[next]);
    found.states.push(state.slice());
    found.path.push({ value: wanted[next], state: state.slice() });
    next++;
    return true;
  };
  if (sense === 0 || Math.abs(wanted[0] - shift - point.value) < 1e-12 * (1 + Math.abs(wanted[0]))) take(point, 0);
  if (sense !== 0) walker.face(sense);
  while (next < wanted.length) {
    const length = walker.advance();
    found.end = point.value + shift;
    if (length === 0) return "lost";
    onStep?.(length);
    const dead = walker.createPoint();
    const isDead = point.rate * sense <= 0;
    const within = isDead ? walker.locate(length, (at) => at.rate * sense, dead) : length;
    const last = isDead ? dead.value : point.value;
    while (next < wanted.length && (wanted[next] - shift - last) * sense <= 0) {
      if (!take(before, within)) return "lost";
    }
    if (next === wanted.length) break;
    if (isDead) {
      found.end = dead.value + shift;
      found.path.push({ value: found.end, state: dead.state.slice() });
      return "dead point";
    }
    found.path.push({ value: point.value + shift, state: point.state.slice() });
  }
  return "complete";
}

/**
 * Pose at one value between a point of the path and the end of the step that begins there.
 * @returns whether it closed on the same stretch of the path
 */
function solveAt(
  walker: Walker,
  full: LinkageWork,
  from: PathPoint,
  length: number,
  value: number,
  shift: number,
  state: Float64Array,
): boolean {
  const drive = full.rows.values.length - 1;
  full.rows.values[drive] = value;
  const target = value - shift - from.value;
  const share = from.rate === 0 ? 0 : Math.min(length, Math.max(0, target / from.rate));
  if (settleNear(walker, full, from, share, length, state)) return true;
  let low = 0;
  let high = length;
  const middle = walker.createPoint();
  for (let pass = 0; pass < 50; pass++) {
    const half = 0.5 * (low + high);
    if (!walker.reach(from, half, middle)) return false;
    if ((middle.value - (value - shift)) * target < 0) low = half;
    else high = half;
    if (pass % 8 === 7 && settleNear(walker, full, from, half, length, state)) return true;
  }
  return settleNear(walker, full, from, 0.5 * (low + high), length, state);
}

function settleNear(
  walker: Walker,
  full: LinkageWork,
  from: PathPoint,
  share: number,
  length: number,
  state: Float64Array,
): boolean {
  const { linkage } = walker;
  moveState(linkage, from.state, from.tangents, share, state);
  if (!settle(full, state, 20)) return false;
  const between = new Float64Array(full.columns);
  motionBetween(linkage, from.state, state, between);
  let along = 0;
  let square = 0;
  for (let k = 0; k < full.columns; k++) {
    along += between[k] * from.tangents[k];
    square += between[k] * between[k];
  }
  const slack = 1e-6 * linkage.size;
  const off = Math.sqrt(Math.max(0, square - along * along));
  return along >= -slack && along <= 1.02 * length + slack && off <= 0.3 * length + slack;
}

/**
 * Pose at any value of a stroke, solved between the points of its path.
 *
 * @param stroke  from `traceStroke`
 * @returns a function of the value and an array for the state, shape (bodies, 7), written; it returns whether the pose closed.
 *          It throws `DomainError` outside the values that have poses and allocates nothing that lasts
 * @source README eq. 7
 * @verified stroke.test.ts: closed to 1e-12 m between grid values, same as the grid on it
 */
export function strokeEvaluator(stroke: Stroke): (value: number, state: Float64Array) => boolean {
  const { linkage, path } = stroke;
  const driven = [...stroke.held.map((drive) => drive.joint), stroke.along].map((name) => drivenIndex(linkage, name));
  const work = createWork(linkage, driven);
  stroke.held.forEach((drive, at) => {
    work.rows.values[at] = drive.value;
  });
  const motion = new Float64Array(work.columns);
  const first = path[0]?.value ?? Number.NaN;
  const last = path[path.length - 1]?.value ?? Number.NaN;
  const sense = Math.sign(last - first);
  return (value, state) => {
    requireLength("state", state.length, STATE * linkage.bodies.length);
    if (!((value - first) * sense >= 0 && (value - last) * sense <= 0)) {
      throw new DomainError(`value of ${stroke.along}`, value, `${first} … ${last}`);
    }
    let low = 0;
    let high = path.length - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((value - path[middle].value) * sense >= 0) low = middle;
      else high = middle;
    }
    const [from, to] = [path[low], path[high]];
    motionBetween(linkage, from.state, to.state, motion);
    moveState(linkage, from.state, motion, (value - from.value) / (to.value - from.value), state);
    work.rows.values[driven.length - 1] = value;
    const closed = settle(work, state, 20);
    evaluateAt(work, state);
    return closed;
  };
}
