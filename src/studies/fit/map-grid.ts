import {
  createDistanceQuery,
  createPose,
  type DistanceQuery,
  enclosure,
  minimumDistance,
} from "../../physics/shapes/index.ts";
import type { PartPair } from "./pairs.ts";
import type { MapState } from "./types.ts";

/** Codes of the states, the worst highest. */
export const STATES: readonly MapState[] = ["free", "near", "unresolved", "collides"];
const [FREE, NEAR, UNRESOLVED, COLLIDES] = [0, 1, 2, 3];
/** Surfaces this near count as touching [m]. */
const CONTACT = 1e-9;
/** Halvings inside one cell before it counts as unresolved, or as near where free could not be shown. */
const DEPTH = 8;
/** Distances computed inside one cell. */
const CELL_BUDGET = 96;

/** Cells of a map: each reaches half a step to either side of its node and ends at the border. */
export interface MapGrid {
  /** Nodes along each side. */
  readonly nodes: number;
  /** Code of each cell, row-major, rows along u. */
  readonly code: Uint8Array;
  /** Pair with the lowest bound in the cell, −1 beyond near, and that bound [m]. */
  readonly pair: Int16Array;
  readonly lower: Float64Array;
}

export function createGrid(nodes: number, near: number): MapGrid {
  const cells = nodes * nodes;
  return {
    nodes,
    code: new Uint8Array(cells),
    pair: new Int16Array(cells).fill(-1),
    lower: new Float64Array(cells).fill(near),
  };
}

/** What one pair does to the cells: those that are not free, with i = 0 or j = 0 for a side that it does not depend on. */
export interface PairCells {
  readonly alongF: boolean;
  readonly alongU: boolean;
  readonly i: readonly number[];
  readonly j: readonly number[];
  readonly code: readonly number[];
  readonly lower: readonly number[];
}

/** Puts what a pair does onto a map. */
export function addPair(grid: MapGrid, cells: PairCells, index: number): void {
  const { nodes } = grid;
  for (let k = 0; k < cells.code.length; k++) {
    const [code, lower] = [cells.code[k], cells.lower[k]];
    const [iFrom, iTo] = cells.alongF ? [cells.i[k], cells.i[k] + 1] : [0, nodes];
    const [jFrom, jTo] = cells.alongU ? [cells.j[k], cells.j[k] + 1] : [0, nodes];
    for (let cell = jFrom * nodes + iFrom, j = jFrom; j < jTo; j++) {
      cell = j * nodes + iFrom;
      for (let i = iFrom; i < iTo; i++, cell++) {
        const known = grid.code[cell];
        if (code < known || (code === known && grid.pair[cell] >= 0 && lower >= grid.lower[cell])) continue;
        grid.code[cell] = code;
        grid.lower[cell] = lower;
        grid.pair[cell] = index;
      }
    }
  }
}

/** Ends of a cell, or of a row of cells, along one side with n nodes. */
export function cellFrom(index: number, nodes: number): number {
  return Math.max(0, (index - 0.5) / (nodes - 1));
}
export function cellTo(index: number, nodes: number): number {
  return Math.min(1, (index + 0.5) / (nodes - 1));
}

/**
 * Certifies one pair over the whole map, coarse to fine.
 *
 * A rectangle with the middle (u, f) and the distance d there is beyond near, all of it, when
 *
 *     d − L − slack ≥ near,   L = Σ over both parts of the largest way from the middle to any place of the rectangle   (README eq. 7)
 *
 * otherwise it is divided where the parts travel farther. A single cell is divided further until it is proven clear, found in
 * contact, or spent. Distances are only looked for as far as they matter.
 *
 * @param pair     two parts; of those that the group drives, the fraction moves both
 * @param nodes    of the map along each side
 * @param near     [m]
 * @param settled  a map whose colliding cells need no second look
 * @source own derivation, README eq. 7
 * @verified fit-map.test.ts: dense sampling
 */
export function certifyPair(pair: PartPair, nodes: number, near: number, settled?: MapGrid): PairCells {
  const drives = (what: string) => pair.a.drivenBy === what || pair.b.drivenBy === what;
  const work = new PairOnGrid(pair, nodes, near, drives("group"), drives("stroke"), settled);
  work.visit(0, work.alongF ? nodes : 1, 0, work.alongU ? nodes : 1);
  return work;
}

/** What became of a rectangle. */
interface Judged {
  readonly distance: number;
  readonly lower: number;
  readonly splitF: boolean;
}

class PairOnGrid implements PairCells {
  readonly alongF: boolean;
  readonly alongU: boolean;
  readonly i: number[] = [];
  readonly j: number[] = [];
  readonly code: number[] = [];
  readonly lower: number[] = [];
  private readonly pair: PartPair;
  private readonly nodes: number;
  private readonly near: number;
  private readonly settled: MapGrid | undefined;
  private readonly query: DistanceQuery = createDistanceQuery();
  private readonly poseA = createPose();
  private readonly poseB = createPose();
  private readonly options = { upperBound: 1 };

  constructor(
    pair: PartPair,
    nodes: number,
    near: number,
    alongF: boolean,
    alongU: boolean,
    settled: MapGrid | undefined,
  ) {
    this.pair = pair;
    this.nodes = nodes;
    this.near = near;
    this.alongF = alongF;
    this.alongU = alongU;
    this.settled = settled;
  }

