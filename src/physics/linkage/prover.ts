import { luFactor, luSolve } from "../../math/dense/index.ts";
import {
  type Interval,
  type IntervalMatrix,
  krawczyk,
  preconditioned,
  roundedUp,
  spreadOf,
} from "../../math/interval/index.ts";
import { drivenIndex } from "./assemble.ts";
import { type BodyBox, boxJoints, rowForms, rowJet, rowSlopes } from "./enclosure-rows.ts";
import type { Linkage } from "./linkage.ts";
import type { NodePoses } from "./nodes.ts";
import { createWork, factorAt } from "./settle.ts";
import { armsOf, placeStretch, type Stretch } from "./stretch.ts";
import type { Stroke } from "./stroke.ts";

/** A box is so many times the preconditioned residual, and at every further try so much larger. */
const LARGER = 2;
const TRIES = 3;
/** Least half-width of a box, and its largest, as shares of ℓ. */
const LEAST = 1e-10;
const MOST = 0.2;
/** Most passes of the operator on its own result, and what a pass has to gain for another one. */
const PASSES = 60;
const GAIN = 0.9;
const WHOLE: Interval = { low: 0, high: 1 };

/** A proven box: its half-widths, and bounds of the solution in all of it and at its end. */
export interface Box {
  readonly radii: Float64Array;
  readonly inside: Float64Array;
  readonly atEnd: Float64Array;
}

/** No less than √(x² + y² + z²). */
export function norm(x: number, y: number, z: number): number {
  const sum = roundedUp(roundedUp(roundedUp(x * x) + roundedUp(y * y)) + roundedUp(z * z));
  return roundedUp(Math.sqrt(sum));
}

/** Box of a moving body. */
export function bodyBox(radii: Float64Array, body: number, size: number): BodyBox {
  const at = 6 * body;
  return {
    way: [radii[at], radii[at + 1], radii[at + 2]],
    turn: roundedUp(norm(radii[at + 3], radii[at + 4], radii[at + 5]) / size),
  };
}

const STILL: BodyBox = { way: [0, 0, 0], turn: 0 };

/** Shows that a stretch has one solution next to the interpolation. */
export class Prover {
  private readonly linkage: Linkage;
  private readonly arms: ReturnType<typeof armsOf>;
  /** Independent rows, as many as unknowns; fewer if the linkage has idle motions. */
  private readonly rows: ReturnType<typeof rowForms>;
  private readonly columns: number;
  private readonly slopes: IntervalMatrix;
  private readonly spread: Float64Array;

  constructor(stroke: Stroke, bodies: readonly NodePoses[], node: number) {
    const { linkage } = stroke;
    const driven = [...stroke.held.map(({ joint }) => joint), stroke.along].map((name) => drivenIndex(linkage, name));
    const work = createWork(linkage, driven);
    factorAt(work, stroke.states[node]);
    const { order, rank } = work.squares;
    const forms = rowForms(linkage, driven);
    const n = work.columns;
    this.linkage = linkage;
    this.arms = armsOf(linkage, bodies);
    this.rows = Array.from(order.slice(0, rank), (row) => forms[row]);
    this.columns = n;
    this.slopes = { low: new Float64Array(n * n), high: new Float64Array(n * n) };
    this.spread = new Float64Array(n * n);
  }

  prove(stretch: Stretch): Box | null {
    const { columns, linkage, rows } = this;
    if (rows.length !== columns) return null;
    const placed = placeStretch(linkage, this.arms, stretch, WHOLE);
    this.evaluate(
      stretch,
      placed,
      stretch.bodies.map(() => STILL),
    );
    const inverse = this.inverseOfMiddle();
    if (inverse === null) return null;
    const [start, end, curve] = [0, 0, 0].map(() => new Float64Array(columns));
    preconditioned(inverse, this.valuesAt(stretch, 0), start);
    preconditioned(inverse, this.valuesAt(stretch, 1), end);
    const curves = rows.map((row) => rowJet(linkage, row, placed, stretch.drives, WHOLE).second);
    preconditioned(inverse, curves, curve);
    const offset = start.map((one, k) => roundedUp(Math.max(one, end[k]) + roundedUp(0.125 * curve[k])));
    const radii = offset.map((one) => LARGER * one + LEAST * linkage.size);
    const inside = new Float64Array(columns);
    for (let attempt = 0; attempt < TRIES; attempt++) {
      if (!radii.every((one) => one < MOST * linkage.size)) return null;
      const boxes = stretch.bodies.map((_, body) => (body === 0 ? STILL : bodyBox(radii, body - 1, linkage.size)));
      this.evaluate(stretch, placed, boxes);
      spreadOf(inverse, this.slopes, columns, this.spread);
      if (krawczyk(offset, this.spread, radii, inside)) {
        const atEnd = inside.slice();
        this.tighten(offset, inside);
        this.tighten(end, atEnd);
        return { radii, inside, atEnd };
      }
      for (let k = 0; k < columns; k++) radii[k] = LARGER * Math.max(0.5 * radii[k], inside[k]);
    }
    return null;
  }

  private valuesAt(stretch: Stretch, at: number): Interval[] {
    const share: Interval = { low: at, high: at };
    const placed = placeStretch(this.linkage, this.arms, stretch, share);
    return this.rows.map((row) => rowJet(this.linkage, row, placed, stretch.drives, share).value);
  }

  private evaluate(stretch: Stretch, placed: ReturnType<typeof placeStretch>, boxes: readonly BodyBox[]): void {
    const joints = boxJoints(this.linkage, placed, boxes);
    const drives = { list: stretch.drives, share: WHOLE };
    this.rows.forEach((row, at) => {
      rowSlopes(this.linkage, row, joints, { boxes, drives }, this.slopes, this.columns * at);
    });
  }

  private inverseOfMiddle(): Float64Array | null {
    const n = this.columns;
    const { low, high } = this.slopes;
    const matrix = low.map((one, k) => 0.5 * (one + high[k]));
    const inverse = new Float64Array(n * n);
    for (let k = 0; k < n; k++) inverse[k * n + k] = 1;
    const pivots = new Int32Array(n);
    if (!luFactor(matrix, n, pivots)) return null;
    luSolve(matrix, n, pivots, inverse, n);
    return inverse;
  }

  /** |z| ≤ k gives |z| ≤ offset + G·k, as often as that gains something. */
  private tighten(offset: Float64Array, inside: Float64Array): void {
    const next = new Float64Array(inside.length);
    const most = () => inside.reduce((largest, one) => Math.max(largest, one), 0);
    for (let pass = 0, before = Infinity; pass < PASSES && most() < GAIN * before; pass++) {
      before = most();
      krawczyk(offset, this.spread, inside, next);
      for (let k = 0; k < next.length; k++) inside[k] = Math.min(inside[k], next[k]);
    }
  }
}
