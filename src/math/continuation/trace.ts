import { DomainError } from "../errors.ts";
import { requireLength, requirePositive, requireSize } from "../require.ts";
import { type CurveWork, correctPoint, createCurveWork, tangentAt } from "./corrector.ts";
import type { CurveEnd, CurveProblem, TracedCurve, TraceOptions } from "./types.ts";

/** Largest turn of the tangent in one step [rad]: a step that turns more may have jumped to another piece. */
const LARGEST_TURN = 0.5;
const SHORTEST_STEP = 1e-7;
/** Newton steps above which the next step is shortened. */
const MANY_STEPS = 5;

/**
 * Follows a curve from a point near it both ways, to the border of the box or until it closes.
 *
 *     F(u) = 0,  F: Rⁿ → Rⁿ⁻¹;   predict u + h·t,  correct on the plane t·(v − u) = h       (README eq. 1–2)
 *
 * The step follows the turn φ of the tangent so that the chord stays within the deviation of the curve, h·φ/8 ≤ deviation
 * (README eq. 3). Folds are passed; an end on the border lies on it to the tolerance.
 *
 * @param problem equations, derivatives and box
 * @param start   point near the curve, inside the box, shape (n)
 * @param options deviation and limits
 * @returns `null` when no point of the curve in the box is found from the start, or its curve is known
 * @throws {DomainError} for a size below 2, arrays that are too short or a deviation that is not positive
 * @source Allgower and Georg, Introduction to Numerical Continuation Methods (2003), chapters 2 and 6; step: README eq. 3
 * @verified continuation.test.ts: circles, folds and ellipses in closed form, chord order two, ends on the border
 */
export function traceCurve(problem: CurveProblem, start: ArrayLike<number>, options: TraceOptions): TracedCurve | null {
  const n = problem.size;
  requireSize("unknowns of a curve", n, 2);
  requireLength("start", start.length, n);
  requireLength("box", Math.min(problem.from.length, problem.to.length), n);
  requirePositive("deviation of a chord", options.deviation);
  const work = createCurveWork(problem, options.tolerance ?? 1e-9);
  const first = Float64Array.from(start);
  const tangent = startTangent(work, first);
  if (tangent === null || outside(problem, first) >= 0 || options.known?.(first)) return null;
  const ahead = followOneWay(work, first, tangent, options);
  if (ahead.end === "closed") return { points: ahead.points, closed: true, ends: ["closed", "closed"] };
  const back = followOneWay(
    work,
    first,
    tangent.map((x) => -x),
    options,
  );
  return {
    points: [...back.points.slice(1).reverse(), ...ahead.points],
    closed: false,
    ends: [back.end, ahead.end],
  };
}

/**
 * Moves the start onto the curve, keeping the unknown that the curve runs along most, and returns the tangent there.
 *
 * Which unknown is kept and the sense of the tangent do not hang on rounding: the first one that runs within a tenth of the most
 * decides, and the tangent points to its larger values.
 */
function startTangent(work: CurveWork, u: Float64Array): Float64Array | null {
  const n = work.problem.size;
  const found: { axis: number; at: Float64Array; tangent: Float64Array }[] = [];
  for (let axis = 0; axis < n; axis++) {
    const row = unit(n, axis);
    const at = u.slice();
    if (correctPoint(work, at, row, u[axis]!) < 0) continue;
    const tangent = new Float64Array(n);
    if (!work.problem.evaluate(at, work.residual, work.derivatives) || !tangentAt(work, row, tangent)) continue;
    found.push({ axis, at, tangent });
  }
  const most = Math.max(...found.map(({ axis, tangent }) => Math.abs(tangent[axis]!)));
  const best = found.find(({ axis, tangent }) => Math.abs(tangent[axis]!) >= 0.9 * most);
  if (best === undefined) return null;
  u.set(best.at);
  return best.tangent;
}

function followOneWay(work: CurveWork, start: Float64Array, startTangent: Float64Array, options: TraceOptions) {
  const { problem } = work;
  const n = problem.size;
  const longest = options.longestStep ?? 0.5;
  const most = options.mostPoints ?? 4000;
  const points: Float64Array[] = [start];
  const tangent = startTangent.slice();
  const next = new Float64Array(n);
  const nextTangent = new Float64Array(n);
  let step = Math.min(options.firstStep ?? 0.02, longest);
  const result = (end: CurveEnd): { points: Float64Array[]; end: CurveEnd } => ({ points, end });
  while (points.length < most) {
    const from = points[points.length - 1]!;
    if (step < SHORTEST_STEP) return result("stuck");
    let plane = step;
    for (let i = 0; i < n; i++) {
      next[i] = from[i]! + step * tangent[i]!;
      plane += tangent[i]! * from[i]!;
    }
    const steps = correctPoint(work, next, tangent, plane);
    if (
      steps < 0 ||
      !problem.evaluate(next, work.residual, work.derivatives) ||
      !tangentAt(work, tangent, nextTangent)
    ) {
      step *= 0.5;
      continue;
    }
    let cosine = 0;
    for (let i = 0; i < n; i++) cosine += tangent[i]! * nextTangent[i]!;
    const turn = Math.acos(Math.min(1, Math.max(-1, cosine)));
    const deviation = (distance(from, next) * turn) / 8;
    if (turn > LARGEST_TURN || deviation > options.deviation) {
      step *= turn > LARGEST_TURN ? 0.5 : inQuarters(Math.max(0.3, 0.9 * Math.sqrt(options.deviation / deviation)));
      continue;
    }
    if (options.middles && !middleNear(work, from, next, options.deviation)) {
      step *= 0.5;
      continue;
    }
    const face = outside(problem, next);
    if (face >= 0) {
      const end = onBorder(work, from, next, face);
      if (end === null) {
        step *= 0.5;
        continue;
      }
      if (distance(end, from) > work.tolerance) points.push(end);
      return result("border");
    }
    if (points.length > 2 && passesStart(start, startTangent, from, next, nextTangent, options.deviation)) {
      points.push(start.slice());
      return result("closed");
    }
    points.push(next.slice());
    tangent.set(nextTangent);
    const growth = deviation > 0 ? 0.9 * Math.sqrt(options.deviation / deviation) : 2;
    step = Math.min(longest, step * inQuarters(Math.min(2, steps > MANY_STEPS ? 0.7 : growth)));
  }
  return result("too many points");
}

