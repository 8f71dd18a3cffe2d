import type { Mesh } from "../../types.ts";

type Point = readonly number[];

/**
 * Distance of two triangles by another road than `triangleTriangle`: the shortest vector of the hull of the nine corner differences,
 * over every subset of up to four of them. For tests.
 *
 * @param a  corners [m], shape (3, 3) from `ia`
 * @param b  corners [m], shape (3, 3) from `ib`
 */
export function hullDistance(a: ArrayLike<number>, ia: number, b: ArrayLike<number>, ib: number): number {
  const points: Point[] = [];
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j < 3; j++) points.push([0, 1, 2].map((k) => a[ia + 3 * i + k]! - b[ib + 3 * j + k]!));
  }
  let least = Infinity;
  for (let code = 1; code < 1 << 9; code++) {
    const subset = points.filter((_, index) => (code & (1 << index)) !== 0);
    if (subset.length <= 4) least = Math.min(least, subsetDistance(subset));
  }
  return least;
}

/** Length of the shortest vector of the affine hull if it lies within the simplex, else ∞. */
function subsetDistance(subset: readonly Point[]): number {
  const base = subset[0]!;
  const edges = subset.slice(1).map((p) => p.map((x, k) => x - base[k]!));
  const n = edges.length;
  const gram = edges.map((e) => [...edges.map((f) => dot(e, f)), -dot(e, base)]);
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(gram[r]![c]!) > Math.abs(gram[pivot]![c]!)) pivot = r;
    [gram[c], gram[pivot]] = [gram[pivot]!, gram[c]!];
    if (Math.abs(gram[c]![c]!) <= 1e-13 * dot(edges[c]!, edges[c]!)) return Infinity;
    for (let r = 0; r < n; r++) {
      if (r === c) continue;
      const factor = gram[r]![c]! / gram[c]![c]!;
      for (let k = c; k <= n; k++) gram[r]![k] = gram[r]![k]! - factor * gram[c]![k]!;
    }
  }
  const weights = gram.map((row, c) => row[n]! / row[c]!);
  const first = 1 - weights.reduce((sum, w) => sum + w, 0);
  if (first < -1e-12 || weights.some((w) => w < -1e-12)) return Infinity;
  return Math.hypot(...base.map((x, k) => x + edges.reduce((sum, e, c) => sum + weights[c]! * e[k]!, 0)));
}

function dot(u: Point, v: Point): number {
  return u[0]! * v[0]! + u[1]! * v[1]! + u[2]! * v[2]!;
}

/** Corners of every triangle in a row, shape (m, 3, 3). */
export function cornersOf(mesh: Mesh): Float64Array {
  const out = new Float64Array(3 * mesh.triangles.length);
  mesh.triangles.forEach((corner, index) => {
    out.set(mesh.vertices.subarray(3 * corner, 3 * corner + 3), 3 * index);
  });
  return out;
}
