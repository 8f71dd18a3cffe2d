/** Outlines of cells that belong together on a grid. */
import type { Point } from "./isolines.ts";

const key = (ix: number, iy: number) => `${ix},${iy}`;

/**
 * Closed outlines of the cells that are wanted; inner borders of holes run the other way round, so that the nonzero rule
 * leaves them open.
 *
 * @param columns cells in a row
 * @param rows    rows of cells
 * @param wanted  whether cell (column, row) belongs to it
 * @returns loops of grid corners (0 … columns, 0 … rows), the first corner not repeated; straight runs have no inner corners
 */
export function cellOutlines(
  columns: number,
  rows: number,
  wanted: (column: number, row: number) => boolean,
): Point[][] {
  const inside = (c: number, r: number) => c >= 0 && r >= 0 && c < columns && r < rows && wanted(c, r);
  // border edges with the cells on their left, keyed by where they start
  const edges = new Map<string, Point[]>();
  const add = (from: Point, to: Point) => {
    const name = key(from[0], from[1]);
    const known = edges.get(name);
    if (known === undefined) edges.set(name, [to]);
    else known.push(to);
  };
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      if (!inside(c, r)) continue;
      if (!inside(c, r - 1)) add([c, r], [c + 1, r]);
      if (!inside(c + 1, r)) add([c + 1, r], [c + 1, r + 1]);
      if (!inside(c, r + 1)) add([c + 1, r + 1], [c, r + 1]);
      if (!inside(c - 1, r)) add([c, r + 1], [c, r]);
    }
  }
  const loops: Point[][] = [];
  for (const [name, targets] of edges) {
    while (targets.length > 0) {
      const [x, y] = name.split(",").map(Number) as [number, number];
      loops.push(straightened(follow([x, y], edges)));
    }
  }
  return loops;
}

/** Follows edges from a corner until it is reached again; at a corner of two cells it turns left, which parts them. */
function follow(start: Point, edges: Map<string, Point[]>): Point[] {
  const loop: Point[] = [];
  let at = start;
  let heading: Point = [0, 0];
  do {
    loop.push(at);
    const targets: Point[] = edges.get(key(at[0], at[1]))!;
    const here = at;
    const turn = (to: Point) => heading[0] * (to[1] - here[1]) - heading[1] * (to[0] - here[0]);
    const next = targets.reduce((a, b) => (turn(b) > turn(a) ? b : a));
    targets.splice(targets.indexOf(next), 1);
    heading = [next[0] - at[0], next[1] - at[1]];
    at = next;
  } while (at[0] !== start[0] || at[1] !== start[1]);
  return loop;
}

function straightened(loop: readonly Point[]): Point[] {
  return loop.filter(([x, y], i) => {
    const [px, py] = loop[(i + loop.length - 1) % loop.length]!;
    const [nx, ny] = loop[(i + 1) % loop.length]!;
    return (x - px) * (ny - y) !== (y - py) * (nx - x);
  });
}
