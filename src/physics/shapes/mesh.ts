import { DomainError } from "../../math/errors.ts";
import { carryPoint } from "./pose.ts";
import type { Mesh, Pose } from "./types.ts";

/**
 * A mesh from its arrays, checked for what no mesh may have. Faults of the surface itself are data: see `inspectMesh`.
 *
 * @param vertices   [m], shape (n, 3) row-major; kept, not copied
 * @param triangles  corner indices, shape (m, 3) row-major, m ≥ 1; kept, not copied
 * @throws {DomainError} for an incomplete row, no triangle, an index outside the vertices or a coordinate that is not finite
 * @source definition
 * @verified mesh.test.ts
 */
export function createMesh(vertices: Float64Array, triangles: Uint32Array): Mesh {
  if (vertices.length % 3 !== 0) throw new DomainError("length of vertices", vertices.length, "a multiple of 3");
  if (triangles.length === 0 || triangles.length % 3 !== 0) {
    throw new DomainError("length of triangles", triangles.length, "a multiple of 3, at least 3");
  }
  const count = vertices.length / 3;
  for (const index of triangles) {
    if (index >= count) throw new DomainError("corner index", index, `below the number of vertices, ${count}`);
  }
  for (const coordinate of vertices) {
    if (!Number.isFinite(coordinate)) throw new DomainError("coordinate of a vertex", coordinate, "a finite number");
  }
  return { vertices, triangles };
}

/** Integral properties of a mesh in its body axes. */
export interface MeshProperties {
  /** Smallest and largest x, y, z of the corners [m]; shape (3) each. */
  readonly lowest: readonly [number, number, number];
  readonly highest: readonly [number, number, number];
  /** Surface [m²]. */
  readonly area: number;
  /** Enclosed volume [m³]; negative when the surface is inside out, meaningless when it is open. */
  readonly signedVolume: number;
  /** Centroid of the enclosed volume [m]; of the surface when the volume is no more than rounding. */
  readonly centroid: readonly [number, number, number];
}

/**
 * Bounds, surface, volume and centroid.
 *
 *     A = ½ Σ |u × v|,   V = ⅙ Σ a·(b × c),   V·g = ¹⁄₂₄ Σ a·(b × c)·(a + b + c)      (README eq. 1)
 *
 * Corners are taken from the middle of the bounds, so that a datum far away costs no digits.
 *
 * @param mesh  [m], corners counter-clockwise seen from outside
 * @source divergence theorem, own derivation
 * @verified mesh.test.ts: cube, tetrahedron (closed forms), frame invariance; stand-ins.test.ts
 */
export function meshProperties(mesh: Mesh): MeshProperties {
  const { vertices: v, triangles: t } = mesh;
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (const corner of t) {
    for (let k = 0; k < 3; k++) {
      low[k] = Math.min(low[k]!, v[3 * corner + k]!);
      high[k] = Math.max(high[k]!, v[3 * corner + k]!);
    }
  }
  const [ox, oy, oz] = [0.5 * (low[0] + high[0]), 0.5 * (low[1] + high[1]), 0.5 * (low[2] + high[2])];
  let [area, volume6] = [0, 0];
  let [gx, gy, gz, sx, sy, sz] = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [3 * t[i]!, 3 * t[i + 1]!, 3 * t[i + 2]!];
    const [ax, ay, az] = [v[a]! - ox, v[a + 1]! - oy, v[a + 2]! - oz];
    const [bx, by, bz] = [v[b]! - ox, v[b + 1]! - oy, v[b + 2]! - oz];
    const [cx, cy, cz] = [v[c]! - ox, v[c + 1]! - oy, v[c + 2]! - oz];
    const piece = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
    const face = 0.5 * crossLength(bx - ax, by - ay, bz - az, cx - ax, cy - ay, cz - az);
    const [mx, my, mz] = [ax + bx + cx, ay + by + cy, az + bz + cz];
    volume6 += piece;
    gx += piece * mx;
    gy += piece * my;
    gz += piece * mz;
    area += face;
    sx += face * mx;
    sy += face * my;
    sz += face * mz;
  }
  const size = Math.hypot(high[0] - low[0], high[1] - low[1], high[2] - low[2]);
  const solid = Math.abs(volume6) > 1e-12 * area * size;
  const scale = solid ? 0.25 / volume6 : area > 0 ? 1 / (3 * area) : 0;
  const [hx, hy, hz] = solid ? [gx, gy, gz] : [sx, sy, sz];
  return {
    lowest: low,
    highest: high,
    area,
    signedVolume: volume6 / 6,
    centroid: [ox + scale * hx, oy + scale * hy, oz + scale * hz],
  };
}

function crossLength(ux: number, uy: number, uz: number, vx: number, vy: number, vz: number): number {
  return Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx);
}

/**
 * The same surface in other axes.
 *
 * @param mesh  [m] in body axes
 * @param pose  x_new = R·x_body + p
 * @returns a new mesh; the triangles are shared
 * @source definition
 * @verified mesh.test.ts
 */
export function movedMesh(mesh: Mesh, pose: Pose): Mesh {
  const vertices = new Float64Array(mesh.vertices.length);
  for (let i = 0; i < vertices.length; i += 3) carryPoint(pose, mesh.vertices, i, vertices, i);
  return { vertices, triangles: mesh.triangles };
}

/**
 * The surface seen in a mirror, y → −y: a left panel from a right one. It stays outward.
 *
 * @param mesh  [m]
 * @source definition
 * @verified mesh.test.ts: volume kept
 */
export function mirroredMesh(mesh: Mesh): Mesh {
  const vertices = mesh.vertices.slice();
  for (let i = 1; i < vertices.length; i += 3) vertices[i] = -vertices[i]!;
  const triangles = mesh.triangles.slice();
  for (let i = 0; i < triangles.length; i += 3) {
    triangles[i + 1] = mesh.triangles[i + 2]!;
    triangles[i + 2] = mesh.triangles[i + 1]!;
  }
  return { vertices, triangles };
}

/**
 * Several surfaces of one body as one mesh; they may overlap.
 *
 * @param meshes  [m], all in the same axes; at least one
 * @throws {DomainError} for an empty list
 * @source definition
 * @verified mesh.test.ts
 */
export function joinedMesh(meshes: readonly Mesh[]): Mesh {
  if (meshes.length === 0) throw new DomainError("number of meshes to join", 0, "at least 1");
  const vertices = new Float64Array(meshes.reduce((sum, mesh) => sum + mesh.vertices.length, 0));
  const triangles = new Uint32Array(meshes.reduce((sum, mesh) => sum + mesh.triangles.length, 0));
  let [corner, at] = [0, 0];
  for (const mesh of meshes) {
    vertices.set(mesh.vertices, 3 * corner);
    for (const index of mesh.triangles) triangles[at++] = index + corner;
    corner += mesh.vertices.length / 3;
  }
  return { vertices, triangles };
}
