import { createMesh } from "../mesh.ts";
import type { Mesh } from "../types.ts";
import { principalAxes } from "./principal-axes.ts";

/** Doubles of one node: centre (3), radius of the sphere about it, half sizes of the box (3), its axes as rows (3, 3). */
export const NODE = 16;

/** A mesh ready for distance queries; in the axes of its body, so that it serves every pose. */
export interface DistanceTree {
  readonly mesh: Mesh;
  /** Spheres and boxes [m], shape (nodes, 16). */
  readonly nodes: Float64Array;
  /** First of two consecutive children; −1 − slot for a leaf, which holds one triangle. */
  readonly children: Int32Array;
  /** Corners of the triangles in the order of their slots [m], shape (m, 3, 3). */
  readonly corners: Float64Array;
  /** Index in the mesh of the triangle in each slot, shape (m). */
  readonly triangleOfSlot: Uint32Array;
  /** One corner [m] of each connected part of the surface, shape (parts, 3). */
  readonly seeds: Float64Array;
}

/**
 * Builds the tree of bounding boxes of a mesh: halves at the median along the longest axis of each box.
 *
 * Each node has a box along the principal axes of its corners and a sphere about the box's centre, both a few units of rounding larger than
 * needed. Depth is ⌈log₂ m⌉, whatever the shape. The mesh must not change afterwards.
 *
 * @param mesh  [m], body axes
 * @throws {DomainError} for what `createMesh` refuses
 * @source README section "Distance"; boxes chosen by measurement, README table 1
 * @verified tree.test.ts: every node encloses its triangles; minimum-distance.test.ts
 */
export function createTree(mesh: Mesh): DistanceTree {
  const { vertices, triangles } = createMesh(mesh.vertices, mesh.triangles);
  const count = triangles.length / 3;
  const loose = new Float64Array(9 * count);
  for (let i = 0; i < 3 * count; i++) {
    for (let k = 0; k < 3; k++) loose[3 * i + k] = vertices[3 * triangles[i]! + k]!;
  }
  const nodes = new Float64Array(NODE * (2 * count - 1));
  const children = new Int32Array(2 * count - 1);
  const order = new Uint32Array(count).map((_, index) => index);
  const keys = new Float64Array(count);
  const covariance = new Float64Array(9);
  let used = 1;
  const pending: number[] = [0, 0, count];
  while (pending.length > 0) {
    const end = pending.pop()!;
    const start = pending.pop()!;
    const node = pending.pop()!;
    fitNode(loose, order, start, end, nodes, NODE * node, covariance);
    if (end - start === 1) {
      children[node] = -1 - start;
      continue;
    }
    const middle = (start + end) >> 1;
    setKeys(loose, order, start, end, nodes, NODE * node, keys);
    selectMedian(order, keys, start, end - 1, middle);
    children[node] = used;
    pending.push(used, start, middle, used + 1, middle, end);
    used += 2;
  }
  const corners = new Float64Array(9 * count);
  for (let slot = 0; slot < count; slot++) {
    corners.set(loose.subarray(9 * order[slot]!, 9 * order[slot]! + 9), 9 * slot);
  }
  return { mesh, nodes, children, corners, triangleOfSlot: order, seeds: seedsOf(mesh) };
}

/** Box along the principal axes of the corners, and the sphere about its centre. */
function fitNode(
  loose: Float64Array,
  order: Uint32Array,
  start: number,
  end: number,
  nodes: Float64Array,
  at: number,
  s: Float64Array,
): void {
  covarianceOf(loose, order, start, end, s);
  principalAxes(s, nodes, at + 7);
  nodes.fill(0, at, at + 3);
  let largest = 0;
  for (let k = 0; k < 3; k++) {
    const ux = nodes[at + 7 + 3 * k]!;
    const uy = nodes[at + 8 + 3 * k]!;
    const uz = nodes[at + 9 + 3 * k]!;
    let low = Infinity;
    let high = -Infinity;
    for (let i = start; i < end; i++) {
      const from = 9 * order[i]!;
      for (let c = from; c < from + 9; c += 3) {
        const along = ux * loose[c]! + uy * loose[c + 1]! + uz * loose[c + 2]!;
        if (along < low) low = along;
        if (along > high) high = along;
      }
    }
    const middle = 0.5 * (low + high);
    nodes[at] = nodes[at]! + middle * ux;
    nodes[at + 1] = nodes[at + 1]! + middle * uy;
    nodes[at + 2] = nodes[at + 2]! + middle * uz;
    nodes[at + 4 + k] = 0.5 * (high - low);
    largest = Math.max(largest, Math.abs(low), Math.abs(high));
  }
  let squared = 0;
  for (let i = start; i < end; i++) {
    const from = 9 * order[i]!;
    for (let c = from; c < from + 9; c += 3) {
      const dx = loose[c]! - nodes[at]!;
      const dy = loose[c + 1]! - nodes[at + 1]!;
      const dz = loose[c + 2]! - nodes[at + 2]!;
      squared = Math.max(squared, dx * dx + dy * dy + dz * dz);
    }
  }
  // Room for the rounding of axes and centre, so that nothing that touches is ever left out.
  const room = 1e-14 * largest;
  nodes[at + 3] = Math.sqrt(squared) + room;
  for (let k = 4; k < 7; k++) nodes[at + k] = nodes[at + k]! + room;
}

