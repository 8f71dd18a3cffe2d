import { DEGREE } from "./frames.ts";
import type { FitInputs } from "./inputs.ts";
import {
  addPair,
  cellFrom,
  cellTo,
  certifyPair,
  createGrid,
  isOpen,
  type MapGrid,
  type PairCells,
  STATES,
} from "./map-grid.ts";
import { regionsOf, shortestPath } from "./map-path.ts";
import { MapWords } from "./map-words.ts";
import { fractionAt, heldPart, type MovingPart, type Scene } from "./motion.ts";
import type { PartPair } from "./pairs.ts";
import type { GearMap, MapState } from "./types.ts";

/** Nodes of the maps with a held member: coarser, for there are many. */
const HELD_NODES = 31;
export const HELD_FRACTIONS: readonly number[] = [0, 0.5, 1];

export interface MapCase {
  readonly group: string;
  readonly held: { readonly body: string; readonly fraction: number } | null;
}

/**
 * All maps of a group: the nominal one, then each of its bodies stuck retracted, half-way and extended, where it has several.
 *
 * @param inputs  near and number of nodes
 * @param scene   boom angles
 * @param pairs   all solid pairs
 * @param group   name of the group
 * @source README eq. 7; `map-grid.ts`, `map-path.ts`
 * @verified test/validation/fit-map.test.ts
 */
export function groupMaps(inputs: FitInputs, scene: Scene, pairs: readonly PartPair[], group: string): GearMap[] {
  const bodies = new Set(scene.parts.filter(({ part }) => part.group === group).map(({ part }) => part.body));
  const nominal = nominalMap(inputs, scene, pairs, group);
  if (bodies.size < 2) return [nominal];
  const nodes = Math.min(HELD_NODES, inputs.mapNodes);
  const known = new Map<string, PairCells>();
  const heldMaps = [...bodies].flatMap((body) =>
    HELD_FRACTIONS.map((fraction) => heldMap(inputs, scene, pairs, { group, held: { body, fraction } }, nodes, known)),
  );
  return [nominal, ...heldMaps];
}

/** The map of a group whose bodies all move together. */
export function nominalMap(inputs: FitInputs, scene: Scene, pairs: readonly PartPair[], group: string): GearMap {
  const which = { group, held: null };
  const own = pairsOfCase(scene, pairs, which);
  const grid = createGrid(inputs.mapNodes, inputs.near);
  // Pairs that the stroke alone moves settle whole rows, and those of the group whole columns, before the rest is looked at.
  const order = own.map((_, index) => index).sort((a, b) => sidesOf(own[a]) - sidesOf(own[b]) || a - b);
  for (const index of order) addPair(grid, certifyPair(own[index], grid.nodes, inputs.near, grid), index);
  return finishMap(inputs, scene, own, grid, which);
}

/** Pairs without the held body are the same in all these maps, and are certified once. */
function heldMap(
  inputs: FitInputs,
  scene: Scene,
  pairs: readonly PartPair[],
  which: MapCase,
  nodes: number,
  known: Map<string, PairCells>,
): GearMap {
  const own = pairsOfCase(scene, pairs, which);
  const grid = createGrid(nodes, inputs.near);
  own.forEach((pair, index) => {
    const { a, b } = pair;
    const held = [a, b].filter(({ part }) => part.body === which.held?.body);
    const key =
      [a, b, ...held].map(({ part }) => part.name).join(" ") + (held.length === 0 ? "" : ` ${which.held?.fraction}`);
    const cells = known.get(key) ?? certifyPair(pair, nodes, inputs.near);
    known.set(key, cells);
    addPair(grid, cells, index);
  });
  return finishMap(inputs, scene, own, grid, which);
}

