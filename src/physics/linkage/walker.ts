import { luFactor } from "../../math/dense/index.ts";
import { coordinate, PARTIALS, rowGradient } from "./joint-rows.ts";
import type { Linkage } from "./linkage.ts";
import { motionBetween, moveState } from "./place.ts";
import { evaluateAt, factorAt, type LinkageWork, settle, turnedOver } from "./settle.ts";

/** First and longest step as a share of ℓ; shortest before the walk counts as lost. */
const FIRST_STEP = 0.02;
const LONGEST_STEP = 0.2;
const SHORTEST_STEP = 1e-9;
/** Largest turn of the tangent in one step [rad], and turn below which the next step grows. */
const MOST_TURN = 0.2;
const SMALL_TURN = 0.07;
/** Largest correction as a share of the step. */
const MOST_CORRECTION = 0.15;
const MOST_ITERATIONS = 8;

/** A point of the path. */
export interface PathPoint {
  readonly state: Float64Array;
  /** Freely moving directions, shape (freedoms, columns), orthonormal; the first is the tangent of the path. */
  readonly tangents: Float64Array;
  /** Coordinate of the stroke: unwrapped angle [rad], length or travel [m]. */
  value: number;
  /** Its change per metre of motion. */
  rate: number;
  /** Sign of the determinant of independent rows and tangents: changes where branches cross. */
  orientation: number;
}

/**
 * Walks along one assembly branch of a linkage with one driven coordinate, by the length of its motion rather than by the
 * coordinate, so that it goes through dead points of the drive.
 *
 *     q̂ = q ∘ h t,   q ← q̂ − J⁺C,   t ← normalised part of t in the null space of J        (README eq. 8)
 *
 * J holds the joints and the held drives, not the stroke. A step is taken back and halved if the correction or the turn of
 * the tangent is large: the sign of a jump to another branch.
 *
 * @source Allgower and Georg, Introduction to Numerical Continuation Methods (2003), chapters 2, 3, 6 (step control) and 8
 *         (sign of the bordered determinant at simple bifurcations)
 * @verified stroke.test.ts: parallelogram through its flat position, dead points of closed forms
 */
export class Walker {
  readonly linkage: Linkage;
  readonly #work: LinkageWork;
  /** Index of the joint that is the stroke. */
  readonly #joint: number;
  readonly rank: number;
  readonly freedoms: number;
  readonly #rows: Int32Array;
  readonly #bordered: Float64Array;
  readonly #pivots: Int32Array;
  readonly #gradient: Float64Array;
  readonly #partials = new Float64Array(PARTIALS);
  readonly #correction: Float64Array;
  readonly #trial: PathPoint;
  #step: number;
  readonly point: PathPoint;
  /** The point before the last `advance`. */
  readonly before: PathPoint;

  /**
   * @param work   joints and held drives, without the stroke
   * @param joint  index of the joint that is the stroke
   * @param state  a closed state, shape (bodies, 7); copied
   */
  constructor(work: LinkageWork, joint: number, state: Float64Array) {
    this.linkage = work.linkage;
    this.#work = work;
    this.#joint = joint;
    factorAt(work, state);
    this.rank = work.squares.rank;
    this.freedoms = work.columns - this.rank;
    this.#rows = work.squares.order.slice(0, this.rank);
    this.#bordered = new Float64Array(work.columns * work.columns);
    this.#pivots = new Int32Array(work.columns);
    this.#gradient = new Float64Array(work.columns);
    this.#correction = new Float64Array(work.columns);
    this.point = this.#createPoint();
    this.before = this.#createPoint();
    this.#trial = this.#createPoint();
    this.#step = FIRST_STEP * work.linkage.size;
    this.point.state.set(state);
    this.#startTangents();
  }

  #createPoint(): PathPoint {
    return {
      state: new Float64Array(this.linkage.stated.length),
      tangents: new Float64Array(this.freedoms * this.#work.columns),
      value: 0,
      rate: 0,
      orientation: 0,
    };
  }

