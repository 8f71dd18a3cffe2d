import { createDistanceQuery, createPose } from "../../physics/shapes/index.ts";
import { DEGREE } from "./frames.ts";
import { isFree, isOpen, type MapGrid, STATES } from "./map-grid.ts";
import type { MapCell } from "./map-path.ts";
import type { Scene } from "./motion.ts";
import { clearanceOver, sphereBound, toleranceFor } from "./pair-motion.ts";
import type { PartPair } from "./pairs.ts";
import type { MapMove, MapNode, MapPath, MapRegion } from "./types.ts";

/** Gear is retracted and extended, doors are closed and open. */
function fractionWord(fraction: number, isGear: boolean): string {
  if (fraction === 0) return isGear ? "retracted" : "closed";
  if (fraction === 1) return isGear ? "extended" : "open";
  return `${Math.round(1000 * fraction) / 10} %`;
}

/** Does a group have wheels? */
export function hasWheels(scene: Scene, group: string): boolean {
  return scene.parts.some(({ part }) => part.group === group && part.kind === "wheel");
}

interface Least {
  readonly clearance: number;
  readonly pair: PartPair | null;
}

/** Says what a map shows. */
export class MapWords {
  private readonly scene: Scene;
  private readonly pairs: readonly PartPair[];
  private readonly nodes: number;
  private readonly group: string;
  private readonly isGear: boolean;

  constructor(scene: Scene, pairs: readonly PartPair[], nodes: number, group: string) {
    this.isGear = hasWheels(scene, group);
    this.scene = scene;
    this.pairs = pairs;
    this.nodes = nodes;
    this.group = group;
  }

  path(grid: MapGrid, found: { corners: MapCell[]; length: number; throughNear: boolean }, closely: boolean): MapPath {
    const nodes = found.corners.map((cell) => this.node(cell));
    let least: Least = { clearance: Infinity, pair: null };
    const moves = nodes.slice(1).map((to, k): MapMove => {
      const from = nodes[k];
      const moves = from.fraction_1 === to.fraction_1 ? ("boom" as const) : ("group" as const);
      const ends = [found.corners[k], found.corners[k + 1]] as const;
      const own = closely ? this.leastOver(...ends) : this.leastOfCells(grid, ...ends);
      if (own.clearance < least.clearance) least = own;
      return { moves, from, to, leastClearance_m: own.clearance, words: this.words(moves, from, to) };
    });
    return {
      ...{ steps: moves.map((move) => move.words), moves, nodes, leastClearance_m: least.clearance },
      leastPair: least.pair === null ? null : [least.pair.a.part.name, least.pair.b.part.name],
      ...{ length: found.length, throughNear: found.throughNear },
    };
  }

  /** The same way in the other direction. */
  reversed(path: MapPath): MapPath {
    const moves = [...path.moves].reverse().map(({ moves, from, to, leastClearance_m }) => ({
      ...{ moves, from: to, to: from, leastClearance_m, words: this.words(moves, to, from) },
    }));
    return { ...path, moves, steps: moves.map((move) => move.words), nodes: [...path.nodes].reverse() };
  }

  private node({ i, j }: MapCell): MapNode {
    return { fraction_1: i / (this.nodes - 1), boomAngle_deg: this.scene.angleAt(j / (this.nodes - 1)) / DEGREE };
  }

  private words(moves: "boom" | "group", from: MapNode, to: MapNode): string {
    if (moves === "boom") {
      const verb = to.boomAngle_deg > from.boomAngle_deg ? "Lower" : "Raise";
      return `${verb} the boom from ${angle(from)} to ${angle(to)} with the ${this.group} ${this.at(from.fraction_1)}.`;
    }
    return `Move the ${this.group} from ${this.word(from.fraction_1)} to ${this.word(to.fraction_1)} with the boom at ${angle(from)}.`;
  }

  private word(fraction: number): string {
    return fractionWord(fraction, this.isGear);
  }

  at(fraction: number): string {
    return fraction === 0 || fraction === 1 ? this.word(fraction) : `at ${this.word(fraction)}`;
  }

