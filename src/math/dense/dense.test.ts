import fc from "fast-check";
import { Matrix } from "ml-matrix";
import { describe, expect, test } from "vitest";
import { DomainError } from "../errors.ts";
import { luFactor, luSolve, multiply, nullSpace } from "./index.ts";

function matrix(rows: number, columns: number) {
  return fc
    .array(fc.integer({ min: -50, max: 50 }), { minLength: rows * columns, maxLength: rows * columns })
    .map((elements) => Float64Array.from(elements));
}

const size = fc.integer({ min: 1, max: 8 });

function product(a: Float64Array, b: Float64Array, rows: number, inner: number, columns: number): Float64Array {
  const out = new Float64Array(rows * columns);
  multiply(a, b, out, rows, inner, columns);
  return out;
}

function largest(values: Float64Array): number {
  return values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
}

describe("luFactor and luSolve", () => {
  test("P A = L U", () => {
    fc.assert(
      fc.property(
        size.chain((n) => fc.tuple(fc.constant(n), matrix(n, n))),
        ([n, a]) => {
          const lu = a.slice();
          const pivots = new Int32Array(n);
          if (!luFactor(lu, n, pivots)) return;
          const lower = lu.map((value, at) => {
            const [i, j] = [Math.floor(at / n), at % n];
            return i === j ? 1 : j < i ? value : 0;
          });
          const upper = lu.map((value, at) => (at % n >= Math.floor(at / n) ? value : 0));
          const exchanged = a.slice();
          pivots.forEach((p, k) => {
            const row = exchanged.slice(k * n, (k + 1) * n);
            exchanged.copyWithin(k * n, p * n, (p + 1) * n);
            exchanged.set(row, p * n);
          });
          const back = product(lower, upper, n, n, n);
          back.forEach((value, at) => {
            expect(Math.abs(value - exchanged[at]!)).toBeLessThan(1e-11);
          });
          expect(largest(lower)).toBe(1);
        },
      ),
    );
  });

  test("solutions have residuals at rounding level, several right-hand sides at once", () => {
    fc.assert(
      fc.property(
        size.chain((n) => fc.tuple(fc.constant(n), matrix(n, n), matrix(n, 3))),
        ([n, a, b]) => {
          const lu = a.slice();
          const pivots = new Int32Array(n);
          if (!luFactor(lu, n, pivots)) return;
          const x = b.slice();
          luSolve(lu, n, pivots, x, 3);
          const back = product(a, x, n, n, 3);
          const limit = 1e-13 * n * (largest(a) * largest(x) + 1);
          back.forEach((value, at) => {
            expect(Math.abs(value - b[at]!)).toBeLessThan(limit);
          });
          const single = b.filter((_, at) => at % 3 === 1);
          luSolve(lu, n, pivots, single);
          expect(single).toEqual(x.filter((_, at) => at % 3 === 1));
        },
      ),
    );
  });

  test("the inverse of Hilbert's matrix of order 5 is a matrix of known whole numbers", () => {
    const n = 5;
    const a = Float64Array.from({ length: n * n }, (_, at) => 1 / (Math.floor(at / n) + (at % n) + 1));
    const inverse = Float64Array.from({ length: n * n }, (_, at) => (at % (n + 1) === 0 ? 1 : 0));
    const pivots = new Int32Array(n);
    expect(luFactor(a, n, pivots)).toBe(true);
    luSolve(a, n, pivots, inverse, n);
    // Own derivation: element (i, j) is (−1)^(i+j)(i+j−1) C(n+i−1,n−j) C(n+j−1,n−i) C(i+j−2,i−1)². Condition 5e5.
    const firstRow = [25, -300, 1050, -1400, 630];
    firstRow.forEach((value, j) => {
      expect(Math.abs(inverse[j]! / value - 1)).toBeLessThan(1e-10);
    });
    expect(Math.abs(inverse[24]! / 44100 - 1)).toBeLessThan(1e-10);
  });

  test("a singular matrix is refused", () => {
    expect(luFactor(Float64Array.of(1, 2, 2, 4), 2, new Int32Array(2))).toBe(false);
    expect(luFactor(new Float64Array(9), 3, new Int32Array(3))).toBe(false);
  });

  test("NaN or an infinity at any place is refused", () => {
    for (let at = 0; at < 16; at++) {
      for (const bad of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
        const a = Float64Array.of(4, 1, 0, 2, 0, 3, 1, 0, 1, 0, 5, 1, 2, 0, 0, 6);
        a[at] = bad;
        expect(luFactor(a, 4, new Int32Array(4))).toBe(false);
      }
    }
  });

  test("short arrays", () => {
    expect(() => luFactor(new Float64Array(3), 2, new Int32Array(2))).toThrow(DomainError);
    expect(() => luSolve(new Float64Array(4), 2, new Int32Array(2), new Float64Array(3), 2)).toThrow(
      "length of right-hand side is 3; allowed: at least 4",
    );
  });
});

