import { readFileSync } from "node:fs";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { loadPublished } from "../../../../reference/load.ts";
import { DomainError } from "../../../math/errors.ts";
import { inspectMesh } from "../inspect.ts";
import { createMesh, movedMesh } from "../mesh.ts";
import { createPose } from "../pose.ts";
import { box } from "../stand-ins/box.ts";
import type { Mesh, Pose } from "../types.ts";
import { enclosure } from "./enclosure.ts";
import { closerThan, minimumDistance } from "./minimum-distance.ts";
import { createDistanceQuery } from "./query.ts";
import { cornersOf, hullDistance } from "./testing/min-norm.ts";
import { poseOf, segmentMesh, wavySphere } from "./testing/surfaces.ts";
import { createTree, type DistanceTree } from "./tree.ts";
import { createTriangleScratch, triangleTriangle } from "./triangles.ts";

const ORIGIN = createPose();
const LIBRARY = "collision-library-distance-cases";

function distanceOf(a: DistanceTree, poseA: Pose, b: DistanceTree, poseB: Pose): number {
  return minimumDistance(a, poseA, b, poseB, createDistanceQuery()).distance;
}

/** Least distance over all pairs of triangles. */
function bruteForce(a: Mesh, poseA: Pose, b: Mesh, poseB: Pose): number {
  const [ca, cb] = [cornersOf(movedMesh(a, poseA)), cornersOf(movedMesh(b, poseB))];
  const out = new Float64Array(7);
  out[0] = Infinity;
  const work = createTriangleScratch();
  for (let i = 0; i < ca.length; i += 9) {
    for (let j = 0; j < cb.length; j += 9) triangleTriangle(ca, i, cb, j, work, out);
  }
  return Math.sqrt(out[0]!);
}

const unit = fc.double({ min: -1, max: 1, noNaN: true });
const quaternion = fc.array(unit, { minLength: 4, maxLength: 4 }).filter((q) => Math.hypot(...q) > 0.1);
const vector = fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 3, maxLength: 3 });
const pose = fc.tuple(quaternion, vector).map(([q, p]) => poseOf(q, p));
/** A handful of loose triangles: crossing, nearly flat, anything. */
const soup = fc.array(fc.array(unit, { minLength: 9, maxLength: 9 }), { minLength: 1, maxLength: 12 }).map((all) =>
  createMesh(
    Float64Array.from(all.flat()),
    new Uint32Array(3 * all.length).map((_, i) => i),
  ),
);

describe("published cases", () => {
  const published = loadPublished(LIBRARY);
  it("capsule and box: the capsule's segment less its radius", () => {
    const value = (name: string) => published.quantity(name).si;
    const size = { length: value("box x"), width: value("box y"), height: value("box z") };
    const boxTree = createTree(box(size).mesh);
    const half = value("capsule length") / 2;
    const radius = value("capsule radius");
    const rows = published.table("capsule and box");
    expect(rows).toHaveLength(4);
    for (const row of rows) {
      const along = row("turned").value === 1 ? [half, 0, 0] : [0, 0, half];
      const centre = ["x", "y", "z"].map((name) => row(name).si);
      const capsule = createTree(
        segmentMesh(
          along.map((x) => -x),
          along,
        ),
      );
      const query = createDistanceQuery();
      const found = minimumDistance(capsule, poseOf([1, 0, 0, 0], centre), boxTree, ORIGIN, query);
      // Exact decimals printed: rounding only.
      expect(found.distance - radius).toBeCloseTo(row("distance").si, 12);
      for (const [k, axis] of ["x", "y", "z"].entries()) {
        let printed: { si: number } | undefined;
        try {
          printed = row(`capsule ${axis}`);
        } catch {
          continue; // not unique
        }
        const towards = (found.pointB[k]! - found.pointA[k]!) / found.distance;
        expect(found.pointA[k]! + radius * towards).toBeCloseTo(printed.si, 12);
        expect(found.pointB[k]).toBeCloseTo(row(`box point ${axis}`).si, 12);
      }
    }
  });

  it("sphere and sphere, sphere and capsule: distance of points and segments less the radii, below zero where they overlap", () => {
    const [large, small] = [published.quantity("large sphere radius").si, published.quantity("small radius").si];
    const dot = createTree(segmentMesh([0, 0, 0], [0, 0, 0]));
    for (const row of published.table("sphere and sphere")) {
      const query = createDistanceQuery();
      const found = minimumDistance(dot, ORIGIN, dot, poseOf([1, 0, 0, 0], [row("x").si, 0, 0]), query);
      expect(found.distance - large - small).toBeCloseTo(row("distance").si, 12);
      expect(found.pointA[0]! + large).toBeCloseTo(row("large point x").si, 12);
      expect(found.pointB[0]! - small).toBeCloseTo(row("small point x").si, 12);
    }
    const half = published.quantity("sphere test capsule length").si / 2;
    const capsule = createTree(segmentMesh([0, 0, -half], [0, 0, half]));
    for (const row of published.table("sphere and capsule")) {
      const distance = distanceOf(dot, ORIGIN, capsule, poseOf([1, 0, 0, 0], [row("x").si, 0, 0]));
      expect(distance - large - small).toBeCloseTo(row("distance").si, 12);
    }
  });

  it("the open test mesh: tree, all pairs, and the hull of corner differences agree; its faults are found", () => {
    const text = readFileSync(new URL(`../../../../reference/published/${LIBRARY}/rob.obj`, import.meta.url), "utf8");
    const rows = text.split("\n").map((line) => line.trim().split(/\s+/));
    const vertices = rows.filter(([word]) => word === "v").flatMap((row) => row.slice(1).map(Number));
    const faces = rows.filter(([word]) => word === "f").flatMap((row) => row.slice(1).map((n) => Number(n) - 1));
    const rob = createMesh(Float64Array.from(vertices), Uint32Array.from(faces));
    expect(rob.triangles.length / 3).toBe(published.quantity("rob triangles").value);
    const tree = createTree(rob);
    for (const [q, p] of [
      [
        [1, 0, 0, 0],
        [0, 0, 3000],
      ],
      [
        [1, 0, 0, 0],
        [1900, 300, 100],
      ],
      [
        [0.3, 0.5, -0.2, 0.7],
        [700, -900, 1000],
      ],
      [
        [0.3, 0.5, -0.2, 0.7],
        [400, -100, 200],
      ],
    ] as const) {
      const other = poseOf(q, p);
      const query = createDistanceQuery();
      const found = minimumDistance(tree, ORIGIN, tree, other, query);
      // Sizes of 1e3: 1e-12 of that.
      expect(found.distance).toBeCloseTo(bruteForce(rob, ORIGIN, rob, other), 9);
      const [a, b] = [cornersOf(rob), cornersOf(movedMesh(rob, other))];
      const winner = hullDistance(a, 9 * found.triangleA, b, 9 * found.triangleB);
      expect(Math.abs(winner - found.distance)).toBeLessThan(1e-8);
    }
    const faults = inspectMesh(rob).problems.map(({ fault }) => fault);
    expect(faults).toContain("edge of more than two faces");
    expect(inspectMesh(rob).closed).toBe(false);
  });
});