  /** Certified least clearance of one move over all pairs, followed closely. */
  private leastOver(from: MapCell, to: MapCell): Least {
    const share = (index: number) => index / (this.nodes - 1);
    const along = from.i === to.i ? ("stroke" as const) : ("group" as const);
    const motion =
      along === "stroke"
        ? { along, from: share(from.j), to: share(to.j), held: share(from.i) }
        : { along, from: share(from.i), to: share(to.i), held: share(from.j) };
    let least: Least = { clearance: Infinity, pair: null };
    const poses = [createPose(), createPose()] as const;
    for (const pair of this.pairs) {
      if (sphereBound(pair, motion, poses) - pair.slack > least.clearance) continue;
      const query = createDistanceQuery();
      if (least.clearance < Infinity) {
        // Enough to know that this pair stays beyond the least so far.
        const rough = clearanceOver(pair, motion, query, 1e6, least.clearance + pair.slack, 2000);
        if (rough.spans.every((span) => span.state === "clear")) continue;
      }
      const coarse = clearanceOver(pair, motion, query, 0.5, 0, 2000);
      const fine = clearanceOver(pair, motion, query, toleranceFor(coarse.upperBound), 0, 2000);
      const clearance = Math.max(0, fine.lowerBound - pair.slack);
      if (clearance < least.clearance) least = { clearance, pair };
    }
    return least;
  }

  /** Least bound of the cells of one move; beyond near they are only known to be that far. */
  private leastOfCells(grid: MapGrid, from: MapCell, to: MapCell): Least {
    let least: Least = { clearance: Infinity, pair: null };
    for (let i = Math.min(from.i, to.i); i <= Math.max(from.i, to.i); i++) {
      for (let j = Math.min(from.j, to.j); j <= Math.max(from.j, to.j); j++) {
        const cell = j * grid.nodes + i;
        if (grid.lower[cell] >= least.clearance) continue;
        least = { clearance: grid.lower[cell], pair: grid.pair[cell] < 0 ? null : this.pairs[grid.pair[cell]] };
      }
    }
    return least;
  }

  region(grid: MapGrid, regionOf: Int32Array, region: number): MapRegion {
    const { nodes } = grid;
    let [cells, freeCells, i0, i1, j0, j1] = [0, 0, Infinity, 0, Infinity, 0];
    regionOf.forEach((own, cell) => {
      if (own !== region) return;
      const [i, j] = [cell % nodes, Math.floor(cell / nodes)];
      cells += 1;
      if (isFree(grid.code[cell])) freeCells += 1;
      [i0, i1, j0, j1] = [Math.min(i0, i), Math.max(i1, i), Math.min(j0, j), Math.max(j1, j)];
    });
    const [low, high] = [this.node({ i: i0, j: j0 }), this.node({ i: i1, j: j1 })];
    return {
      ...{ cells, freeCells },
      fractions_1: [low.fraction_1, high.fraction_1],
      boomAngles_deg: [low.boomAngle_deg, high.boomAngle_deg],
      holdsStart: regionOf[0] === region,
      holdsEnd: regionOf[regionOf.length - 1] === region,
    };
  }

  noPath(grid: MapGrid, regionOf: Int32Array, start: MapCell, end: MapCell): string {
    for (const [cell, where] of [
      [start, `${this.word(0)} with the boom stowed`],
      [end, `${this.word(1)} with the boom extended`],
    ] as const) {
      const at = cell.j * grid.nodes + cell.i;
      if (isOpen(grid.code[at])) continue;
      const { a, b } = this.pairs[grid.pair[at]];
      return `the ${this.group} ${where}: ${a.part.name} and ${b.part.name} ${STATES[grid.code[at]] === "collides" ? "touch" : "could not be shown apart"}`;
    }
    const blocking = this.blockingPairs(grid, regionOf, regionOf[start.j * grid.nodes + start.i]);
    return `the ${this.group} ${this.word(0)} with the boom stowed and ${this.word(1)} with the boom extended lie in regions that do not meet; between them: ${blocking}`;
  }

  /** Pairs in the cells along the edge of a region, most frequent first. */
  private blockingPairs(grid: MapGrid, regionOf: Int32Array, region: number): string {
    const { nodes } = grid;
    const counts = new Map<number, number>();
    for (let cell = 0; cell < regionOf.length; cell++) {
      if (isOpen(grid.code[cell])) continue;
      const i = cell % nodes;
      const touches =
        (i > 0 && regionOf[cell - 1] === region) ||
        (i < nodes - 1 && regionOf[cell + 1] === region) ||
        (cell >= nodes && regionOf[cell - nodes] === region) ||
        (cell < nodes * (nodes - 1) && regionOf[cell + nodes] === region);
      if (touches) counts.set(grid.pair[cell], (counts.get(grid.pair[cell]) ?? 0) + 1);
    }
    return [...counts]
      .sort((a, b) => b[1] - a[1] || a[0] - b[0])
      .slice(0, 3)
      .map(([index]) => `${this.pairs[index].a.part.name} against ${this.pairs[index].b.part.name}`)
      .join(", ");
  }
}

function angle(node: MapNode): string {
  return `${node.boomAngle_deg.toFixed(1)}°`;
}
