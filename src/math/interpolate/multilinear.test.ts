import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DomainError } from "../errors.ts";
import { MultilinearGrid } from "./index.ts";

const AXES = [
  [0, 1, 4],
  [-2, 0, 0.5, 3],
  [10, 12],
  [-1, 0, 1],
] as const;
const places = AXES[0].flatMap((a) => AXES[1].flatMap((b) => AXES[2].flatMap((c) => AXES[3].map((d) => [a, b, c, d]))));
const product = ([a, b, c, d]: readonly number[]): number => (1 + 2 * a) * (3 - b) * (c - 5) * (2 + d);
const wavy = ([a, b, c, d]: readonly number[]): number => Math.sin(3 * a) + Math.cos(5 * b) * c - d * d;
const grid = new MultilinearGrid(AXES, [places.map(product), places.map(wavy)]);
const at = (place: readonly number[]): number[] => {
  const out = new Float64Array(2);
  grid.evaluate(place, out);
  return [...out];
};
const inside = fc.tuple(...AXES.map((axis) => fc.double({ min: axis[0], max: axis.at(-1)!, noNaN: true })));

describe("multilinear grid", () => {
  it("is exact on data that are linear in each axis", () => {
    fc.assert(
      fc.property(inside, (place) => {
        expect(Math.abs(at(place)[0]! - product(place))).toBeLessThan(1e-9);
      }),
      { seed: 5, numRuns: 300 },
    );
  });
  it("gives each node its value", () => {
    for (const place of places) expect(at(place)[1]).toBeCloseTo(wavy(place), 12);
  });
  it("stays between the values of its cell", () => {
    const [low, high] = [Math.min(...places.map(wavy)), Math.max(...places.map(wavy))];
    fc.assert(
      fc.property(inside, (place) => {
        const value = at(place)[1]!;
        expect(value).toBeGreaterThanOrEqual(low - 1e-12);
        expect(value).toBeLessThanOrEqual(high + 1e-12);
      }),
      { seed: 6, numRuns: 200 },
    );
  });
  it("knows where it ends", () => {
    expect(grid.contains([4, 3, 12, 1])).toBe(true);
    expect(grid.contains([4.001, 3, 12, 1])).toBe(false);
    expect(grid.contains([0, 0, 11, Number.NaN])).toBe(false);
    expect(at([9, 0, 11, 0])).toEqual(at([4, 0, 11, 0]));
  });
  it("takes an axis with one node as none, and refuses what is no grid", () => {
    const flat = new MultilinearGrid([[7], [0, 2]], [[1, 3]]);
    const out = new Float64Array(1);
    flat.evaluate([100, 1], out);
    expect(out[0]).toBe(2);
    expect(flat.contains([100, 1])).toBe(true);
    expect(() => new MultilinearGrid([[0, 0]], [[1, 2]])).toThrow(DomainError);
    expect(() => new MultilinearGrid([[0, 1]], [[1]])).toThrow(DomainError);
    expect(() => new MultilinearGrid([[0, 1]], [[1, Number.NaN]])).toThrow(DomainError);
    expect(() => new MultilinearGrid([], [])).toThrow(DomainError);
  });
});
