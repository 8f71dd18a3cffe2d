import { DomainError } from "../errors.ts";
import { requireIncreasing } from "../interpolate/index.ts";
import { requireFinite, requireLength } from "../require.ts";

/** A connected piece of a level line. */
export interface Polyline {
  /** Coordinates of its points, shape (k) each, k ≥ 2. The first point of a closed line is repeated as its last. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly closed: boolean;
}

interface Grid {
  readonly xs: ArrayLike<number>;
  readonly ys: ArrayLike<number>;
  readonly values: ArrayLike<number>;
  readonly level: number;
  readonly columns: number;
  readonly rows: number;
}

/**
 * Lines along which a function given on a rectilinear grid takes a level.
 *
 *     z(x, y) = level                                                          (1)
 *
 * Marching squares: a point lies on every grid edge with one end below and one at or above the level, by straight
 * interpolation; points of one cell are joined, cells are joined to polylines. Walking along a line, the higher side is
 * on the left (x to the right, y up). In a saddle cell (two opposite corners high) the mean of the four corners decides
 * which are connected, the same for every level. Lines do not cross and end only at the border of the grid.
 *
 * @param xs      strictly increasing, shape (nx), nx ≥ 2
 * @param ys      strictly increasing, shape (ny), ny ≥ 2
 * @param values  z at (xs[i], ys[j]) in element j·nx + i, shape (ny, nx) row-major
 * @param level   in the unit of z
 * @returns open lines first, then closed ones, each in the order of their lowest grid edge; empty when no edge is crossed
 * @throws {DomainError} if the grid is not increasing or too small, or a value or the level is not finite
 * @source Lorensen and Cline, Marching cubes, Computer Graphics 21 (1987), in two dimensions; saddle rule: common practice
 * @verified contour.test.ts: straight lines exact, circle with order two, saddles, ends on the border only, side of the line
 */
export function contourLines(
  xs: ArrayLike<number>,
  ys: ArrayLike<number>,
  values: ArrayLike<number>,
  level: number,
): Polyline[] {
  requireLength("xs", xs.length, 2);
  requireLength("ys", ys.length, 2);
  requireIncreasing("xs", xs);
  requireIncreasing("ys", ys);
  requireFinite("level", level);
  if (values.length !== xs.length * ys.length) {
    throw new DomainError("length of values", values.length, `${xs.length} × ${ys.length}`);
  }
  for (let i = 0; i < values.length; i++) requireFinite(`values[${i}]`, values[i]!);
  const grid: Grid = { xs, ys, values, level, columns: xs.length, rows: ys.length };
  return joinSegments(grid, crossCells(grid));
}

/**
 * Follows the level through every cell.
 *
 * Edge 2·node runs from a node along x, edge 2·node + 1 along y. Element e of the result is the edge on which the segment
 * that starts on edge e ends, −1 if none starts there. Seen from one of its two cells an edge is where a
 * counter-clockwise walk falls below the level, from the other where it rises: so at most one segment starts and one
 * ends on an edge.
 */
function crossCells(grid: Grid): Int32Array {
  const { columns, rows, values, level } = grid;
  const next = new Int32Array(2 * columns * rows).fill(-1);
  for (let j = 0; j < rows - 1; j++) {
    for (let i = 0; i < columns - 1; i++) {
      const node = j * columns + i;
      // Corners counter-clockwise from the south-west one; edge k runs from corner k to corner k + 1.
      const corners = [node, node + 1, node + columns + 1, node + columns];
      const isHigh = corners.map((corner) => values[corner]! >= level);
      if (isHigh.every((high) => high === isHigh[0])) continue;
      const edges = [2 * node, 2 * node + 3, 2 * (node + columns), 2 * node + 1];
      const mean = corners.reduce((sum, corner) => sum + 0.25 * values[corner]!, 0);
      joinEdges(next, edges, isHigh, mean >= level);
    }
  }
  return next;
}

/**
 * Joins the edges of one cell. Every segment starts where the walk falls and ends where it rises: its left is high.
 * In a saddle it ends at the next rise (cutting off a low corner) when the centre is high, else at the last one.
 */
function joinEdges(
  next: Int32Array,
  edges: readonly number[],
  isHigh: readonly boolean[],
  isCentreHigh: boolean,
): void {
  const after = (k: number) => (k + 1) % 4;
  const before = (k: number) => (k + 3) % 4;
  const turn = isCentreHigh ? after : before;
  for (let fall = 0; fall < 4; fall++) {
    if (!isHigh[fall] || isHigh[after(fall)]) continue;
    let rise = turn(fall);
    while (isHigh[rise] || !isHigh[after(rise)]) rise = turn(rise);
    next[edges[fall]!] = edges[rise]!;
  }
}

function joinSegments(grid: Grid, next: Int32Array): Polyline[] {
  const isEnd = new Uint8Array(next.length);
  for (const edge of next) if (edge >= 0) isEnd[edge] = 1;
  const lines: Polyline[] = [];
  for (let edge = 0; edge < next.length; edge++) {
    if (next[edge]! >= 0 && isEnd[edge] === 0) addLine(lines, grid, next, edge);
  }
  for (let edge = 0; edge < next.length; edge++) {
    if (next[edge]! >= 0) addLine(lines, grid, next, edge);
  }
  return lines;
}

/** Walks from an edge to the end of its line, taking the segments out of `next`. */
function addLine(lines: Polyline[], grid: Grid, next: Int32Array, start: number): void {
  const x: number[] = [];
  const y: number[] = [];
  let edge = start;
  addPoint(x, y, grid, edge);
  while (next[edge]! >= 0) {
    const to = next[edge]!;
    next[edge] = -1;
    edge = to;
    addPoint(x, y, grid, edge);
  }
  // A line that touches one node only (its value is the level, all round is below) has no extent.
  if (x.length > 1) lines.push({ x: Float64Array.from(x), y: Float64Array.from(y), closed: edge === start });
}

/** Adds the place on an edge where the level is reached, unless it is the last point again. */
function addPoint(x: number[], y: number[], grid: Grid, edge: number): void {
  const { xs, ys, values, level, columns } = grid;
  const from = edge >> 1;
  const alongX = edge % 2 === 0;
  const to = alongX ? from + 1 : from + columns;
  const i = from % columns;
  const j = (from - i) / columns;
  // Halved, so that the difference of two very large values stays finite.
  const share = (0.5 * level - 0.5 * values[from]!) / (0.5 * values[to]! - 0.5 * values[from]!);
  const atX = alongX ? (1 - share) * xs[i]! + share * xs[i + 1]! : xs[i]!;
  const atY = alongX ? ys[j]! : (1 - share) * ys[j]! + share * ys[j + 1]!;
  if (x.length > 0 && x[x.length - 1] === atX && y[y.length - 1] === atY) return;
  x.push(atX);
  y.push(atY);
}
