import { segmentSegment } from "./segments.ts";

/** Scratch of the triangle routines; one per query, reused. */
export interface TriangleScratch {
  /** Result of one pair of edges. */
  readonly edge: Float64Array;
  /** Normal of each triangle (not of length one): a at 0, b at 3. */
  readonly normals: Float64Array;
  /** Heights of the corners of b over the plane of a at 0, of a over b at 3, times the length of the normal. */
  readonly heights: Float64Array;
  /** Squared lengths of the normals, then a flag for each plane: 1 when its heights have both signs. */
  readonly planes: Float64Array;
}

/** @returns scratch for `triangleTriangle` */
export function createTriangleScratch(): TriangleScratch {
  return {
    edge: new Float64Array(7),
    normals: new Float64Array(6),
    heights: new Float64Array(6),
    planes: new Float64Array(4),
  };
}

/**
 * Exact distance of two triangles with their nearest points; zero if they share any point.
 *
 *     d = min( 9 × edge–edge, 6 × corner–face inside, 0 if an edge pierces a face )      (README eq. 7)
 *
 * Without the last term two triangles that cross would seem apart. Triangles without area count as their edges.
 *
 * @param a     corners [m] of the first triangle, shape (3, 3) from `ia`
 * @param ia    index of its first coordinate
 * @param b     corners [m] of the second triangle, shape (3, 3) from `ib`, in the same axes
 * @param ib    index of its first coordinate
 * @param work  scratch
 * @param out   in: `out[0]` a squared distance [m²] above which the pair does not matter; out, only where the pair is nearer:
 *              [squared distance [m²], nearest point on a (3), nearest point on b (3)]
 * @returns true if the pair was nearer and `out` was written
 * @source own derivation, README eq. 7
 * @verified triangles.test.ts: dense search, piercing, coplanar overlap, slivers, symmetry
 */
export function triangleTriangle(
  a: Float64Array,
  ia: number,
  b: Float64Array,
  ib: number,
  work: TriangleScratch,
  out: Float64Array,
): boolean {
  const limit = out[0]!;
  if (beyondPlane(a, ia, b, ib, 0, work, out) || beyondPlane(b, ib, a, ia, 3, work, out)) return false;
  const { edge, planes } = work;
  const mayCrossA = planes[2] === 1 && (planes[3] === 1 || planes[1] === 0);
  const mayCrossB = planes[3] === 1 && (planes[2] === 1 || planes[0] === 0);
  if (mayCrossA && pierce(b, ib, a, ia, 0, work, out)) return true;
  if (mayCrossB && pierce(a, ia, b, ib, 3, work, out)) return true;
  for (let i = 0; i < 3; i++) {
    const i1 = ia + 3 * i;
    const i2 = i === 2 ? ia : i1 + 3;
    for (let j = 0; j < 3; j++) {
      const j1 = ib + 3 * j;
      segmentSegment(a, i1, i2, b, j1, j === 2 ? ib : j1 + 3, edge);
      if (edge[0]! < out[0]!) for (let k = 0; k < 7; k++) out[k] = edge[k]!;
    }
  }
  cornerFaces(b, ib, a, ia, 0, work, out);
  cornerFaces(a, ia, b, ib, 3, work, out);
  return out[0]! < limit;
}

