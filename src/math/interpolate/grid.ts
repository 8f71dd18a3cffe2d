import { DomainError } from "../errors.ts";
import { requireFinite } from "../require.ts";
import { requireIncreasing } from "./linear.ts";
import { endSlope, innerSlope } from "./slopes.ts";

/** What a table says beyond its ends: the value at the end, or a straight line with the slope there. */
export type Beyond = "hold" | "linear";

/**
 * Smooth surfaces over a full grid of one to four axes, monotone between the nodes of each grid line.
 *
 * Along the last axis each line is the curve of `monotoneCubic` (same slopes, same pieces); the curve through the results along
 * the axis before it follows, and so on. An axis with one node has no influence. Only the two nodes either side matter.
 *
 * Values are continuous everywhere; derivatives along an axis too, across another they may jump where a limiter acts.
 *
 * @source Fritsch and Carlson (1980), Fritsch and Butland (1984), as `monotoneCubic`, applied axis by axis
 * @verified grid.test.ts: equals `monotoneCubic` on one axis, exact at nodes and on multilinear data, stays between the values
 * of the cell, order of axes on separable data
 * @cost no allocation
 */
export class MonotoneGrid {
  readonly axes: readonly Float64Array[];
  readonly outputs: number;
  private readonly beyond: Beyond;
  private readonly values: Float64Array;
  private readonly strides: number[];
  /** First node of the stencil and nodes in it, by axis. */
  private readonly first: Int32Array;
  private readonly count: Int32Array;
  private readonly scratch: Float64Array;

  /**
   * @param axes   strictly increasing nodes of each axis, one or more each
   * @param tables one table an output, row-major, last axis fastest, shape (product of the axes' lengths)
   * @param beyond what holds outside the nodes
   * @throws {DomainError} if an axis does not increase, a table has the wrong length or a value is not finite
   */
  constructor(axes: readonly ArrayLike<number>[], tables: readonly ArrayLike<number>[], beyond: Beyond) {
    if (axes.length < 1 || axes.length > 4) throw new DomainError("axes of a grid", axes.length, "1 to 4");
    axes.forEach((axis, i) => {
      requireIncreasing(`axis ${i + 1}`, axis);
    });
    this.axes = axes.map((axis) => Float64Array.from(axis));
    const nodes = this.axes.reduce((product, axis) => product * axis.length, 1);
    this.outputs = tables.length;
    this.beyond = beyond;
    this.values = new Float64Array(nodes * tables.length);
    tables.forEach((table, k) => {
      if (table.length !== nodes) throw new DomainError(`values of table ${k + 1}`, table.length, `${nodes}`);
      for (let i = 0; i < nodes; i++) {
        requireFinite(`table ${k + 1}[${i}]`, table[i]!);
        this.values[i * tables.length + k] = table[i]!;
      }
    });
    this.strides = this.axes.map((_, i) => this.axes.slice(i + 1).reduce((p, axis) => p * axis.length, tables.length));
    this.first = new Int32Array(axes.length);
    this.count = new Int32Array(axes.length);
    this.scratch = new Float64Array(4 ** axes.length * tables.length);
  }

  /** Whether a place lies within the nodes of every axis that has more than one. */
  contains(place: ArrayLike<number>): boolean {
    return this.axes.every((axis, i) => axis.length === 1 || (place[i]! >= axis[0]! && place[i]! <= axis.at(-1)!));
  }

  /**
   * Values at a place.
   *
   * @param place coordinates, shape (axes)
   * @param out   shape (outputs), written
   */
  evaluate(place: ArrayLike<number>, out: Float64Array): void {
    const { axes, first, count, scratch, outputs, strides, values } = this;
    const last = axes.length - 1;
    let points = 1;
    for (let a = 0; a <= last; a++) {
      const axis = axes[a]!;
      const i = interval(axis, place[a]!);
      first[a] = Math.max(0, i - 1);
      count[a] = Math.min(axis.length - 1, i + 2) - first[a]! + 1;
      points *= count[a]!;
    }
    // gather the stencil, last axis fastest
    for (let p = 0; p < points; p++) {
      let rest = p;
      let from = 0;
      for (let a = last; a >= 0; a--) {
        const n = count[a]!;
        from += (first[a]! + (rest % n)) * strides[a]!;
        rest = (rest - (rest % n)) / n;
      }
      for (let k = 0; k < outputs; k++) scratch[p * outputs + k] = values[from + k]!;
    }
    // fold the last axis, then the one before it
    for (let a = last; a >= 0; a--) {
      points /= count[a]!;
      if (count[a]! > 1) this.fold(a, place[a]!, points);
    }
    for (let k = 0; k < outputs; k++) out[k] = scratch[k]!;
  }

  /** Curves along one axis through the stencil's nodes, for `points` places of the axes before it, in place. */
  private fold(a: number, x: number, points: number): void {
    const { outputs: step, scratch: s } = this;
    const axis = this.axes[a]!;
    const n = this.count[a]!;
    const f = this.first[a]!;
    const i = interval(axis, x) - f;
    const x0 = axis[f + i]!;
    const x1 = axis[f + i + 1]!;
    const h = x1 - x0;
    const before = i > 0;
    const after = i + 2 < n;
    const hb = before ? x0 - axis[f + i - 1]! : 0;
    const ha = after ? axis[f + i + 2]! - x1 : 0;
    const hold = this.beyond === "hold";
    const t = (x - x0) / h;
    const r = 1 - t;
    for (let p = 0; p < points; p++) {
      for (let k = 0; k < step; k++) {
        const at = (p * n + i) * step + k;
        const y0 = s[at]!;
        const y1 = s[at + step]!;
        const chord = (y1 - y0) / h;
        let d0 = chord;
        let d1 = chord;
        const cb = before ? (y0 - s[at - step]!) / hb : 0;
        const ca = after ? (s[at + 2 * step]! - y1) / ha : 0;
        if (before) d0 = innerSlope(hb, h, cb, chord);
        else if (after) d0 = endSlope(h, ha, chord, ca);
        if (after) d1 = innerSlope(h, ha, chord, ca);
        else if (before) d1 = endSlope(h, hb, chord, cb);
        let y: number;
        if (x < x0) y = hold ? y0 : y0 + d0 * (x - x0);
        else if (x > x1) y = hold ? y1 : y1 + d1 * (x - x1);
        else y = r * r * ((1 + 2 * t) * y0 + t * h * d0) + t * t * ((1 + 2 * r) * y1 - r * h * d1);
        s[p * step + k] = y;
      }
    }
  }
}

/** Interval of x, the first or last one for a place outside; 0 for an axis of one node. */
function interval(axis: Float64Array, x: number): number {
  let low = 0;
  let high = axis.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x >= axis[middle]!) low = middle;
    else high = middle;
  }
  return low;
}