function finishMap(inputs: FitInputs, scene: Scene, own: readonly PartPair[], grid: MapGrid, which: MapCase): GearMap {
  const { group, held } = which;
  const { nodes } = grid;
  const describe = new MapWords(scene, own, nodes, group);
  const { regionOf, count } = regionsOf(grid);
  const [start, end] = [
    { i: 0, j: 0 },
    { i: nodes - 1, j: nodes - 1 },
  ];
  const found = shortestPath(grid, start, end);
  const path = found === null ? null : describe.path(grid, found, held === null);
  const slug = group.replaceAll(" ", "-");
  const name = held === null ? slug : `${slug}.${held.body}-held-${held.fraction}`;
  return {
    id: name,
    title: held === null ? `${group} and boom` : `${group} and boom, ${held.body} stuck ${describe.at(held.fraction)}`,
    group,
    held: held === null ? null : { body: held.body, fraction_1: held.fraction },
    others: [...scene.standsAt]
      .filter(([other]) => other !== group)
      .map(([other, standsAt_1]) => ({ group: other, standsAt_1 })),
    fractions: Array.from({ length: nodes }, (_, i) => i / (nodes - 1)),
    boomAngles_deg: Array.from({ length: nodes }, (_, j) => scene.angleAt(j / (nodes - 1)) / DEGREE),
    state: Array.from(grid.code, (code) => STATES[code]),
    leastPair: Array.from(grid.pair),
    pairs: own.map(({ a, b }) => [a.part.name, b.part.name]),
    near_m: inputs.near,
    counts: countsOf(grid),
    regions: Array.from({ length: count }, (_, region) => describe.region(grid, regionOf, region)),
    regionOf: Array.from(regionOf),
    groupMayMove_deg: runsOf(nodes, (j) => rowIsOpen(grid, j)).map(([from, to]) => [
      scene.angleAt(cellFrom(from, nodes)) / DEGREE,
      scene.angleAt(cellTo(to, nodes)) / DEGREE,
    ]),
    boomMayMove_1: runsOf(nodes, (i) => columnIsOpen(grid, i)).map(([from, to]) => [
      cellFrom(from, nodes),
      cellTo(to, nodes),
    ]),
    path,
    wayBack: path === null ? null : describe.reversed(path),
    noPathBecause: found === null ? describe.noPath(grid, regionOf, start, end) : null,
  };
}

/** Pairs that move in this map; held members and other groups stand still. */
function pairsOfCase(scene: Scene, pairs: readonly PartPair[], { group, held }: MapCase): PartPair[] {
  const standing = new Map<MovingPart, MovingPart>();
  const inCase = (moving: MovingPart): MovingPart => {
    if (moving.drivenBy !== "group") return moving;
    const isHeld = held !== null && moving.part.body === held.body;
    if (!isHeld && moving.part.group === group) return moving;
    const known = standing.get(moving) ?? heldPart(moving, isHeld ? held.fraction : fractionAt(scene, moving, 1));
    standing.set(moving, known);
    return known;
  };
  return pairs
    .map((pair) => ({ ...pair, a: inCase(pair.a), b: inCase(pair.b) }))
    .filter(({ a, b }) => a.drivenBy !== "nothing" || b.drivenBy !== "nothing");
}

/** 1 for a pair that one side of the map moves, 2 for both. */
function sidesOf({ a, b }: PartPair): number {
  return new Set([a.drivenBy, b.drivenBy].filter((what) => what !== "nothing")).size;
}

function countsOf(grid: MapGrid): Record<MapState, number> {
  const counts: Record<MapState, number> = { free: 0, near: 0, collides: 0, unresolved: 0 };
  for (const code of grid.code) counts[STATES[code]] += 1;
  return counts;
}

function rowIsOpen(grid: MapGrid, j: number): boolean {
  for (let i = 0; i < grid.nodes; i++) if (!isOpen(grid.code[j * grid.nodes + i])) return false;
  return true;
}

function columnIsOpen(grid: MapGrid, i: number): boolean {
  for (let j = 0; j < grid.nodes; j++) if (!isOpen(grid.code[j * grid.nodes + i])) return false;
  return true;
}

/** First and last index of each unbroken run. */
function runsOf(count: number, holds: (index: number) => boolean): [number, number][] {
  const runs: [number, number][] = [];
  for (let index = 0; index < count; index++) {
    if (!holds(index)) continue;
    const last = runs.at(-1);
    if (last !== undefined && last[1] === index - 1) last[1] = index;
    else runs.push([index, index]);
  }
  return runs;
}
