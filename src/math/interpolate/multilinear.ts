import { DomainError } from "../errors.ts";
import { requireFinite } from "../require.ts";
import { requireIncreasing } from "./linear.ts";

/**
 * Multilinear interpolation over a full grid of one to four axes, several outputs at once.
 *
 *     f(x) = Σ over the 2ⁿ corners of the cell of f(corner)·Π (t or 1 − t),   t = (x − x₀)/(x₁ − x₀)          (README eq. 3)
 *
 * Exact on multilinear data, between the values of the cell everywhere, continuous with kinks at the nodes. Outside the nodes it has
 * nothing to say: ask `contains` first; a place outside gets the value of the nearest place on the edge. An axis with one node has no
 * influence. A sixth of the work of `MonotoneGrid` on four axes; for inner loops in which kinks do no harm.
 *
 * @source standard form
 * @verified multilinear.test.ts: exact on multilinear data, nodes, edges, bounds of the cell
 * @cost no allocation
 */
export class MultilinearGrid {
  readonly axes: readonly Float64Array[];
  readonly outputs: number;
  private readonly values: Float64Array;
  private readonly strides: Int32Array;
  private readonly cell: Int32Array;
  private readonly share: Float64Array;

  /**
   * @param axes   strictly increasing nodes of each axis, one or more each
   * @param tables one table an output, row-major, last axis fastest, shape (product of the axes' lengths)
   * @throws {DomainError} if an axis does not increase, a table has the wrong length or a value is not finite
   */
  constructor(axes: readonly ArrayLike<number>[], tables: readonly ArrayLike<number>[]) {
    if (axes.length < 1 || axes.length > 4) throw new DomainError("axes of a grid", axes.length, "1 to 4");
    axes.forEach((axis, i) => {
      requireIncreasing(`axis ${i + 1}`, axis);
    });
    this.axes = axes.map((axis) => Float64Array.from(axis));
    const nodes = this.axes.reduce((product, axis) => product * axis.length, 1);
    const outputs = tables.length;
    this.outputs = outputs;
    this.values = new Float64Array(nodes * outputs);
    tables.forEach((table, k) => {
      if (table.length !== nodes) throw new DomainError(`values of table ${k + 1}`, table.length, `${nodes}`);
      for (let i = 0; i < nodes; i++) {
        requireFinite(`table ${k + 1}[${i}]`, table[i]!);
        this.values[i * outputs + k] = table[i]!;
      }
    });
    this.strides = Int32Array.from(this.axes, (_, i) =>
      this.axes.slice(i + 1).reduce((p, axis) => p * axis.length, outputs),
    );
    this.cell = new Int32Array(axes.length);
    this.share = new Float64Array(axes.length);
  }

  /** Whether a place lies within the nodes of every axis that has more than one. */
  contains(place: ArrayLike<number>): boolean {
    for (let a = 0; a < this.axes.length; a++) {
      const axis = this.axes[a]!;
      if (axis.length > 1 && !(place[a]! >= axis[0]! && place[a]! <= axis[axis.length - 1]!)) return false;
    }
    return true;
  }

  /**
   * Values at a place.
   *
   * @param place coordinates, shape (axes)
   * @param out   shape (outputs), written
   */
  evaluate(place: ArrayLike<number>, out: Float64Array): void {
    const { axes, cell, share, strides, outputs, values } = this;
    const n = axes.length;
    let base = 0;
    for (let a = 0; a < n; a++) {
      const axis = axes[a]!;
      const last = axis.length - 1;
      const x = place[a]!;
      let i = 0;
      while (i < last - 1 && x >= axis[i + 1]!) i++;
      cell[a] = i;
      share[a] = last === 0 ? 0 : Math.min(1, Math.max(0, (x - axis[i]!) / (axis[i + 1]! - axis[i]!)));
      base += i * strides[a]!;
    }
    out.fill(0, 0, outputs);
    for (let corner = 0; corner < 1 << n; corner++) {
      let weight = 1;
      let at = base;
      for (let a = 0; a < n; a++) {
        const t = share[a]!;
        if ((corner >> a) & 1) {
          weight *= t;
          at += strides[a]!;
        } else weight *= 1 - t;
      }
      if (weight === 0) continue;
      for (let k = 0; k < outputs; k++) out[k] = out[k]! + weight * values[at + k]!;
    }
  }
}