describe("multiply", () => {
  test("agrees with ml-matrix", () => {
    fc.assert(
      fc.property(
        fc
          .tuple(size, size, size)
          .chain(([p, q, r]) => fc.tuple(fc.constant([p, q, r] as const), matrix(p, q), matrix(q, r))),
        ([[p, q, r], a, b]) => {
          const oracle = Matrix.from1DArray(p, q, a).mmul(Matrix.from1DArray(q, r, b));
          expect([...product(a, b, p, q, r)].map((x) => x + 0)).toEqual(oracle.to1DArray().map((x) => x + 0));
        },
      ),
    );
  });

  test("the product may not overwrite a factor", () => {
    const a = new Float64Array(4);
    expect(() => multiply(a, new Float64Array(4), a, 2, 2, 2)).toThrow(DomainError);
  });
});

describe("nullSpace", () => {
  test("G Z = 0 and ZᵀZ = 1 for matrices of known rank", () => {
    const shapes = fc.tuple(
      fc.integer({ min: 0, max: 6 }),
      fc.integer({ min: 1, max: 8 }),
      fc.integer({ min: 0, max: 6 }),
    );
    fc.assert(
      fc.property(
        shapes.chain(([rows, columns, inner]) =>
          fc.tuple(fc.constant([rows, columns, inner] as const), matrix(rows, inner), matrix(inner, columns)),
        ),
        ([[rows, columns, inner], left, right]) => {
          const g = product(left, right, rows, inner, columns);
          const z = nullSpace(g, rows, columns);
          const width = z.length / columns;
          expect(width).toBeGreaterThanOrEqual(columns - Math.min(rows, inner));
          const zero = product(g, z, rows, columns, width);
          expect(largest(zero)).toBeLessThan(1e-12 * (1 + largest(g)));
          for (let i = 0; i < width; i++) {
            for (let j = 0; j < width; j++) {
              let dot = 0;
              for (let k = 0; k < columns; k++) dot += z[k * width + i]! * z[k * width + j]!;
              expect(Math.abs(dot - (i === j ? 1 : 0))).toBeLessThan(1e-14 * columns);
            }
          }
        },
      ),
    );
  });

  test("independent rows take away one direction each, repeated ones none", () => {
    const g = Float64Array.of(1, 2, 0, 1, 2, 0, 0, 0, 3, 1, 2, 3);
    expect(nullSpace(g, 4, 3).length).toBe(3);
    expect(nullSpace(Float64Array.of(2, 0, 0, 3), 2, 2).length).toBe(0);
    expect([...nullSpace(new Float64Array(0), 0, 2)]).toEqual([1, 0, 0, 1]);
  });

  test("the direction of a plane constraint", () => {
    const z = nullSpace(Float64Array.of(3, 4), 1, 2);
    expect(Math.abs(z[0]!)).toBeCloseTo(0.8, 15);
    expect(z[0]! * 3 + z[1]! * 4).toBeCloseTo(0, 15);
  });

  test("given room is used", () => {
    const room = new Float64Array(10).fill(9);
    const z = nullSpace(Float64Array.of(0, 1), 1, 2, room);
    expect(z.buffer).toBe(room.buffer);
    expect(z.length).toBe(2);
    expect(room[2]).toBe(9);
    expect(() => nullSpace(Float64Array.of(0, 1, 0), 1, 3, new Float64Array(5))).toThrow(DomainError);
  });

  test("very large and very small elements", () => {
    expect(nullSpace(Float64Array.of(1e200, 2e200, 1e-200, 0), 2, 2).length).toBe(2);
    expect(nullSpace(Float64Array.of(1e-200, 0, 0, 1e-200), 2, 2).length).toBe(0);
    expect(() => nullSpace(Float64Array.of(1, Number.NaN), 1, 2)).toThrow("matrix element 1 is NaN");
  });
});
