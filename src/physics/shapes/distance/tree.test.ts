import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { movedMesh } from "../mesh.ts";
import { carryPoint } from "../pose.ts";
import { box } from "../stand-ins/box.ts";
import type { Mesh } from "../types.ts";
import { nodeGap } from "./box-gap.ts";
import { createDistanceQuery } from "./query.ts";
import { poseOf, segmentMesh, wavySphere } from "./testing/surfaces.ts";
import { createTree, type DistanceTree, NODE } from "./tree.ts";

/** Slots below a node. */
function slotsBelow(tree: DistanceTree, node: number): number[] {
  const down = tree.children[node]!;
  return down < 0 ? [-1 - down] : [...slotsBelow(tree, down), ...slotsBelow(tree, down + 1)];
}

function depth(tree: DistanceTree, node: number): number {
  const down = tree.children[node]!;
  return down < 0 ? 0 : 1 + Math.max(depth(tree, down), depth(tree, down + 1));
}

/** A node's box lies around every corner below it, and so does its sphere. */
function enclosesAll(tree: DistanceTree, node: number): boolean {
  const n = tree.nodes.subarray(NODE * node, NODE * node + NODE);
  return slotsBelow(tree, node).every((slot) => {
    for (let c = 9 * slot; c < 9 * slot + 9; c += 3) {
      const d = [0, 1, 2].map((k) => tree.corners[c + k]! - n[k]!);
      if (Math.hypot(...d) > n[3]!) return false;
      for (let k = 0; k < 3; k++) {
        if (Math.abs(d[0]! * n[7 + 3 * k]! + d[1]! * n[8 + 3 * k]! + d[2]! * n[9 + 3 * k]!) > n[4 + k]!) return false;
      }
    }
    return true;
  });
}

const MESHES: readonly (readonly [string, Mesh])[] = [
  ["waves", wavySphere(12, 1, 0.2)],
  ["box", box({ length: 3, width: 1, height: 0.2 }).mesh],
  ["segment", segmentMesh([0, 0, 0], [1, 2, 3])],
  ["far away", movedMesh(wavySphere(8, 1, 0.1), poseOf([1, 2, 3, 4], [1e5, -1e5, 1e5]))],
];

describe.each(MESHES)("tree of %s", (_, mesh) => {
  const tree = createTree(mesh);
  const count = mesh.triangles.length / 3;
  it("holds each triangle once, at the least depth", () => {
    expect(slotsBelow(tree, 0).sort((a, b) => a - b)).toEqual(Array.from({ length: count }, (_, i) => i));
    expect([...tree.triangleOfSlot].sort((a, b) => a - b)).toEqual(Array.from({ length: count }, (_, i) => i));
    expect(depth(tree, 0)).toBe(Math.ceil(Math.log2(count)));
  });
  it("every node encloses its triangles, on orthonormal axes", () => {
    for (let node = 0; node < 2 * count - 1; node++) {
      expect(enclosesAll(tree, node)).toBe(true);
      const axes = tree.nodes.subarray(NODE * node + 7, NODE * node + 16);
      for (let i = 0; i < 3; i++) {
        for (let j = 0; j <= i; j++) {
          const product = [0, 1, 2].reduce((sum, k) => sum + axes[3 * i + k]! * axes[3 * j + k]!, 0);
          expect(product).toBeCloseTo(i === j ? 1 : 0, 13);
        }
      }
    }
  });
});

describe("createTree", () => {
  it("has a corner of each part, by shared corners", () => {
    const two = {
      vertices: Float64Array.from([0, 0, 0, 1, 0, 0, 0, 1, 0, 5, 0, 0, 6, 0, 0, 5, 1, 0]),
      triangles: Uint32Array.of(0, 1, 2, 3, 4, 5),
    };
    expect(createTree(two).seeds).toHaveLength(6);
    expect(createTree(wavySphere(8, 1, 0.1)).seeds).toHaveLength(3);
  });
});

describe("nodeGap", () => {
  const unit = fc.double({ min: -1, max: 1, noNaN: true });
  it("is never above the distance of two points of two boxes", () => {
    const [a, b] = [createTree(box({ length: 3, width: 1, height: 0.2 }).mesh), createTree(wavySphere(8, 1, 0.2))];
    const shares = fc.array(unit, { minLength: 6, maxLength: 6 });
    const quaternion = fc.array(unit, { minLength: 4, maxLength: 4 }).filter((q) => Math.hypot(...q) > 0.1);
    const shift = fc.array(fc.double({ min: -4, max: 4, noNaN: true }), { minLength: 3, maxLength: 3 });
    const direction = fc.array(unit, { minLength: 3, maxLength: 3 }).filter((u) => Math.hypot(...u) > 0.1);
    let positive = 0;
    fc.assert(
      fc.property(shares, quaternion, shift, direction, fc.nat(10), fc.nat(40), (s, q, p, u, i, j) => {
        const relative = poseOf(q, p);
        const { gaps } = createDistanceQuery();
        gaps.cut[0] = Infinity;
        const r = relative.rotation;
        const size = Math.hypot(...u);
        for (let k = 0; k < 3; k++) gaps.direction[k] = u[k]! / size;
        for (let k = 0; k < 3; k++) {
          gaps.direction[3 + k] = (r[k]! * u[0]! + r[3 + k]! * u[1]! + r[6 + k]! * u[2]!) / size;
        }
        nodeGap(a.nodes, NODE * i, b.nodes, NODE * j, relative, gaps);
        const inBox = (nodes: Float64Array, at: number, share: readonly number[]): Float64Array => {
          const point = nodes.slice(at, at + 3);
          for (let k = 0; k < 3; k++) {
            for (let c = 0; c < 3; c++) {
              point[c] = point[c]! + share[k]! * nodes[at + 4 + k]! * nodes[at + 7 + 3 * k + c]!;
            }
          }
          return point;
        };
        const x = inBox(a.nodes, NODE * i, s.slice(0, 3));
        const y = inBox(b.nodes, NODE * j, s.slice(3));
        carryPoint(relative, y, 0, y, 0);
        const apart = Math.hypot(x[0]! - y[0]!, x[1]! - y[1]!, x[2]! - y[2]!);
        // A point counts for a node only if it lies in its box and in its sphere.
        const inside = (nodes: Float64Array, at: number, share: readonly number[]) =>
          Math.hypot(...[0, 1, 2].map((k) => share[k]! * nodes[at + 4 + k]!)) <= nodes[at + 3]!;
        fc.pre(inside(a.nodes, NODE * i, s.slice(0, 3)) && inside(b.nodes, NODE * j, s.slice(3)));
        if (gaps.gap[0]! > 0) positive += 1;
        expect(Math.sqrt(gaps.gap[0]!)).toBeLessThanOrEqual(apart + 1e-12);
      }),
      { seed: 21, numRuns: 1000 },
    );
    expect(positive).toBeGreaterThan(300);
  });
});