/** Do all corners of `other` lie on one side of the plane of `face`, at least √out[0] from it? */
function beyondPlane(
  face: Float64Array,
  f: number,
  other: Float64Array,
  o: number,
  at: number,
  work: TriangleScratch,
  out: Float64Array,
): boolean {
  const { normals, heights, planes } = work;
  const x = face[f]!;
  const y = face[f + 1]!;
  const z = face[f + 2]!;
  const ux = face[f + 3]! - x;
  const uy = face[f + 4]! - y;
  const uz = face[f + 5]! - z;
  const vx = face[f + 6]! - x;
  const vy = face[f + 7]! - y;
  const vz = face[f + 8]! - z;
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const nn = nx * nx + ny * ny + nz * nz;
  // Normals of slivers and of specks (below 1e-50 m) are rounding noise; such a triangle counts as its edges.
  const flat = nn < 1e-200 || nn <= 1e-26 * (ux * ux + uy * uy + uz * uz) * (vx * vx + vy * vy + vz * vz);
  const slot = at === 0 ? 0 : 1;
  planes[slot] = flat ? 0 : nn;
  planes[slot + 2] = 0;
  if (flat) return false;
  normals[at] = nx;
  normals[at + 1] = ny;
  normals[at + 2] = nz;
  const h0 = (other[o]! - x) * nx + (other[o + 1]! - y) * ny + (other[o + 2]! - z) * nz;
  const h1 = (other[o + 3]! - x) * nx + (other[o + 4]! - y) * ny + (other[o + 5]! - z) * nz;
  const h2 = (other[o + 6]! - x) * nx + (other[o + 7]! - y) * ny + (other[o + 8]! - z) * nz;
  heights[at] = h0;
  heights[at + 1] = h1;
  heights[at + 2] = h2;
  const lowest = Math.min(h0, Math.min(h1, h2));
  if (lowest > 0) return lowest * lowest >= out[0]! * nn;
  const highest = Math.max(h0, Math.max(h1, h2));
  if (highest < 0) return highest * highest >= out[0]! * nn;
  planes[slot + 2] = 1;
  return false;
}

/** Is the point inside the prism over the face? The face's normal must be in `normals` at `at`. */
function insidePrism(face: Float64Array, f: number, at: number, normals: Float64Array, point: Float64Array, p: number) {
  const nx = normals[at]!;
  const ny = normals[at + 1]!;
  const nz = normals[at + 2]!;
  for (let i = 0; i < 3; i++) {
    const c = f + 3 * i;
    const d = i === 2 ? f : c + 3;
    const ex = face[d]! - face[c]!;
    const ey = face[d + 1]! - face[c + 1]!;
    const ez = face[d + 2]! - face[c + 2]!;
    const rx = point[p]! - face[c]!;
    const ry = point[p + 1]! - face[c + 1]!;
    const rz = point[p + 2]! - face[c + 2]!;
    if (nx * (ey * rz - ez * ry) + ny * (ez * rx - ex * rz) + nz * (ex * ry - ey * rx) < 0) return false;
  }
  return true;
}

/** Contact: an edge of `other` passes through `face`. Writes the common point twice into `out`. */
function pierce(
  other: Float64Array,
  o: number,
  face: Float64Array,
  f: number,
  at: number,
  work: TriangleScratch,
  out: Float64Array,
): boolean {
  const { heights, normals, edge } = work;
  for (let i = 0; i < 3; i++) {
    const j = i === 2 ? 0 : i + 1;
    const hi = heights[at + i]!;
    const hj = heights[at + j]!;
    // Edges in the plane are left to the edge pairs.
    if ((hi > 0 && hj > 0) || (hi < 0 && hj < 0) || hi === hj) continue;
    const t = hi / (hi - hj);
    for (let k = 0; k < 3; k++) {
      const from = other[o + 3 * i + k]!;
      edge[k + 1] = from + t * (other[o + 3 * j + k]! - from);
    }
    if (!insidePrism(face, f, at, normals, edge, 1)) continue;
    out[0] = 0;
    for (let k = 1; k < 4; k++) {
      out[k] = edge[k]!;
      out[k + 3] = edge[k]!;
    }
    return true;
  }
  return false;
}

/** Corners of `other` whose foot lies inside `face`. `at` is 0 when the face is triangle a, 3 when it is b. */
function cornerFaces(
  other: Float64Array,
  o: number,
  face: Float64Array,
  f: number,
  at: number,
  work: TriangleScratch,
  out: Float64Array,
): void {
  const { heights, normals, planes } = work;
  const nn = planes[at === 0 ? 0 : 1]!;
  if (nn === 0) return;
  for (let i = 0; i < 3; i++) {
    const height = heights[at + i]!;
    const squared = (height * height) / nn;
    if (squared >= out[0]! || !insidePrism(face, f, at, normals, other, o + 3 * i)) continue;
    out[0] = squared;
    const onOther = at === 0 ? 4 : 1;
    const onFace = at === 0 ? 1 : 4;
    for (let k = 0; k < 3; k++) {
      const corner = other[o + 3 * i + k]!;
      out[onOther + k] = corner;
      out[onFace + k] = corner - (height / nn) * normals[at + k]!;
    }
  }
}
