import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hullDistance } from "./testing/min-norm.ts";
import { createTriangleScratch, triangleTriangle } from "./triangles.ts";

const work = createTriangleScratch();

function result(a: ArrayLike<number>, b: ArrayLike<number>): Float64Array {
  const out = new Float64Array(7);
  out[0] = Infinity;
  expect(triangleTriangle(Float64Array.from(a), 0, Float64Array.from(b), 0, work, out)).toBe(true);
  return out;
}
const distance = (a: ArrayLike<number>, b: ArrayLike<number>): number => Math.sqrt(result(a, b)[0]!);

const triangle = (size: number) =>
  fc.array(fc.double({ min: -size, max: size, noNaN: true }), { minLength: 9, maxLength: 9 });
/** Corners on a coarse grid: coplanar, parallel, touching and degenerate triangles are common. */
const gridTriangle = fc.array(fc.integer({ min: -1, max: 2 }), { minLength: 9, maxLength: 9 });

describe("triangleTriangle", () => {
  it("agrees with the shortest vector of the hull of corner differences", () => {
    fc.assert(
      fc.property(triangle(1), triangle(1), fc.double({ min: 0, max: 3, noNaN: true }), (a, b, shift) => {
        const moved = b.map((x, k) => (k % 3 === 0 ? x + shift : x));
        const [found, other] = [distance(a, moved), hullDistance(a, 0, moved, 0)];
        expect(Math.abs(found - other)).toBeLessThanOrEqual(1e-9);
      }),
      { seed: 5, numRuns: 400 },
    );
  });

  it("agrees with it for coplanar, touching and degenerate triangles", () => {
    fc.assert(
      fc.property(gridTriangle, gridTriangle, (a, b) => {
        expect(Math.abs(distance(a, b) - hullDistance(a, 0, b, 0))).toBeLessThanOrEqual(1e-9);
      }),
      { seed: 6, numRuns: 600 },
    );
  });

  it("counts an edge that pierces a face as contact, where features alone report a distance", () => {
    const flat = [-10, -10, 0, 10, -10, 0, 0, 10, 0];
    const needle = [0, 0, -3, 0, 0, 4, 0.1, 0.1, 4];
    const out = result(flat, needle);
    expect(out[0]).toBe(0);
    expect(out[3]).toBe(0);
    expect(out.subarray(1, 4)).toEqual(out.subarray(4, 7));
    // Least distance of corner to face and edge to edge: 3, the needle's point under the face.
    expect(distance(flat, [0, 0, 3, 0, 0, 4, 0.1, 0.1, 4])).toBe(3);
    expect(result(needle, flat)[0]).toBe(0);
  });

  it("finds coplanar overlap, one inside the other and edges crossing", () => {
    const large = [0, 0, 0, 10, 0, 0, 0, 10, 0];
    expect(distance(large, [1, 1, 0, 2, 1, 0, 1, 2, 0])).toBe(0);
    expect(distance(large, [-1, 1, 0, 20, 2, 0, 20, 3, 0])).toBeLessThan(1e-15);
    expect(distance(large, [1, 1, 0.25, 2, 1, 0.25, 1, 2, 0.25])).toBe(0.25);
  });

  it("is symmetric, and its points lie on the triangles at its distance", () => {
    fc.assert(
      fc.property(triangle(2), triangle(2), (a, b) => {
        const out = result(a, b);
        expect(distance(b, a)).toBeCloseTo(Math.sqrt(out[0]!), 12);
        const apart = Math.hypot(out[1]! - out[4]!, out[2]! - out[5]!, out[3]! - out[6]!);
        expect(apart).toBeCloseTo(Math.sqrt(out[0]!), 12);
        const asTriangle = (at: number) => [0, 1, 2].flatMap(() => [...out.subarray(at, at + 3)]);
        expect(distance(a, asTriangle(1))).toBeLessThan(1e-8);
        expect(distance(b, asTriangle(4))).toBeLessThan(1e-8);
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it("writes nothing for a pair that is not nearer", () => {
    const out = Float64Array.of(1, 0, 0, 0, 0, 0, 0);
    const a = Float64Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0);
    const b = Float64Array.of(0, 0, 1, 1, 0, 1, 0, 1, 1);
    expect(triangleTriangle(a, 0, b, 0, work, out)).toBe(false);
    expect([...out]).toEqual([1, 0, 0, 0, 0, 0, 0]);
  });
});
