import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { MonotoneGrid, monotoneCubic } from "./index.ts";

const X = [-1, 0, 0.5, 2, 3];
const Y = [0, 1, 4];
const Z = [-2, 2, 3, 7];

/** Table of a function over the grid X × Y × Z. */
const tableOf = (f: (x: number, y: number, z: number) => number): number[] =>
  X.flatMap((x) => Y.flatMap((y) => Z.map((z) => f(x, y, z))));

const at = (grid: MonotoneGrid, ...place: number[]): number => {
  const out = new Float64Array(grid.outputs);
  grid.evaluate(place, out);
  return out[0];
};

describe("a monotone grid", () => {
  it("is the monotone curve on one axis", () => {
    const ys = [3, -1, -0.5, 4, 4.2];
    const grid = new MonotoneGrid([X], [ys], "hold");
    const curve = monotoneCubic(X, ys);
    for (let x = -1; x <= 3; x += 0.0625)
      expectClose(at(grid, x), curve(x), { rtol: 1e-14, atol: 1e-15, why: "same curve" });
  });

  it("passes through its nodes", () => {
    const f = (x: number, y: number, z: number) => Math.sin(3 * x) + y * z - x * x * z;
    const grid = new MonotoneGrid([X, Y, Z], [tableOf(f)], "linear");
    for (const x of X)
      for (const y of Y)
        for (const z of Z) expectClose(at(grid, x, y, z), f(x, y, z), { rtol: 1e-13, atol: 1e-13, why: "node" });
  });

  it("is exact for multilinear data, and beyond them with straight lines", () => {
    const f = (x: number, y: number, z: number) => 1 + 2 * x - y + 3 * z + 0.5 * x * y - x * z + 0.25 * x * y * z;
    const grid = new MonotoneGrid([X, Y, Z], [tableOf(f)], "linear");
    const number = fc.double({ min: -3, max: 9, noNaN: true });
    fc.assert(
      fc.property(number, number, number, (x, y, z) => {
        expectClose(at(grid, x, y, z), f(x, y, z), { rtol: 1e-11, atol: 1e-11, why: "multilinear" });
      }),
    );
  });

  it("stays between the values at the corners of the cell", () => {
    const values = fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: 15, maxLength: 15 });
    fc.assert(
      fc.property(
        values,
        fc.double({ min: -1, max: 3, noNaN: true }),
        fc.double({ min: 0, max: 4, noNaN: true }),
        (table, x, y) => {
          const value = at(new MonotoneGrid([X, Y], [table], "hold"), x, y);
          const i = Math.max(
            0,
            X.findLastIndex((node, k) => node <= x && k < X.length - 1),
          );
          const j = Math.max(
            0,
            Y.findLastIndex((node, k) => node <= y && k < Y.length - 1),
          );
          const corners = [0, 1].flatMap((a) => [0, 1].map((b) => table[(i + a) * Y.length + j + b]));
          expect(value).toBeGreaterThanOrEqual(Math.min(...corners) - 1e-12);
          expect(value).toBeLessThanOrEqual(Math.max(...corners) + 1e-12);
        },
      ),
    );
  });

  it("holds the end value or goes on straight, as it was told", () => {
    const ys = X.map((x) => x * x);
    expect(at(new MonotoneGrid([X], [ys], "hold"), 5)).toBe(9);
    const straight = new MonotoneGrid([X], [ys], "linear");
    expectClose(at(straight, 5) - at(straight, 4), at(straight, 4) - at(straight, 3), { rtol: 1e-12, why: "line" });
    expect(at(straight, 4)).toBeGreaterThan(9);
  });

  it("ignores an axis of one node, and keeps its outputs apart", () => {
    const grid = new MonotoneGrid([[7], Y], [Y.map((y) => y), Y.map((y) => -2 * y)], "hold");
    const out = new Float64Array(2);
    grid.evaluate([-1000, 2], out);
    expectClose(out[0], 2, { rtol: 1e-14, why: "line" });
    expectClose(out[1], -4, { rtol: 1e-14, why: "line" });
    expect(grid.contains([-1000, 2])).toBe(true);
    expect(grid.contains([7, 5])).toBe(false);
  });

  it("refuses grids that are none", () => {
    expect(() => new MonotoneGrid([[0, 0]], [[1, 2]], "hold")).toThrow("axis 1[1]");
    expect(() => new MonotoneGrid([X], [[1, 2]], "hold")).toThrow("values of table 1");
    expect(() => new MonotoneGrid([[0, 1]], [[1, Number.NaN]], "hold")).toThrow("table 1[1]");
    expect(() => new MonotoneGrid([], [], "hold")).toThrow("axes of a grid");
  });
});
