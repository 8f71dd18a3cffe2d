import { DomainError } from "../../math/errors.ts";
import { gridFromRows } from "../../math/interpolate/index.ts";
import type { BowWave, WakeFlow } from "./types.ts";

/** Rows of a bow wave: place of the probe head from the mouth [m] and velocity of the air there over true airspeed [1]; shape (rows) each. */
export interface BowWaveRows {
  readonly aft: Float64Array;
  readonly below: Float64Array;
  /** Forward and down, as in H. */
  readonly forward: Float64Array;
  readonly down: Float64Array;
}

/** Rows of a wake: place of the c.g. from the boom hinge [m], extra mean flow over true airspeed [1], factor on turbulence [1]. */
export interface WakeRows {
  readonly aft: Float64Array;
  readonly right: Float64Array;
  readonly below: Float64Array;
  readonly forward: Float64Array;
  readonly sideways: Float64Array;
  readonly down: Float64Array;
  readonly turbulence: Float64Array;
}

/**
 * Straight-line interpolation in a full grid of two or three axes; outside it the nearest value, and said so.
 *
 *     f = Σ_corners f_corner·Π (1 − |x − x_corner|/h)                                                             (README eq. 17)
 */
class CellTable {
  readonly #axes: readonly Float64Array[];
  readonly #outputs: number;
  readonly #values: Float64Array;
  readonly #cell: Int32Array;
  readonly #share: Float64Array;

  constructor(what: string, columns: readonly Float64Array[], outputs: readonly Float64Array[]) {
    if (!(columns[0].length > 0)) throw new DomainError(`rows of the table of the ${what}`, 0, "one or more");
    for (const column of [...columns, ...outputs]) {
      if (column.length !== columns[0].length) throw new DomainError(`column of the ${what}`, column.length, "as long");
      for (const value of column) if (!Number.isFinite(value)) throw new DomainError(what, value, "finite");
    }
    const grid = gridFromRows(columns);
    if (!grid.ok) throw new DomainError(`table of the ${what}`, `${grid.missingCount} rows missing`, "a full grid");
    for (const axis of grid.axes) {
      if (axis.length < 2) throw new DomainError(`places along one axis of the ${what}`, axis.length, "two or more");
    }
    this.#axes = grid.axes;
    this.#outputs = outputs.length;
    this.#cell = new Int32Array(grid.axes.length);
    this.#share = new Float64Array(grid.axes.length);
    this.#values = new Float64Array(grid.order.length * outputs.length);
    grid.order.forEach((row, at) => {
      outputs.forEach((column, k) => {
        this.#values[at * outputs.length + k] = column[row];
      });
    });
  }

  /** Sets the place along one axis; false outside. The cell of the last place is where it looks first. */
  locate(a: number, x: number): boolean {
    const axis = this.#axes[a];
    const last = axis.length - 2;
    let i = this.#cell[a];
    while (i > 0 && x < axis[i]) i--;
    while (i < last && x >= axis[i + 1]) i++;
    this.#cell[a] = i;
    const share = (x - axis[i]) / (axis[i + 1] - axis[i]);
    this.#share[a] = Math.min(1, Math.max(0, share));
    return share >= 0 && share <= 1;
  }

  /** Writes the values at the place set. */
  write(out: Float64Array): void {
    const n = this.#axes.length;
    const outputs = this.#outputs;
    for (let k = 0; k < outputs; k++) out[k] = 0;
    for (let corner = 0; corner < 1 << n; corner++) {
      let at = 0;
      let weight = 1;
      for (let a = 0; a < n; a++) {
        const high = (corner >> a) & 1;
        at = at * this.#axes[a].length + this.#cell[a] + high;
        weight *= high === 1 ? this.#share[a] : 1 - this.#share[a];
      }
      for (let k = 0; k < outputs; k++) out[k] += weight * this.#values[at * outputs + k];
    }
  }
}

function requireSpeed(trueAirspeed: number): void {
  if (!(trueAirspeed > 0)) throw new DomainError("true airspeed", trueAirspeed, "greater than 0");
}

/**
 * Bow wave of the coming nose from a table, as a share of the airspeed: the flow about a body grows with it.
 *
 * In the plane of symmetry; the push to the side of a nose that comes beside the socket is not in the table.
 *
 * @param rows a full grid of `aft` and `below`, two places or more along each
 * @param trueAirspeed [m/s], > 0
 * @throws {DomainError} for an empty table, a grid that is not full, numbers that are not finite
 * @source README eq. 17
 * @verified flow-tables.test.ts (nodes, straight lines, outside flagged, no zero invented)
 * @cost no array and no object is made in `evaluate`; numbers may be boxed (README)
 */
export function bowWaveTable(rows: BowWaveRows, trueAirspeed: number): BowWave {
  requireSpeed(trueAirspeed);
  const table = new CellTable("bow wave", [rows.aft, rows.below], [rows.forward, rows.down]);
  return {
    evaluate(aft, below, out) {
      const isAft = table.locate(0, aft);
      const isBelow = table.locate(1, below);
      table.write(out);
      out[2] = trueAirspeed * out[1];
      out[1] = 0;
      out[0] *= trueAirspeed;
      return isAft && isBelow;
    },
  };
}

/**
 * Wake and slipstream of the carrier from a table: extra mean flow as a share of the airspeed, and a factor on turbulence.
 *
 * @param rows a full grid of `aft`, `right` and `below`, two places or more along each; factors 0 or more
 * @param trueAirspeed [m/s], > 0
 * @throws {DomainError} as `bowWaveTable`, or for a negative factor
 * @source README eq. 17
 * @verified flow-tables.test.ts
 * @cost no array and no object is made in `evaluate`; numbers may be boxed (README)
 */
export function wakeTable(rows: WakeRows, trueAirspeed: number): WakeFlow {
  requireSpeed(trueAirspeed);
  for (const factor of rows.turbulence) {
    if (!(factor >= 0)) throw new DomainError("factor on turbulence in the wake", factor, "0 or more");
  }
  const places = [rows.aft, rows.right, rows.below];
  const table = new CellTable("wake", places, [rows.forward, rows.sideways, rows.down, rows.turbulence]);
  return {
    evaluate(aft, right, below, out) {
      const isAft = table.locate(0, aft);
      const isRight = table.locate(1, right);
      const isBelow = table.locate(2, below);
      table.write(out);
      out[0] *= trueAirspeed;
      out[1] *= trueAirspeed;
      out[2] *= trueAirspeed;
      return isAft && isRight && isBelow;
    },
  };
}
