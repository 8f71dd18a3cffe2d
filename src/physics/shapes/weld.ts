import { DomainError } from "../../math/errors.ts";
import { meshProperties } from "./mesh.ts";
import type { Mesh } from "./types.ts";

/** A mesh whose coinciding corners are one. */
export interface WeldedMesh {
  readonly mesh: Mesh;
  /** Corners that gave way to an earlier one. */
  readonly merged: number;
  /** Triangles that lost an edge by it and were left out. */
  readonly dropped: number;
}

/**
 * Makes corners within a tolerance one corner, as files without shared corners need; the earliest corner stays where it is.
 *
 * A corner joins the earliest kept corner within the tolerance, so that no corner moves by more than it; chains of near
 * corners are not pulled together.
 *
 * @param mesh       [m]
 * @param tolerance  largest distance of two corners that become one [m], ≥ 0
 * @throws {DomainError} for a negative or non-finite tolerance, or one so large that no triangle is left
 * @source own derivation (grid of cells no smaller than the tolerance; only cells within it of the corner are looked at)
 * @verified mesh.test.ts: exploded cube, distance moved
 */
export function weldMesh(mesh: Mesh, tolerance: number): WeldedMesh {
  if (!(tolerance >= 0 && tolerance < Infinity)) {
    throw new DomainError("weld tolerance", tolerance, "a finite number, at least 0");
  }
  const { map, kept } = matchVertices(mesh, tolerance);
  const triangles = new Uint32Array(mesh.triangles.length);
  let at = 0;
  for (let i = 0; i < mesh.triangles.length; i += 3) {
    const a = map[mesh.triangles[i]!]!;
    const b = map[mesh.triangles[i + 1]!]!;
    const c = map[mesh.triangles[i + 2]!]!;
    if (a === b || b === c || c === a) continue;
    triangles[at++] = a;
    triangles[at++] = b;
    triangles[at++] = c;
  }
  if (at === 0) throw new DomainError("weld tolerance", tolerance, "smaller than the triangles");
  const vertices = new Float64Array(3 * kept.length);
  kept.forEach((old, index) => {
    vertices.set(mesh.vertices.subarray(3 * old, 3 * old + 3), 3 * index);
  });
  return {
    mesh: { vertices, triangles: triangles.slice(0, at) },
    merged: mesh.vertices.length / 3 - kept.length,
    dropped: (mesh.triangles.length - at) / 3,
  };
}

function matchVertices(mesh: Mesh, tolerance: number): { map: Uint32Array; kept: number[] } {
  const v = mesh.vertices;
  const { lowest, highest } = meshProperties(mesh);
  const size = Math.hypot(highest[0] - lowest[0], highest[1] - lowest[1], highest[2] - lowest[2]);
  // 1e5 cells across at most: their numbers stay whole in a double, and a larger cell only holds more corners.
  const cell = Math.max(tolerance, 1e-5 * size, Number.MIN_VALUE * 2 ** 52);
  const cells = new Map<number, number[]>();
  const map = new Uint32Array(v.length / 3);
  const kept: number[] = [];
  for (let i = 0; i < map.length; i++) {
    const found = nearestKept(v, i, lowest, cell, cells, kept, tolerance);
    if (found >= 0) {
      map[i] = found;
      continue;
    }
    map[i] = kept.length;
    const key = cellKey(
      Math.floor((v[3 * i]! - lowest[0]) / cell),
      Math.floor((v[3 * i + 1]! - lowest[1]) / cell),
      Math.floor((v[3 * i + 2]! - lowest[2]) / cell),
    );
    const list = cells.get(key);
    if (list === undefined) cells.set(key, [kept.length]);
    else list.push(kept.length);
    kept.push(i);
  }
  return { map, kept };
}

/** Number of a cell; indices from −2 to 131 069. */
function cellKey(ix: number, iy: number, iz: number): number {
  return ((ix + 2) * 131072 + iy + 2) * 131072 + iz + 2;
}

/** Index among `kept` of the earliest corner within the tolerance of corner `i`; −1 if there is none. */
function nearestKept(
  v: Float64Array,
  i: number,
  lowest: readonly [number, number, number],
  cell: number,
  cells: ReadonlyMap<number, number[]>,
  kept: readonly number[],
  tolerance: number,
): number {
  const from = [0, 1, 2].map((k) => Math.floor((v[3 * i + k]! - lowest[k]! - tolerance) / cell));
  const to = [0, 1, 2].map((k) => Math.floor((v[3 * i + k]! - lowest[k]! + tolerance) / cell));
  let found = -1;
  for (let ix = from[0]!; ix <= to[0]!; ix++) {
    for (let iy = from[1]!; iy <= to[1]!; iy++) {
      for (let iz = from[2]!; iz <= to[2]!; iz++) {
        for (const candidate of cells.get(cellKey(ix, iy, iz)) ?? []) {
          const j = 3 * kept[candidate]!;
          const apart = Math.hypot(v[3 * i]! - v[j]!, v[3 * i + 1]! - v[j + 1]!, v[3 * i + 2]! - v[j + 2]!);
          if (apart <= tolerance && (found < 0 || candidate < found)) found = candidate;
        }
      }
    }
  }
  return found;
}