  /** Tangents at the start: the part of the drive's gradient that is free to move first, then the idle motions. */
  #startTangents(): void {
    const { columns, squares } = this.#work;
    const { point } = this;
    if (this.freedoms === 0) return;
    this.#measure(point, 0);
    const along = this.#gradient.slice();
    const whole = Math.hypot(...along);
    const free = squares.projectToNullSpace(along);
    const isDriven = free > 1e-9 * whole;
    if (isDriven) point.tangents.set(along);
    orthogonalise(point.tangents, columns, 0);
    let filled = isDriven ? 1 : 0;
    for (let c = 0; c < this.freedoms && filled < this.freedoms; c++) {
      squares.nullVector(c, point.tangents, filled * columns);
      if (orthogonalise(point.tangents, columns, filled) > 1e-3) filled++;
    }
    this.#finish(point, 0);
    if (!isDriven) point.rate = 0;
  }

  /** Turns the walk round if it does not go towards larger (`sense` +1) or smaller (−1) values of the stroke. */
  face(sense: number): void {
    if (this.point.rate * sense >= 0) return;
    for (let k = 0; k < this.#work.columns; k++) this.point.tangents[k] *= -1;
    this.point.rate *= -1;
    this.point.orientation *= -1;
  }

  /** Value of the stroke and its gradient at a point that was just placed. */
  #measure(point: PathPoint, near: number): void {
    const { linkage } = this;
    const joint = linkage.joints[this.#joint];
    const placed = this.#work.placed.joints;
    let value = coordinate(joint, this.#joint, placed, this.#partials, 0);
    if (joint.kind === "hinge") value += 2 * Math.PI * Math.round((near - value) / (2 * Math.PI));
    point.value = value;
    rowGradient(linkage, joint, this.#joint, point.state, placed, this.#partials, 0, this.#gradient, 0);
  }

  /** Value, rate and orientation at a point whose tangents are known and whose rows were just factored. */
  #finish(point: PathPoint, near: number): void {
    const { columns, matrix } = this.#work;
    this.#measure(point, near);
    let rate = 0;
    for (let k = 0; k < columns; k++) rate += this.#gradient[k] * point.tangents[k];
    point.rate = rate;
    const border = this.#bordered;
    for (let i = 0; i < this.rank; i++) {
      const from = this.#rows[i] * columns;
      for (let j = 0; j < columns; j++) border[i * columns + j] = matrix[from + j];
    }
    border.set(point.tangents, this.rank * columns);
    let sign = luFactor(border, columns, this.#pivots) ? 1 : 0;
    for (let i = 0; i < columns; i++) {
      if (this.#pivots[i] !== i) sign = -sign;
      if (border[i * columns + i] < 0) sign = -sign;
    }
    point.orientation = sign;
  }

  /**
   * The point of the path that lies `length` beyond `from`, measured along its tangent.
   * @returns whether it was reached without a sign of a jump
   */
  reach(from: PathPoint, length: number, to: PathPoint): boolean {
    const { linkage } = this;
    const work = this.#work;
    const { columns } = work;
    moveState(linkage, from.state, from.tangents, length, to.state);
    if (!settle(work, to.state, MOST_ITERATIONS, this.rank) || turnedOver(work) >= 0) return false;
    motionBetween(linkage, from.state, to.state, this.#correction);
    let off = 0;
    for (let k = 0; k < columns; k++) off += (this.#correction[k] - length * from.tangents[k]) ** 2;
    if (!(Math.sqrt(off) <= MOST_CORRECTION * Math.abs(length) + 1e-12 * linkage.size)) return false;
    factorAt(work, to.state, this.rank);
    to.tangents.set(from.tangents);
    let cosine = 1;
    for (let c = 0; c < this.freedoms; c++) {
      const kept = work.squares.projectToNullSpace(to.tangents, c * columns);
      if (c === 0) cosine = kept;
      if (!(orthogonalise(to.tangents, columns, c) > 1e-3)) return false;
    }
    if (!(cosine >= Math.cos(MOST_TURN))) return false;
    this.#turn = Math.acos(Math.min(1, cosine));
    this.#finish(to, from.value);
    return true;
  }
  #turn = 0;

  /**
   * Takes one step of its own choice of length.
   * @returns its length [m], or 0 if no step short enough was found: the walk is lost
   */
  advance(): number {
    const { size } = this.linkage;
    for (; this.#step >= SHORTEST_STEP * size; this.#step *= 0.5) {
      const length = this.#step;
      if (!this.reach(this.point, length, this.#trial)) continue;
      copyPoint(this.point, this.before);
      copyPoint(this.#trial, this.point);
      if (this.#turn < SMALL_TURN) this.#step = Math.min(1.6 * length, LONGEST_STEP * size);
      return length;
    }
    this.#step = FIRST_STEP * size;
    return 0;
  }

  /**
   * Finds where a quantity of the path passes zero within the last step, by bisection.
   * @param length  of the last step
   * @param of      the quantity; it may read `point` and the work that was just evaluated there
   * @param to      written: the last point before the passage
   * @returns how far beyond `before` it lies [m]
   */
  locate(length: number, of: (point: PathPoint) => number, to: PathPoint): number {
    let low = 0;
    let high = length;
    const first = of(this.before) < 0;
    copyPoint(this.before, to);
    for (let pass = 0; pass < 60 && high - low > 1e-13 * this.linkage.size; pass++) {
      const middle = 0.5 * (low + high);
      if (!this.reach(this.before, middle, this.#trial)) {
        // Too close to a crossing for the corrector: from here on the place is known well enough.
        if (high - low < 1e-4 * length) break;
        high = middle;
        continue;
      }
      if (of(this.#trial) < 0 === first) {
        low = middle;
        copyPoint(this.#trial, to);
      } else high = middle;
    }
    return low;
  }

  /** A point to be written to by `reach` and `locate`. */
  createPoint(): PathPoint {
    return this.#createPoint();
  }

  /** Smallest singular value of the rows that count, at a state. */
  singularValueAt(state: Float64Array): number {
    factorAt(this.#work, state, this.rank);
    return this.#work.squares.smallestSingularValue();
  }

  /** Places the joints of the work at a state and gives them, for quantities of the path. */
  placedAt(state: Float64Array): Float64Array {
    evaluateAt(this.#work, state);
    return this.#work.placed.joints;
  }
}

function copyPoint(from: PathPoint, to: PathPoint): void {
  to.state.set(from.state);
  to.tangents.set(from.tangents);
  to.value = from.value;
  to.rate = from.rate;
  to.orientation = from.orientation;
}

/** Makes row c normal to the rows before it and of length one; returns the length that was left. */
function orthogonalise(rows: Float64Array, columns: number, c: number): number {
  const at = c * columns;
  for (let before = 0; before < c; before++) {
    let product = 0;
    for (let k = 0; k < columns; k++) product += rows[at + k] * rows[before * columns + k];
    for (let k = 0; k < columns; k++) rows[at + k] -= product * rows[before * columns + k];
  }
  let sum = 0;
  for (let k = 0; k < columns; k++) sum += rows[at + k] * rows[at + k];
  const size = Math.sqrt(sum);
  if (size > 0) for (let k = 0; k < columns; k++) rows[at + k] /= size;
  return size;
}