  /** Cells i0 … i1 − 1 along the fraction, j0 … j1 − 1 along the stroke. */
  visit(i0: number, i1: number, j0: number, j1: number): void {
    if (this.isSettled(i0, i1, j0, j1)) return;
    const [f0, f1] = this.alongF ? this.ends(i0, i1) : [0, 0];
    const [u0, u1] = this.alongU ? this.ends(j0, j1) : [0, 0];
    const { distance, lower, splitF } = this.judge(f0, f1, u0, u1);
    if (lower > 0 && this.isInside()) {
      this.mark(i0, i1, j0, j1, COLLIDES, 0);
      return;
    }
    if (lower >= this.near) return;
    const single = i1 - i0 === 1 && j1 - j0 === 1;
    if (single) this.cell(i0, j0, f0, f1, u0, u1, distance);
    else if ((splitF && i1 - i0 > 1) || j1 - j0 === 1) {
      const middle = (i0 + i1) >> 1;
      this.visit(i0, middle, j0, j1);
      this.visit(middle, i1, j0, j1);
    } else {
      const middle = (j0 + j1) >> 1;
      this.visit(i0, i1, j0, middle);
      this.visit(i0, i1, middle, j1);
    }
  }

  private ends(from: number, to: number): [number, number] {
    return [cellFrom(from, this.nodes), cellTo(to - 1, this.nodes)];
  }

  /** Distance at the middle of a rectangle and the bound that holds all over it. */
  private judge(f0: number, f1: number, u0: number, u1: number): Judged {
    const { a, b, slack } = this.pair;
    const f = 0.5 * (f0 + f1);
    const u = 0.5 * (u0 + u1);
    const alongF = (part: typeof a) => Math.max(part.groupTravel(f0, f), part.groupTravel(f, f1));
    const alongU = (part: typeof a) => Math.max(part.strokeTravel(u0, u), part.strokeTravel(u, u1));
    const [travelF, travelU] = [alongF(a) + alongF(b), alongU(a) + alongU(b)];
    a.poseAt(u, f, this.poseA);
    b.poseAt(u, f, this.poseB);
    this.options.upperBound = (this.near + slack + travelF + travelU) * (1 + 1e-9) + 1e-9;
    const { distance } = minimumDistance(a.part.tree, this.poseA, b.part.tree, this.poseB, this.query, this.options);
    return { distance, lower: distance - travelF - travelU - slack, splitF: travelF >= travelU };
  }

  /** Does one part lie inside the other, at the poses that were just judged? Only asked where the surfaces are apart. */
  private isInside(): boolean {
    const { a, b } = this.pair;
    const [p, q] = [a.part, b.part];
    let squared = 0;
    for (let k = 0; k < 3; k++) {
      const [r, s] = [this.poseA.rotation, this.poseB.rotation];
      const x = r[3 * k] * p.middle[0] + r[3 * k + 1] * p.middle[1] + r[3 * k + 2] * p.middle[2];
      const y = s[3 * k] * q.middle[0] + s[3 * k + 1] * q.middle[1] + s[3 * k + 2] * q.middle[2];
      squared += (x + this.poseA.translation[k] - y - this.poseB.translation[k]) ** 2;
    }
    if (Math.sqrt(squared) > Math.max(p.reach, q.reach)) return false;
    return enclosure(p.tree, this.poseA, q.tree, this.poseB, this.query) !== "none";
  }

  /** Divides one cell until it is proven clear or found in contact. */
  private cell(i: number, j: number, f0: number, f1: number, u0: number, u1: number, first: number): void {
    const { near } = this;
    const pending: [number, number, number, number, number][] = [[f0, f1, u0, u1, 0]];
    let [lowest, isNear, spent] = [near, first - this.pair.slack < near, 0];
    while (pending.length > 0) {
      const [g0, g1, v0, v1, depth] = pending.pop() as [number, number, number, number, number];
      const { distance, lower, splitF } = this.judge(g0, g1, v0, v1);
      spent += 1;
      if (distance <= CONTACT || (lower > 0 && this.isInside())) {
        this.mark(i, i + 1, j, j + 1, COLLIDES, 0);
        return;
      }
      isNear ||= distance - this.pair.slack < near;
      if (lower >= (isNear ? Number.MIN_VALUE : near)) {
        lowest = Math.min(lowest, lower);
        continue;
      }
      if (depth === DEPTH || spent >= CELL_BUDGET) {
        isNear = true;
        lowest = Math.min(lowest, Math.max(0, lower));
        continue;
      }
      const [f, v] = [0.5 * (g0 + g1), 0.5 * (v0 + v1)];
      if (splitF) pending.push([f, g1, v0, v1, depth + 1], [g0, f, v0, v1, depth + 1]);
      else pending.push([g0, g1, v, v1, depth + 1], [g0, g1, v0, v, depth + 1]);
    }
    if (isNear || lowest < near) this.mark(i, i + 1, j, j + 1, lowest > 0 ? NEAR : UNRESOLVED, lowest);
  }

  private isSettled(i0: number, i1: number, j0: number, j1: number): boolean {
    const { settled, nodes } = this;
    if (settled === undefined) return false;
    const [iFrom, iTo] = this.alongF ? [i0, i1] : [0, nodes];
    const [jFrom, jTo] = this.alongU ? [j0, j1] : [0, nodes];
    for (let j = jFrom; j < jTo; j++) {
      for (let i = iFrom; i < iTo; i++) if (settled.code[j * nodes + i] !== COLLIDES) return false;
    }
    return true;
  }

  private mark(i0: number, i1: number, j0: number, j1: number, code: number, lower: number): void {
    for (let j = j0; j < j1; j++) {
      for (let i = i0; i < i1; i++) {
        this.i.push(i);
        this.j.push(j);
        this.code.push(code);
        this.lower.push(lower);
      }
    }
  }
}

export const isOpen = (code: number): boolean => code === FREE || code === NEAR;
export const isFree = (code: number): boolean => code === FREE;
