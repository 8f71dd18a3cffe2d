/** A full grid that was given row by row, or what keeps the rows from being one. */
export type RowGrid =
  | {
      readonly ok: true;
      /** Nodes of each axis, rising. */
      readonly axes: Float64Array[];
      /** Row of each grid point, last axis fastest. */
      readonly order: Int32Array;
    }
  | {
      readonly ok: false;
      /** Grid points without a row, at most ten, and how many there are. */
      readonly missing: readonly (readonly number[])[];
      readonly missingCount: number;
      /** Rows (from 0) that give a grid point again. */
      readonly repeated: readonly number[];
    };

const MOST_SHOWN = 10;
/** More grid points than this many times the rows are not spelt out one by one. */
const MOST_POINTS = 4_000_000;

/**
 * Finds the grid in rows of coordinates given in any order.
 *
 * @param columns one column of coordinates an axis, shape (rows) each
 * @returns the grid, or the points that are missing and the rows that repeat one
 * @source definition: every combination of the values of all axes once
 * @verified rows.test.ts
 */
export function gridFromRows(columns: readonly ArrayLike<number>[]): RowGrid {
  const axes = columns.map((column) => Float64Array.from(new Set(Array.from(column))).sort());
  const places = axes.map((axis) => new Map(Array.from(axis, (value, i) => [value, i])));
  const points = axes.reduce((product, axis) => product * axis.length, 1);
  const rows = columns[0]?.length ?? 0;
  if (points > MOST_POINTS) return { ok: false, missing: [], missingCount: points - rows, repeated: [] };
  const order = new Int32Array(points).fill(-1);
  const repeated: number[] = [];
  for (let row = 0; row < rows; row++) {
    let at = 0;
    columns.forEach((column, a) => {
      at = at * axes[a]!.length + places[a]!.get(column[row]!)!;
    });
    if (order[at] >= 0) repeated.push(row);
    else order[at] = row;
  }
  const missing: number[][] = [];
  let missingCount = 0;
  order.forEach((row, at) => {
    if (row >= 0) return;
    missingCount++;
    if (missing.length >= MOST_SHOWN) return;
    const place: number[] = [];
    let rest = at;
    for (let a = axes.length - 1; a >= 0; a--) {
      place.unshift(axes[a]![rest % axes[a]!.length]!);
      rest = Math.floor(rest / axes[a]!.length);
    }
    missing.push(place);
  });
  return missingCount === 0 && repeated.length === 0
    ? { ok: true, axes, order }
    : { ok: false, missing, missingCount, repeated };
}
