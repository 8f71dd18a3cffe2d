import { type MeshProperties, meshProperties } from "./mesh.ts";
import type { Mesh } from "./types.ts";
import { weldMesh } from "./weld.ts";

/** What a surface may have wrong; the words say what to look for in the drawing. */
export type MeshFault =
  | "open edge"
  | "edge of more than two faces"
  | "neighbours face opposite sides"
  | "inside out"
  | "no thickness"
  | "triangle without area";

/** One kind of fault, with how often and where. */
export interface MeshProblem {
  readonly fault: MeshFault;
  /** Edges or triangles concerned; 1 for a fault of the whole. */
  readonly count: number;
  /** Up to eight places: a corner or the middle of an edge [m], body axes. */
  readonly places: readonly (readonly [number, number, number])[];
}

/** What `inspectMesh` found. */
export interface MeshInspection {
  readonly properties: MeshProperties;
  /** Every edge belongs to exactly two triangles. */
  readonly closed: boolean;
  /** Every shared edge is run through in opposite directions by its two triangles. */
  readonly oriented: boolean;
  /** Closed and oriented, with negative volume. */
  readonly inverted: boolean;
  /** Twice the volume over the surface [m]; near zero for a sheet drawn on both sides. */
  readonly meanThickness: number;
  /** Corners that coincide with an earlier one within the weld tolerance. */
  readonly duplicateVertices: number;
  /** Everything that is wrong, in the order of `MeshFault`; empty for a sound solid. */
  readonly problems: readonly MeshProblem[];
}

/** Settings of `inspectMesh`; all lengths [m]. */
export interface InspectOptions {
  /** Corners this near count as one; default 1e-9 of the diagonal of the bounds. */
  readonly weldTolerance?: number;
  /** Mean thickness below which a closed surface counts as a sheet; default 1e-6 of the diagonal. */
  readonly leastThickness?: number;
}

/**
 * Looks for everything that makes a surface no solid, and returns it as data.
 *
 * Closed and oriented: each edge is used once in each direction. Inside out: V < 0. No thickness: 2|V|/A below the least.
 *
 * @param mesh     [m]
 * @param options  tolerances
 * @throws {DomainError} if the weld tolerance is not finite or negative
 * @source definition of an oriented closed surface; own derivation
 * @verified mesh.test.ts: each fault planted in a sound solid
 */
export function inspectMesh(mesh: Mesh, options: InspectOptions = {}): MeshInspection {
  const properties = meshProperties(mesh);
  const { lowest: low, highest: high, area, signedVolume } = properties;
  const size = Math.hypot(high[0] - low[0], high[1] - low[1], high[2] - low[2]);
  const flat = triangleFaults(mesh, size);
  const tolerance = options.weldTolerance ?? 1e-9 * size;
  // A mesh of coinciding corners alone has nothing to weld.
  const welded = size > tolerance ? weldMesh(mesh, tolerance) : { mesh, merged: 0, dropped: 0 };
  const edges = edgeFaults(welded.mesh);
  const closed = edges.every(({ fault }) => fault === "neighbours face opposite sides");
  const oriented = !edges.some(({ fault }) => fault === "neighbours face opposite sides");
  const meanThickness = area > 0 ? (2 * Math.abs(signedVolume)) / area : 0;
  const thin = closed && oriented && meanThickness < (options.leastThickness ?? 1e-6 * size);
  const inverted = closed && oriented && !thin && signedVolume < 0;
  const problems = [...edges];
  if (inverted) problems.push({ fault: "inside out", count: 1, places: [] });
  const least = Math.min(high[0] - low[0], high[1] - low[1], high[2] - low[2]);
  if (thin || least <= Math.max(tolerance, 1e-12 * size)) {
    problems.push({ fault: "no thickness", count: 1, places: [properties.centroid] });
  }
  problems.push(...flat);
  return { properties, closed, oriented, inverted, meanThickness, duplicateVertices: welded.merged, problems };
}

/** Triangles whose least height is below 1e-12 of the size. */
function triangleFaults(mesh: Mesh, size: number): MeshProblem[] {
  const { vertices: v, triangles: t } = mesh;
  const places: [number, number, number][] = [];
  let count = 0;
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [3 * t[i]!, 3 * t[i + 1]!, 3 * t[i + 2]!];
    const [ux, uy, uz] = [v[b]! - v[a]!, v[b + 1]! - v[a + 1]!, v[b + 2]! - v[a + 2]!];
    const [wx, wy, wz] = [v[c]! - v[a]!, v[c + 1]! - v[a + 1]!, v[c + 2]! - v[a + 2]!];
    const twice = Math.hypot(uy * wz - uz * wy, uz * wx - ux * wz, ux * wy - uy * wx);
    const longest = Math.max(Math.hypot(ux, uy, uz), Math.hypot(wx, wy, wz), Math.hypot(ux - wx, uy - wy, uz - wz));
    if (twice > 1e-12 * size * longest) continue;
    count += 1;
    if (places.length < 8) places.push([v[a]!, v[a + 1]!, v[a + 2]!]);
  }
  return count === 0 ? [] : [{ fault: "triangle without area", count, places }];
}

/** Faults of the edges: sorted by their corners, each run of equal edges is one edge of the surface. */
function edgeFaults(mesh: Mesh): MeshProblem[] {
  const { vertices: v, triangles: t } = mesh;
  const n = v.length / 3;
  const keys = new Float64Array(t.length);
  for (let i = 0; i < t.length; i++) {
    const from = t[i]!;
    const to = t[i % 3 === 2 ? i - 2 : i + 1]!;
    keys[i] = 2 * (Math.min(from, to) * n + Math.max(from, to)) + (from < to ? 0 : 1);
  }
  keys.sort();
  const found: Record<string, { count: number; places: [number, number, number][] }> = {};
  for (let i = 0; i < keys.length; ) {
    const edge = Math.floor(keys[i]! / 2);
    let [uses, backward] = [0, 0];
    for (; i < keys.length && Math.floor(keys[i]! / 2) === edge; i++, uses++) backward += keys[i]! % 2;
    const fault =
      uses === 1
        ? "open edge"
        : uses > 2
          ? "edge of more than two faces"
          : backward !== 1
            ? "neighbours face opposite sides"
            : undefined;
    if (fault === undefined) continue;
    found[fault] ??= { count: 0, places: [] };
    found[fault].count += 1;
    if (found[fault].places.length < 8) {
      const [a, b] = [3 * Math.floor(edge / n), 3 * (edge % n)];
      found[fault].places.push([0.5 * (v[a]! + v[b]!), 0.5 * (v[a + 1]! + v[b + 1]!), 0.5 * (v[a + 2]! + v[b + 2]!)]);
    }
  }
  const order: MeshFault[] = ["open edge", "edge of more than two faces", "neighbours face opposite sides"];
  return order.filter((fault) => found[fault] !== undefined).map((fault) => ({ fault, ...found[fault]! }));
}
