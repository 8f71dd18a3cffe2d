/** Connected areas of a map that deserve a name, and where the name fits best. */
import type { GearMap, MapState } from "../../studies/fit/types.ts";

export type Piece =
  | { readonly kind: "region"; readonly region: number; readonly fraction: number; readonly boomAngle: number }
  | {
      readonly kind: "blocked";
      readonly state: MapState;
      /** Index of the pair that is nearest in most of its cells; −1 when none is named. */
      readonly pair: number;
      readonly fraction: number;
      readonly boomAngle: number;
    };

/** Areas below this part of the map get no name. */
const SMALLEST = 0.012;

/** Cells that hang together and satisfy `same`, from a seed. */
function flood(map: GearMap, seed: number, seen: Uint8Array, same: (cell: number) => boolean): number[] {
  const [n, cells] = [map.fractions.length, map.state.length];
  const found = [seed];
  seen[seed] = 1;
  for (let k = 0; k < found.length; k++) {
    const cell = found[k]!;
    const column = cell % n;
    const around = [column > 0 ? cell - 1 : -1, column < n - 1 ? cell + 1 : -1, cell - n, cell + n];
    for (const next of around) {
      if (next < 0 || next >= cells || seen[next] === 1 || !same(next)) continue;
      seen[next] = 1;
      found.push(next);
    }
  }
  return found;
}

/** The cell of a set that lies farthest from everything outside it and from some points, in parts of the map. */
function innermost(map: GearMap, cells: readonly number[], taken: readonly (readonly [number, number])[]): number {
  const n = map.fractions.length;
  const rows = map.boomAngles_deg.length;
  const inside = new Set(cells);
  const [low, high] = [map.boomAngles_deg[0]!, map.boomAngles_deg.at(-1)!];
  const reach = (cell: number): number => {
    const [c, r] = [cell % n, Math.floor(cell / n)];
    // room to both sides counts twice: a name is wide
    let [left, right, up, down] = [0, 0, 0, 0];
    while (c - left - 1 >= 0 && inside.has(cell - left - 1)) left++;
    while (c + right + 1 < n && inside.has(cell + right + 1)) right++;
    while (r - down - 1 >= 0 && inside.has(cell - (down + 1) * n)) down++;
    while (r + up + 1 < rows && inside.has(cell + (up + 1) * n)) up++;
    const wide = Math.min(left, right) / n;
    const tall = Math.min(up, down) / rows;
    const [x, y] = [map.fractions[c]!, (map.boomAngles_deg[r]! - low) / (high - low)];
    const free = Math.min(1, ...taken.map(([f, a]) => Math.hypot(x - f, 2 * (y - (a - low) / (high - low)))));
    return Math.min(wide, 0.3) + Math.min(tall, 0.12) * 2 + Math.min(free, 0.2);
  };
  return cells.reduce((best, cell) => (reach(cell) > reach(best) ? cell : best));
}

/** Points every few hundredths along a polyline. */
function along(line: readonly (readonly [number, number])[]): (readonly [number, number])[] {
  return line.flatMap(([f, a], i) => {
    const next = line[i + 1];
    if (next === undefined) return [[f, a] as const];
    return Array.from({ length: 20 }, (_, k) => [f + ((next[0] - f) * k) / 20, a + ((next[1] - a) * k) / 20] as const);
  });
}

/** The pair named by most cells of a set; −1 when none names one. */
function commonPair({ leastPair }: GearMap, cells: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const cell of cells) {
    const pair = leastPair[cell] ?? -1;
    if (pair >= 0) counts.set(pair, (counts.get(pair) ?? 0) + 1);
  }
  return [...counts].reduce((best, one) => (one[1] > best[1] ? one : best), [-1, 0] as [number, number])[0];
}

/**
 * Areas to be named: every region that can be moved in, every blocked area that is large enough.
 *
 * @param line corners (fraction, boom angle) of a path that names should keep away from
 */
export function piecesOf(map: GearMap, line: readonly (readonly [number, number])[]): Piece[] {
  const n = map.fractions.length;
  const taken = along(line);
  const place = (cells: readonly number[]) => {
    const cell = innermost(map, cells, taken);
    return { fraction: map.fractions[cell % n]!, boomAngle: map.boomAngles_deg[Math.floor(cell / n)]! };
  };
  const regions = map.regions.flatMap((_, region): Piece[] => {
    const cells = map.regionOf.flatMap((own, cell) => (own === region ? [cell] : []));
    return cells.length < SMALLEST * map.state.length ? [] : [{ kind: "region", region, ...place(cells) }];
  });
  const seen = new Uint8Array(map.state.length);
  const blocked: Piece[] = [];
  map.state.forEach((state, cell) => {
    if (seen[cell] === 1 || state === "free" || state === "near") return;
    const cells = flood(map, cell, seen, (other) => map.state[other] === state);
    if (cells.length < SMALLEST * map.state.length) return;
    blocked.push({ kind: "blocked", state, pair: commonPair(map, cells), ...place(cells) });
  });
  return [...blocked, ...regions];
}
