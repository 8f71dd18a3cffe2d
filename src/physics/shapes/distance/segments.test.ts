import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { loadPublished } from "../../../../reference/load.ts";
import { segmentSegment } from "./segments.ts";

function distance(p: readonly number[], q: readonly number[]): number {
  const out = new Float64Array(7);
  segmentSegment(Float64Array.from(p), 0, 3, Float64Array.from(q), 0, 3, out);
  expect(Math.hypot(out[1]! - out[4]!, out[2]! - out[5]!, out[3]! - out[6]!) ** 2).toBeCloseTo(out[0]!, 12);
  return Math.sqrt(out[0]!);
}

const coordinate = fc.double({ min: -3, max: 3, noNaN: true });
const segment = fc.array(coordinate, { minLength: 6, maxLength: 6 });

describe("segmentSegment", () => {
  it("gives the published distances", () => {
    const rows = loadPublished("segment-distance-cases").table("segments");
    expect(rows).toHaveLength(3);
    for (const row of rows) {
      const ends = (name: string) => ["x1", "y1", "z1", "x2", "y2", "z2"].map((end) => row(`${name}${end}`).si);
      // Printed exactly; one rounding of a square root at most.
      expect(distance(ends("p"), ends("q"))).toBeCloseTo(row("distance").si, 15);
    }
  });

  it("is never beaten by points on a grid, and beats the grid by no more than its step", () => {
    fc.assert(
      fc.property(segment, segment, (p, q) => {
        const found = distance(p, q);
        const steps = 24;
        let least = Infinity;
        for (let i = 0; i <= steps; i++) {
          for (let j = 0; j <= steps; j++) {
            const apart = [0, 1, 2].map(
              (k) => p[k]! + (i / steps) * (p[k + 3]! - p[k]!) - q[k]! - (j / steps) * (q[k + 3]! - q[k]!),
            );
            least = Math.min(least, Math.hypot(...apart));
          }
        }
        expect(found).toBeLessThanOrEqual(least + 1e-12);
        const lengths = [p, q].map((s) => Math.hypot(s[3]! - s[0]!, s[4]! - s[1]!, s[5]! - s[2]!));
        expect(found).toBeGreaterThanOrEqual(least - (0.5 / steps) * (lengths[0]! + lengths[1]!) - 1e-12);
      }),
      { seed: 11, numRuns: 200 },
    );
  });

  it("finds the crossing of segments at any small angle to rounding", () => {
    for (let exponent = 1; exponent <= 13; exponent++) {
      const tilt = 10 ** -exponent;
      // They cross at x = 0.3 in the plane z = 0.
      const found = distance([-1, 0, 0, 1, 0, 0], [-1, -1.3 * tilt, 0, 1, 0.7 * tilt, 0]);
      expect(found).toBeLessThan(1e-15);
    }
  });

  it("takes points as segments of no length", () => {
    expect(distance([1, 2, 3, 1, 2, 3], [1, 2, 7, 1, 2, 7])).toBe(4);
    expect(distance([0, 3, 0, 0, 3, 0], [-1, 0, 0, 1, 0, 0])).toBe(3);
    expect(distance([-1, 0, 0, 1, 0, 0], [5, 3, 0, 5, 3, 0])).toBe(5);
  });
});
