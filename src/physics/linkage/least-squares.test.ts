import fc from "fast-check";
import { Matrix, SingularValueDecomposition } from "ml-matrix";
import { describe, expect, test } from "vitest";
import { LeastSquares } from "./least-squares.ts";

const part = fc.integer({ min: -20, max: 20 });
/** Matrices of known rank at most: a product through an inner size. */
const factors = fc
  .tuple(fc.integer({ min: 1, max: 7 }), fc.integer({ min: 1, max: 7 }), fc.integer({ min: 1, max: 7 }))
  .chain(([rows, columns, inner]) =>
    fc.record({
      rows: fc.constant(rows),
      columns: fc.constant(columns),
      left: fc.array(part, { minLength: rows * inner, maxLength: rows * inner }),
      right: fc.array(part, { minLength: inner * columns, maxLength: inner * columns }),
      b: fc.array(part, { minLength: rows, maxLength: rows }),
      f: fc.array(part, { minLength: columns, maxLength: columns }),
    }),
  )
  .map(({ rows, columns, left, right, b, f }) => {
    const inner = left.length / rows;
    const j = Matrix.from1DArray(rows, inner, left).mmul(Matrix.from1DArray(inner, columns, right));
    return { rows, columns, j, b, f };
  });

function factored(j: Matrix): LeastSquares {
  const squares = new LeastSquares(j.rows, j.columns);
  squares.factor(Float64Array.from(j.to1DArray()), 1e-9);
  return squares;
}

describe("LeastSquares", () => {
  test("rank and smallest singular value agree with a singular value decomposition of ml-matrix", () => {
    fc.assert(
      fc.property(factors, ({ j }) => {
        const squares = factored(j);
        const values = new SingularValueDecomposition(j, { autoTranspose: true }).diagonal;
        const counted = values.filter((value) => value > 1e-9 * values[0]);
        expect(squares.rank).toBe(counted.length);
        if (counted.length === 0) return;
        const smallest = squares.smallestSingularValue();
        expect(Math.abs(smallest / counted[counted.length - 1] - 1)).toBeLessThan(2e-2);
      }),
    );
  });

  test("solutions agree with the pseudo-inverse of ml-matrix, both ways", () => {
    fc.assert(
      fc.property(factors, ({ rows, columns, j, b, f }) => {
        const squares = factored(j);
        const values = new SingularValueDecomposition(j, { autoTranspose: true }).diagonal.filter(
          (value) => value > 1e-9,
        );
        fc.pre(values.length > 0 && values[values.length - 1] > 0.05);
        const inverse = new SingularValueDecomposition(j, { autoTranspose: true }).inverse();
        const x = new Float64Array(columns);
        const rest = squares.solve(Float64Array.from(b), x);
        const expected = inverse.mmul(Matrix.columnVector(b)).to1DArray();
        expected.forEach((value, i) => {
          expect(Math.abs(x[i] - value)).toBeLessThan(1e-6 * (1 + Math.abs(value)));
        });
        const left = Matrix.sub(j.mmul(Matrix.columnVector([...x])), Matrix.columnVector(b)).norm();
        expect(Math.abs(rest - left)).toBeLessThan(1e-7);
        const lambda = new Float64Array(rows);
        squares.solveTransposed(Float64Array.from(f), lambda);
        const wanted = inverse.transpose().mmul(Matrix.columnVector(f)).to1DArray();
        wanted.forEach((value, i) => {
          expect(Math.abs(lambda[i] - value)).toBeLessThan(1e-6 * (1 + Math.abs(value)));
        });
      }),
    );
  });

  test("the null space: J z = 0, vectors orthonormal, projection keeps them and removes rows", () => {
    fc.assert(
      fc.property(factors, ({ columns, j }) => {
        const squares = factored(j);
        const width = columns - squares.rank;
        const basis = new Float64Array(columns * width);
        for (let c = 0; c < width; c++) squares.nullVector(c, basis, columns * c);
        for (let c = 0; c < width; c++) {
          const z = basis.slice(columns * c, columns * (c + 1));
          expect(j.mmul(Matrix.columnVector([...z])).norm()).toBeLessThan(1e-9);
          const kept = z.slice();
          expect(Math.abs(squares.projectToNullSpace(kept) - 1)).toBeLessThan(1e-12);
          kept.forEach((value, i) => {
            expect(Math.abs(value - z[i])).toBeLessThan(1e-12);
          });
        }
        const row = Float64Array.from(j.getRow(0));
        expect(squares.projectToNullSpace(row)).toBeLessThan(1e-9);
      }),
    );
  });

  test("never counts more rows than it is told", () => {
    const squares = new LeastSquares(3, 3);
    squares.factor(Float64Array.of(3, 0, 0, 0, 2, 0, 0, 0, 1e-3), 1e-12, 2);
    expect(squares.rank).toBe(2);
    expect([...squares.order]).toEqual([0, 1, 2]);
    squares.factor(new Float64Array(9), 1e-12);
    expect(squares.rank).toBe(0);
    expect(squares.smallestSingularValue()).toBe(0);
  });
});
