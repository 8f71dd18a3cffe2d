import { createRows, evaluateRows, type Rows, rowMatrix } from "./joint-rows.ts";
import { LeastSquares } from "./least-squares.ts";
import { AXES_FIRST, AXES_SECOND, GEOMETRY, type Linkage, ROWS } from "./linkage.ts";
import { createPlaced, moveState, type Placed, placeJoints } from "./place.ts";
import { dot } from "./vectors.ts";

/** A remaining row below this share of the largest is a dependent one (redundant joints of a planar mechanism). */
export const RANK_TOLERANCE = 1e-9;
/** Largest residual that counts as closed, as a share of the largest coordinate: some tens of roundings. */
const CLOSED = 3e-14;
const MOST_HALVINGS = 30;
const WANTED_SHARE = 1e-4;
/** Longest step as a share of ℓ, so that a far guess is followed rather than overshot. */
const LONGEST_STEP = 0.5;
/** A step may lower the sum of squares by at least this share, or the least squares are reached. */
const STILL_FALLING = 1e-10;

/** Everything that solving needs, made once; one for each set of drives. */
export interface LinkageWork {
  readonly linkage: Linkage;
  /** Number of unknowns, 6 · moving bodies. */
  readonly columns: number;
  readonly rows: Rows;
  readonly placed: Placed;
  /** Derivatives of the rows, shape (rows, columns). */
  readonly matrix: Float64Array;
  readonly squares: LeastSquares;
  readonly motion: Float64Array;
  readonly trial: Float64Array;
  /** Of the last `settle`: largest residual [m], how many steps, length of the first step [m]. */
  residual: number;
  iterations: number;
  firstStep: number;
}

/**
 * @param linkage  the linkage
 * @param driven   indices of the driven joints; their values go to `rows.values`
 */
export function createWork(linkage: Linkage, driven: readonly number[]): LinkageWork {
  const columns = 6 * (linkage.bodies.length - 1);
  const rows = createRows(linkage, driven);
  return {
    linkage,
    columns,
    rows,
    placed: createPlaced(linkage),
    matrix: new Float64Array(rows.count * columns),
    squares: new LeastSquares(rows.count, columns),
    motion: new Float64Array(columns),
    trial: new Float64Array(linkage.stated.length),
    residual: 0,
    iterations: 0,
    firstStep: 0,
  };
}

/** Places the joints and evaluates the rows at a state; returns the sum of squares [m²]. */
export function evaluateAt(work: LinkageWork, state: Float64Array): number {
  placeJoints(work.linkage, state, work.placed);
  evaluateRows(work.linkage, work.placed.joints, work.rows);
  const { residual, count } = work.rows;
  let sum = 0;
  for (let row = 0; row < count; row++) sum += residual[row] * residual[row];
  return sum;
}

/** Evaluates rows and their derivatives at a state and factors them. */
export function factorAt(work: LinkageWork, state: Float64Array, rank = Number.POSITIVE_INFINITY): void {
  evaluateAt(work, state);
  rowMatrix(work.linkage, work.rows, state, work.placed.joints, work.matrix);
  work.squares.factor(work.matrix, RANK_TOLERANCE, rank);
}

function largestResidual(work: LinkageWork): number {
  const { residual, count } = work.rows;
  let largest = 0;
  for (let row = 0; row < count; row++) largest = Math.max(largest, Math.abs(residual[row]));
  return largest;
}

/**
 * Closes the loops from a guess, in place: Gauss–Newton steps, the shortest of all least-squares steps, with a line search.
 *
 *     δ = −J⁺ C,   state ← state ∘ λδ,   λ = 1, ½, ¼ …                           (README eq. 7)
 *
 * @param work   from `createWork`, its `rows.values` set
 * @param state  guess, shape (bodies, 7); overwritten by the best state found
 * @param most   largest number of steps
 * @param rank   never count more than this many independent rows
 * @returns whether every row is zero to rounding; `work.residual` [m] and `work.iterations` tell more
 * @cost no allocation
 */
export function settle(work: LinkageWork, state: Float64Array, most = 60, rank = Number.POSITIVE_INFINITY): boolean {
  const { linkage, rows, squares, motion, trial } = work;
  const closed = CLOSED * linkage.extent;
  let merit = evaluateAt(work, state);
  work.iterations = 0;
  work.firstStep = 0;
  work.residual = largestResidual(work);
  while (!(work.residual <= closed)) {
    if (work.iterations === most || !Number.isFinite(merit)) return false;
    rowMatrix(linkage, rows, state, work.placed.joints, work.matrix);
    squares.factor(work.matrix, RANK_TOLERANCE, rank);
    const rest = squares.solve(rows.residual, motion);
    // Along −δ the sum of squares falls at the rate 2·(merit − rest²).
    const fall = merit - rest * rest;
    if (!(fall > STILL_FALLING * merit)) return work.residual <= 8 * closed;
    let length = 0;
    for (let k = 0; k < work.columns; k++) length = Math.max(length, Math.abs(motion[k]));
    if (work.iterations === 0) work.firstStep = length;
    let share = Math.min(1, (LONGEST_STEP * linkage.size) / length);
    let next = Number.NaN;
    let halvings = 0;
    for (; halvings < MOST_HALVINGS; halvings++) {
      moveState(linkage, state, motion, -share, trial);
      next = evaluateAt(work, trial);
      if (next <= merit - 2 * WANTED_SHARE * share * fall) break;
      share *= 0.5;
    }
    if (halvings === MOST_HALVINGS) {
      evaluateAt(work, state);
      return work.residual <= 8 * closed;
    }
    state.set(trial);
    merit = next;
    work.iterations++;
    work.residual = largestResidual(work);
  }
  return true;
}

/**
 * First joint whose axes or sides oppose each other instead of agreeing, a false solution of its rows.
 * @param work  placed at a state
 * @returns index of the joint, −1 if there is none
 */
export function turnedOver(work: LinkageWork): number {
  const { joints } = work.linkage;
  const g = work.placed.joints;
  for (let at = 0; at < joints.length; at++) {
    const kind = joints[at].kind;
    if (ROWS[kind] < 3 || kind === "ball") continue;
    const base = GEOMETRY * at;
    if (dot(g, base + AXES_FIRST, g, base + AXES_SECOND) < 0) return at;
    if (kind !== "slider" && kind !== "fixed" && kind !== "attitude") continue;
    if (dot(g, base + AXES_FIRST + 3, g, base + AXES_SECOND + 3) < 0) return at;
  }
  return -1;
}

/** Joint with the largest residual at the last evaluation, and that residual [m]; −1 if there are no rows. */
export function worstJoint(work: LinkageWork): { readonly joint: number; readonly residual: number } {
  const { residual, count, joints } = work.rows;
  let worst = -1;
  let largest = 0;
  for (let row = 0; row < count; row++) {
    if (Math.abs(residual[row]) <= largest && worst >= 0) continue;
    largest = Math.abs(residual[row]);
    worst = joints[row];
  }
  return { joint: worst, residual: largest };
}
