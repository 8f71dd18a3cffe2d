import { BugError } from "../../math/errors.ts";
import { isFree, isOpen, type MapGrid } from "./map-grid.ts";

/** A corner or cell of the map. */
export interface MapCell {
  readonly i: number;
  readonly j: number;
}

/** Regions of cells that hang together by their sides. */
export interface Regions {
  /** Number of each cell's region, −1 for cells that are not open. */
  readonly regionOf: Int32Array;
  readonly count: number;
}

/** Connected regions of free and near cells, numbered in the order of their first cell. */
export function regionsOf(grid: MapGrid): Regions {
  const { code, nodes } = grid;
  const regionOf = new Int32Array(code.length).fill(-1);
  let count = 0;
  for (let start = 0; start < code.length; start++) {
    if (regionOf[start] >= 0 || !isOpen(code[start])) continue;
    const pending = [start];
    regionOf[start] = count;
    while (pending.length > 0) {
      const cell = pending.pop() as number;
      for (const next of neighbours(cell, nodes)) {
        if (regionOf[next] >= 0 || !isOpen(code[next])) continue;
        regionOf[next] = count;
        pending.push(next);
      }
    }
    count += 1;
  }
  return { regionOf, count };
}

function neighbours(cell: number, nodes: number): number[] {
  const i = cell % nodes;
  const j = (cell - i) / nodes;
  const out: number[] = [];
  if (i > 0) out.push(cell - 1);
  if (i < nodes - 1) out.push(cell + 1);
  if (j > 0) out.push(cell - nodes);
  if (j < nodes - 1) out.push(cell + nodes);
  return out;
}

/** Costs that count one after the other: near cells, then length, then turns. */
const NEAR_COST = 1e10;
const STEP_COST = 1e4;

/**
 * Shortest path between two cells along the sides of the grid: one thing moves, the other stands.
 *
 * Fewest near cells first, then fewest steps, then fewest changes of what moves. Equal paths are told apart by the order of the cells,
 * so that the same map gives the same path.
 *
 * @param grid  states of the cells
 * @param from  first cell
 * @param to    last cell
 * @returns the corners, first to last, with the cells on the way; `null` when there is none
 * @source Dijkstra's method over cells and directions
 * @verified map-path.test.ts
 */
export function shortestPath(
  grid: MapGrid,
  from: MapCell,
  to: MapCell,
): { readonly corners: MapCell[]; readonly length: number; readonly throughNear: boolean } | null {
  const { code, nodes } = grid;
  const at = ({ i, j }: MapCell): number => j * nodes + i;
  if (!isOpen(code[at(from)]) || !isOpen(code[at(to)])) return null;
  // A state is a cell and what moved last: 0 nothing, 1 the group, 2 the boom.
  const cost = new Float64Array(3 * code.length).fill(Infinity);
  const before = new Int32Array(3 * code.length).fill(-1);
  const heap = new Heap();
  const nearCost = (cell: number): number => (isFree(code[cell]) ? 0 : NEAR_COST);
  const start = 3 * at(from);
  cost[start] = nearCost(at(from));
  heap.push(cost[start], start);
  let end = -1;
  for (let state = heap.pop(cost); state >= 0; state = heap.pop(cost)) {
    const cell = Math.floor(state / 3);
    const moved = state % 3;
    if (cell === at(to)) {
      end = state;
      break;
    }
    for (const next of neighbours(cell, nodes)) {
      if (!isOpen(code[next])) continue;
      const moves = Math.abs(next - cell) === 1 ? 1 : 2;
      const total = cost[state] + nearCost(next) + STEP_COST + (moved === 0 || moved === moves ? 0 : 1);
      const target = 3 * next + moves;
      if (!(total < cost[target])) continue;
      cost[target] = total;
      before[target] = state;
      heap.push(total, target);
    }
  }
  if (end < 0) return null;
  const states: number[] = [];
  for (let state = end; state >= 0; state = before[state]) states.unshift(state);
  const corners = states.filter((state, k) => k === 0 || k === states.length - 1 || state % 3 !== states[k + 1] % 3);
  return {
    corners: corners.map((state) => {
      const cell = Math.floor(state / 3);
      return { i: cell % nodes, j: Math.floor(cell / nodes) };
    }),
    length: states.length - 1,
    throughNear: cost[end] >= NEAR_COST,
  };
}

/** Smallest cost first; of equal costs the smaller state. Outdated entries are passed over. */
class Heap {
  private readonly keys: number[] = [];
  private readonly states: number[] = [];

  push(key: number, state: number): void {
    const { keys, states } = this;
    let at = keys.length;
    keys.push(key);
    states.push(state);
    while (at > 0) {
      const up = (at - 1) >> 1;
      if (!this.isLess(at, up)) break;
      this.swap(at, up);
      at = up;
    }
  }

  /** @returns −1 when nothing is left */
  pop(cost: Float64Array): number {
    const { keys, states } = this;
    while (keys.length > 0) {
      const [key, state] = [keys[0], states[0]];
      this.swap(0, keys.length - 1);
      keys.pop();
      states.pop();
      this.sink();
      if (key === cost[state]) return state;
      if (!(key > cost[state])) throw new BugError("a path cost rose");
    }
    return -1;
  }

  private sink(): void {
    let at = 0;
    for (;;) {
      let least = at;
      for (const child of [2 * at + 1, 2 * at + 2]) {
        if (child < this.keys.length && this.isLess(child, least)) least = child;
      }
      if (least === at) return;
      this.swap(at, least);
      at = least;
    }
  }

  private isLess(a: number, b: number): boolean {
    return this.keys[a] < this.keys[b] || (this.keys[a] === this.keys[b] && this.states[a] < this.states[b]);
  }

  private swap(a: number, b: number): void {
    [this.keys[a], this.keys[b]] = [this.keys[b], this.keys[a]];
    [this.states[a], this.states[b]] = [this.states[b], this.states[a]];
  }
}