function covarianceOf(loose: Float64Array, order: Uint32Array, start: number, end: number, s: Float64Array): void {
  let [mx, my, mz] = [0, 0, 0];
  for (let i = start; i < end; i++) {
    const from = 9 * order[i]!;
    for (let c = from; c < from + 9; c += 3) {
      mx += loose[c]!;
      my += loose[c + 1]!;
      mz += loose[c + 2]!;
    }
  }
  const share = 1 / (3 * (end - start));
  mx *= share;
  my *= share;
  mz *= share;
  s.fill(0);
  for (let i = start; i < end; i++) {
    const from = 9 * order[i]!;
    for (let c = from; c < from + 9; c += 3) {
      const x = loose[c]! - mx;
      const y = loose[c + 1]! - my;
      const z = loose[c + 2]! - mz;
      s[0] = s[0]! + x * x;
      s[1] = s[1]! + x * y;
      s[2] = s[2]! + x * z;
      s[4] = s[4]! + y * y;
      s[5] = s[5]! + y * z;
      s[8] = s[8]! + z * z;
    }
  }
  s[3] = s[1]!;
  s[6] = s[2]!;
  s[7] = s[5]!;
}

/** Position of each triangle's centroid along the longest axis of the node's box, times three. */
function setKeys(
  loose: Float64Array,
  order: Uint32Array,
  start: number,
  end: number,
  nodes: Float64Array,
  at: number,
  keys: Float64Array,
): void {
  let longest = 0;
  if (nodes[at + 5]! > nodes[at + 4]!) longest = 1;
  if (nodes[at + 6]! > nodes[at + 4 + longest]!) longest = 2;
  const ux = nodes[at + 7 + 3 * longest]!;
  const uy = nodes[at + 8 + 3 * longest]!;
  const uz = nodes[at + 9 + 3 * longest]!;
  for (let i = start; i < end; i++) {
    const c = 9 * order[i]!;
    keys[i] =
      ux * (loose[c]! + loose[c + 3]! + loose[c + 6]!) +
      uy * (loose[c + 1]! + loose[c + 4]! + loose[c + 7]!) +
      uz * (loose[c + 2]! + loose[c + 5]! + loose[c + 8]!);
  }
}

/** Hoare's selection: afterwards no key before `wanted` is above, none after it below the key there. */
function selectMedian(order: Uint32Array, keys: Float64Array, first: number, last: number, wanted: number): void {
  let low = first;
  let high = last;
  while (low < high) {
    const pivot = keys[(low + high) >> 1]!;
    let i = low;
    let j = high;
    while (i <= j) {
      while (keys[i]! < pivot) i++;
      while (keys[j]! > pivot) j--;
      if (i > j) break;
      const key = keys[i]!;
      keys[i] = keys[j]!;
      keys[j] = key;
      const index = order[i]!;
      order[i] = order[j]!;
      order[j] = index;
      i++;
      j--;
    }
    if (wanted <= j) high = j;
    else if (wanted >= i) low = i;
    else return;
  }
}

/** One corner of each set of triangles that hang together by their corner indices. */
function seedsOf(mesh: Mesh): Float64Array {
  const { vertices, triangles } = mesh;
  const parent = new Uint32Array(vertices.length / 3).map((_, index) => index);
  const rootOf = (index: number): number => {
    let root = index;
    while (parent[root] !== root) {
      parent[root] = parent[parent[root]!]!;
      root = parent[root]!;
    }
    return root;
  };
  for (let i = 0; i < triangles.length; i += 3) {
    parent[rootOf(triangles[i + 1]!)] = rootOf(triangles[i]!);
    parent[rootOf(triangles[i + 2]!)] = rootOf(triangles[i]!);
  }
  const roots = new Set<number>();
  for (const corner of triangles) roots.add(rootOf(corner));
  const seeds = new Float64Array(3 * roots.size);
  let at = 0;
  for (const root of roots) {
    seeds.set(vertices.subarray(3 * root, 3 * root + 3), at);
    at += 3;
  }
  return seeds;
}