describe("minimumDistance", () => {
  it("equals all pairs of triangles on loose triangles and on closed surfaces", () => {
    fc.assert(
      fc.property(soup, soup, pose, pose, (a, b, poseA, poseB) => {
        const found = distanceOf(createTree(a), poseA, createTree(b), poseB);
        expect(found).toBeCloseTo(bruteForce(a, poseA, b, poseB), 12);
      }),
      { seed: 1, numRuns: 200 },
    );
    const [a, b] = [wavySphere(12, 1, 0.15), wavySphere(10, 0.6, 0.25)];
    const [treeA, treeB] = [createTree(a), createTree(b)];
    fc.assert(
      fc.property(pose, pose, (poseA, poseB) => {
        const found = distanceOf(treeA, poseA, treeB, poseB);
        expect(found).toBeCloseTo(bruteForce(a, poseA, b, poseB), 12);
      }),
      { seed: 2, numRuns: 40 },
    );
  });

  it("has its points on the named triangles, at its distance", () => {
    const [a, b] = [wavySphere(12, 1, 0.15), wavySphere(10, 0.6, 0.25)];
    const [treeA, treeB] = [createTree(a), createTree(b)];
    fc.assert(
      fc.property(pose, pose, (poseA, poseB) => {
        const found = minimumDistance(treeA, poseA, treeB, poseB, createDistanceQuery());
        const apart = Math.hypot(...[0, 1, 2].map((k) => found.pointA[k]! - found.pointB[k]!));
        expect(apart).toBeCloseTo(found.distance, 12);
        const [ca, cb] = [cornersOf(movedMesh(a, poseA)), cornersOf(movedMesh(b, poseB))];
        const three = (p: Float64Array) => [...p, ...p, ...p];
        expect(hullDistance(ca, 9 * found.triangleA, three(found.pointA), 0)).toBeLessThan(1e-9);
        expect(hullDistance(cb, 9 * found.triangleB, three(found.pointB), 0)).toBeLessThan(1e-9);
      }),
      { seed: 3, numRuns: 40 },
    );
  });

  it("is symmetric, does not change when both bodies move together, and changes by no more than a shift", () => {
    const [treeA, treeB] = [
      createTree(wavySphere(12, 1, 0.15)),
      createTree(box({ length: 2, width: 0.3, height: 1 }).mesh),
    ];
    fc.assert(
      fc.property(quaternion, vector, quaternion, vector, vector, (qa, pa, q, p, shift) => {
        const [a, b] = [poseOf(qa, pa), poseOf(q, p)];
        const d = distanceOf(treeA, a, treeB, b);
        expect(distanceOf(treeB, b, treeA, a)).toBeCloseTo(d, 12);
        const relative = createPose();
        // Both seen from A's axes: a common motion.
        for (let i = 0; i < 3; i++) {
          for (let j = 0; j < 3; j++) {
            relative.rotation[3 * i + j] = [0, 1, 2].reduce(
              (sum, k) => sum + a.rotation[3 * k + i]! * b.rotation[3 * k + j]!,
              0,
            );
          }
          relative.translation[i] = [0, 1, 2].reduce(
            (sum, k) => sum + a.rotation[3 * k + i]! * (b.translation[k]! - a.translation[k]!),
            0,
          );
        }
        expect(distanceOf(treeA, ORIGIN, treeB, relative)).toBeCloseTo(d, 11);
        const shifted = poseOf(
          q,
          p.map((x, k) => x + shift[k]!),
        );
        expect(Math.abs(distanceOf(treeA, a, treeB, shifted) - d)).toBeLessThanOrEqual(Math.hypot(...shift) + 1e-12);
      }),
      { seed: 4, numRuns: 60 },
    );
  });

  it("gives the same distance warm and cold, within a tolerance, and below an upper bound", () => {
    const [treeA, treeB] = [createTree(wavySphere(16, 1, 0.15)), createTree(wavySphere(14, 0.6, 0.25))];
    const query = createDistanceQuery();
    const other = createDistanceQuery();
    fc.assert(
      fc.property(pose, pose, fc.double({ min: 0.01, max: 1, noNaN: true }), (poseA, poseB, tolerance) => {
        const cold = minimumDistance(treeA, poseA, treeB, poseB, createDistanceQuery(), { warmStart: false }).distance;
        expect(minimumDistance(treeA, poseA, treeB, poseB, query).distance).toBe(cold);
        const loose = minimumDistance(treeA, poseA, treeB, poseB, other, { tolerance });
        expect(loose.distance).toBeGreaterThanOrEqual(cold);
        expect(loose.distance).toBeLessThanOrEqual(cold + tolerance);
        expect(loose.lowerBound).toBeLessThanOrEqual(cold);
        const bounded = minimumDistance(treeA, poseA, treeB, poseB, other, { upperBound: tolerance });
        expect(bounded.outcome).toBe(cold < tolerance ? "found" : "beyond");
        expect(bounded.distance).toBe(Math.min(cold, tolerance));
        expect(closerThan(treeA, poseA, treeB, poseB, tolerance, other)).toBe(cold < tolerance);
      }),
      { seed: 5, numRuns: 100 },
    );
  });

  it("finds crossing solids whose features are far apart", () => {
    // A long thin bar through the middle of a large plate: no corner of either is near the other.
    const bar = createTree(box({ length: 0.1, width: 0.1, height: 20 }).mesh);
    const plate = createTree(box({ length: 30, width: 30, height: 0.2 }).mesh);
    expect(distanceOf(bar, poseOf([1, 0.1, 0.2, 0.3], [2, 3, 0.5]), plate, ORIGIN)).toBe(0);
  });

  it("refuses options and poses that are none", () => {
    const tree = createTree(wavySphere(8, 1, 0.1));
    const query = createDistanceQuery();
    const bad = createPose();
    bad.rotation[0] = Number.NaN;
    expect(() => minimumDistance(tree, bad, tree, ORIGIN, query)).toThrow(DomainError);
    expect(() => minimumDistance(tree, ORIGIN, tree, ORIGIN, query, { upperBound: 0 })).toThrow("upper bound");
    expect(() => minimumDistance(tree, ORIGIN, tree, ORIGIN, query, { tolerance: -1 })).toThrow("tolerance");
    expect(() => closerThan(tree, ORIGIN, tree, ORIGIN, 0, query)).toThrow("distance to be closer than is 0");
  });
});

describe("enclosure", () => {
  it("finds a body inside another, which the distance of surfaces does not show", () => {
    const [large, small] = [
      createTree(box({ length: 4, width: 4, height: 4 }).mesh),
      createTree(wavySphere(8, 0.5, 0.1)),
    ];
    const query = createDistanceQuery();
    expect(minimumDistance(large, ORIGIN, small, ORIGIN, query).distance).toBeGreaterThan(1);
    expect(enclosure(large, ORIGIN, small, ORIGIN, query)).toBe("a part of B lies in A");
    expect(enclosure(small, ORIGIN, large, ORIGIN, query)).toBe("a part of A lies in B");
    expect(enclosure(large, ORIGIN, small, poseOf([1, 2, 3, 4], [3, 0, 0]), query)).toBe("none");
    expect(enclosure(large, poseOf([1, 1, 0, 0], [0, 0, 9]), small, poseOf([1, 2, 3, 4], [1, 1, 8]), query)).toBe(
      "a part of B lies in A",
    );
  });
});