/** Whether the curve passes the middle of a chord within a distance; a chord shorter than that does. */
function middleNear(work: CurveWork, a: Float64Array, b: Float64Array, within: number): boolean {
  const length = distance(a, b);
  if (length <= within) return true;
  const middle = a.map((x, i) => 0.5 * (x + b[i]!));
  const along = a.map((x, i) => (b[i]! - x) / length);
  const plane = along.reduce((sum, x, i) => sum + x * middle[i]!, 0);
  const found = middle.slice();
  return correctPoint(work, found, along, plane) >= 0 && distance(found, middle) <= within;
}

/** The next lower power of the fourth root of two: rounding in the turn then leaves no trace in where points lie. */
function inQuarters(factor: number): number {
  return 2 ** (Math.floor(4 * Math.log2(factor)) / 4);
}

/** Index of the unknown that has left the box by most of its width, −1 when none has. */
function outside(problem: CurveProblem, u: Float64Array): number {
  let worst = -1;
  let most = 1e-12;
  for (let i = 0; i < problem.size; i++) {
    const width = problem.to[i]! - problem.from[i]!;
    if (!(width > 0)) throw new DomainError(`width of the box, unknown ${i}`, width, "greater than 0");
    const beyond = Math.max(problem.from[i]! - u[i]!, u[i]! - problem.to[i]!) / width;
    if (beyond > most) {
      most = beyond;
      worst = i;
    }
  }
  return worst;
}

/** Point of the curve on the face through which a step leaves the box; `null` when it is not found. */
function onBorder(work: CurveWork, from: Float64Array, beyond: Float64Array, firstFace: number): Float64Array | null {
  const { problem } = work;
  let face = firstFace;
  const end = from.slice();
  for (let tries = 0; tries < problem.size; tries++) {
    const bound = beyond[face]! > problem.to[face]! ? problem.to[face]! : problem.from[face]!;
    const part = (bound - from[face]!) / (beyond[face]! - from[face]!);
    for (let i = 0; i < end.length; i++) end[i] = from[i]! + part * (beyond[i]! - from[i]!);
    if (correctPoint(work, end, unit(problem.size, face), bound) < 0) return null;
    end[face] = bound;
    const other = outside(problem, end);
    if (other < 0) return end;
    face = other;
  }
  return null;
}

/** Whether a step from a to b passes the start in its own sense. */
function passesStart(
  start: Float64Array,
  startTangent: Float64Array,
  a: Float64Array,
  b: Float64Array,
  tangent: Float64Array,
  deviation: number,
): boolean {
  let along = 0;
  let square = 0;
  let sense = 0;
  for (let i = 0; i < a.length; i++) {
    along += (start[i]! - a[i]!) * (b[i]! - a[i]!);
    square += (b[i]! - a[i]!) ** 2;
    sense += startTangent[i]! * tangent[i]!;
  }
  const part = along / square;
  if (!(part > 0 && part <= 1) || sense < 0.5) return false;
  let miss = 0;
  for (let i = 0; i < a.length; i++) miss += (start[i]! - a[i]! - part * (b[i]! - a[i]!)) ** 2;
  return Math.sqrt(miss) <= 2 * deviation;
}

function unit(n: number, axis: number): Float64Array {
  const row = new Float64Array(n);
  row[axis] = 1;
  return row;
}

function distance(a: Float64Array, b: Float64Array): number {
  let square = 0;
  for (let i = 0; i < a.length; i++) square += (a[i]! - b[i]!) ** 2;
  return Math.sqrt(square);
}

/** Whether a point lies within a distance of the chords of a curve. */
export function liesOnCurve({ points }: TracedCurve, u: ArrayLike<number>, distance: number): boolean {
  const square = distance * distance;
  for (let k = 1; k < points.length; k++) {
    const a = points[k - 1]!;
    const b = points[k]!;
    let along = 0;
    let length = 0;
    for (let i = 0; i < a.length; i++) {
      along += (u[i]! - a[i]!) * (b[i]! - a[i]!);
      length += (b[i]! - a[i]!) ** 2;
    }
    const part = length > 0 ? Math.min(1, Math.max(0, along / length)) : 0;
    let miss = 0;
    for (let i = 0; i < a.length && miss <= square; i++) miss += (u[i]! - a[i]! - part * (b[i]! - a[i]!)) ** 2;
    if (miss <= square) return true;
  }
  return false;
}
