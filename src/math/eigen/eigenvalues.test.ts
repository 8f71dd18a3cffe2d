import fc from "fast-check";
import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { describe, expect, test } from "vitest";
import { luFactor } from "../dense/index.ts";
import { DomainError } from "../errors.ts";
import { francis } from "./francis.ts";
import { createEigenWorkspace, eigenvalues } from "./index.ts";
import {
  clement,
  coefficientsOf,
  companion,
  frank,
  frobenius,
  fromRows,
  fromRule,
  grcar,
  jordan,
  spectrumDistance,
  spreadMatrix,
  transpose,
} from "./test-matrices.ts";

function solve(a: Float64Array, n = Math.sqrt(a.length)) {
  const re = new Float64Array(n);
  const im = new Float64Array(n);
  const before = a.slice();
  const outcome = eigenvalues(a, n, createEigenWorkspace(n), re, im);
  expect(a).toEqual(before);
  return { outcome, re, im, n };
}

/** Distance to ml-matrix, which must never see a NaN. */
function distanceToOracle(a: Float64Array): number {
  const { re, im, n } = solve(a);
  const rows = Array.from({ length: n }, (_, i) => Array.from(a.subarray(i * n, (i + 1) * n)));
  const oracle = new EigenvalueDecomposition(new Matrix(rows));
  return spectrumDistance(re, im, oracle.realEigenvalues, oracle.imaginaryEigenvalues);
}

const anyMatrix = fc
  .integer({ min: 1, max: 9 })
  .chain((n) => fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: n * n, maxLength: n * n }))
  .map((elements) => Float64Array.from(elements));

describe("closed forms", () => {
  test("a rotation generator has a purely imaginary pair, positive first", () => {
    const { outcome, re, im } = solve(
      fromRows([
        [0, -3],
        [3, 0],
      ]),
    );
    expect(outcome).toBe("converged");
    expect([...re, ...im]).toEqual([0, 0, 3, -3]);
  });

  test("order one", () => {
    expect(solve(Float64Array.of(-7)).re[0]).toBe(-7);
  });

  test("roots 1 … 6 of a companion matrix", () => {
    const { re, im } = solve(companion(coefficientsOf([1, 2, 3, 4, 5, 6])));
    // The roots' condition is about 5e4: n·ε·5e4 = 7e-11.
    [6, 5, 4, 3, 2, 1].forEach((root, i) => {
      expect(Math.abs(re[i]! - root)).toBeLessThan(1e-10);
    });
    expect([...im]).toEqual([0, 0, 0, 0, 0, 0]);
  });

  test.each([3, 4, 7, 12, 31])(
    "cyclic exchange of order %i: roots of one, which the usual shifts alone never find",
    (n) => {
      const { outcome, re, im } = solve(fromRule(n, (i, j) => ((i + n - 1) % n === j ? 1 : 0)));
      expect(outcome).toBe("converged");
      const angles = Array.from({ length: n }, (_, k) => (2 * Math.PI * k) / n);
      expect(spectrumDistance(re, im, angles.map(Math.cos), angles.map(Math.sin))).toBeLessThan(1e-14 * n);
    },
  );

  test.each([5, 10, 21])("Clement's matrix of order %i: n − 1, n − 3, …", (n) => {
    const { re, im } = solve(clement(n));
    for (let i = 0; i < n; i++) expect(Math.abs(re[i]! - (n - 1 - 2 * i))).toBeLessThan(1e-12 * n);
    expect(im.every((value) => value === 0)).toBe(true);
  });

  test("second difference: 2 − 2cos(kπ/(n+1))", () => {
    const n = 22;
    const { re } = solve(fromRule(n, (i, j) => (i === j ? 2 : Math.abs(i - j) === 1 ? -1 : 0)));
    for (let k = 1; k <= n; k++) {
      expect(Math.abs(re[n - k]! - (2 - 2 * Math.cos((k * Math.PI) / (n + 1))))).toBeLessThan(1e-13);
    }
  });

  test("Frank's matrix of order 9: reciprocal pairs, determinant one", () => {
    const n = 9;
    const { re } = solve(frank(n));
    for (let i = 0; i < n; i++) expect(Math.abs(re[i]! * re[n - 1 - i]! - 1)).toBeLessThan(1e-7);
  });

  test("Frank's matrix of order 12: the smallest to ε·‖A‖ times its condition number, about 1e-4 of it", () => {
    const { re, im } = solve(frank(12));
    expect(Math.abs(re[0]! * re[11]! - 1)).toBeLessThan(1e-4);
    expect(im.every((value) => value === 0)).toBe(true);
    // Sum of squares from the trace of the square, which is exact.
    const a = frank(12);
    let trace = 0;
    for (let i = 0; i < 12; i++) for (let j = 0; j < 12; j++) trace += a[i * 12 + j]! * a[j * 12 + i]!;
    expect(Math.abs(re.reduce((sum, x) => sum + x * x, 0) / trace - 1)).toBeLessThan(1e-13);
  });

  test.each([2, 3, 5, 8])("Jordan block of order %i: spread at most (nε)^(1/n)", (n) => {
    // A similarity hides the triangle, which balancing would read off exactly.
    const hidden = hide(jordan(n, 3), n);
    const { re, im } = solve(hidden);
    for (let i = 0; i < n; i++) {
      expect(Math.hypot(re[i]! - 3, im[i]!)).toBeLessThan(3 * (30 * n * Number.EPSILON) ** (1 / n));
    }
    const mean = re.reduce((sum, x) => sum + x, 0) / n;
    expect(Math.abs(mean - 3)).toBeLessThan(1e-13 * n);
  });

  test("a triangle by exchanges is read off exactly", () => {
    const { re, im } = solve(
      fromRows([
        [2, 0, 0, 0],
        [5, 1e-9, 7, 1e8],
        [3, 0, -4, 0],
        [1e9, 0, 1, 6],
      ]),
    );
    expect([...re]).toEqual([6, 2, 1e-9, -4]);
    expect([...im]).toEqual([0, 0, 0, 0]);
  });
});

/** Q A Qᵀ with Q = 1 − 2uuᵀ/n, u of ones. */
function hide(a: Float64Array, n: number): Float64Array {
  const q = fromRule(n, (i, j) => (i === j ? 1 : 0) - 2 / n);
  const product = (x: Float64Array, y: Float64Array) =>
    fromRule(n, (i, j) => {
      let sum = 0;
      for (let k = 0; k < n; k++) sum += x[i * n + k]! * y[k * n + j]!;
      return sum;
    });
  return product(product(q, a), q);
}

describe("against ml-matrix", () => {
  test.each([2, 5, 13, 22, 40])("spread matrices of order %i", (n) => {
    for (let start = 1; start <= 5; start++) {
      expect(distanceToOracle(spreadMatrix(n, start))).toBeLessThan(1e-12 * n);
    }
  });

  test.each([8, 16])("Grcar's matrix of order %i", (n) => {
    expect(distanceToOracle(grcar(n))).toBeLessThan(1e-11);
  });

  test("symmetric matrices of any content agree to rounding", () => {
    const symmetric = fc
      .integer({ min: 1, max: 9 })
      .chain((n) => fc.array(fc.integer({ min: -99, max: 99 }), { minLength: n * n, maxLength: n * n }))
      .map((elements) => {
        const n = Math.sqrt(elements.length);
        return fromRule(n, (i, j) => elements[i * n + j]! + elements[j * n + i]!);
      });
    fc.assert(
      fc.property(symmetric, (a) => {
        // A double eigenvalue of the reduced, no longer symmetric matrix may come out as a pair √ε apart.
        const limit = 1e-7 * (1 + frobenius(a));
        expect(Math.max(...solve(a).im)).toBeLessThan(limit);
        expect(distanceToOracle(a)).toBeLessThan(limit);
      }),
    );
  });
});

describe("invariants", () => {
  test("the sum is the trace", () => {
    fc.assert(
      fc.property(anyMatrix, (a) => {
        const { outcome, re, n } = solve(a);
        expect(outcome).toBe("converged");
        let trace = 0;
        for (let i = 0; i < n; i++) trace += a[i * n + i]!;
        const sum = re.reduce((total, value) => total + value, 0);
        expect(Math.abs(sum - trace)).toBeLessThanOrEqual(1e-14 * n * n * frobenius(a));
      }),
    );
  });

  test("the product is the determinant", () => {
    fc.assert(
      fc.property(anyMatrix, (a) => {
        const { re, im, n } = solve(a);
        const factors = a.slice();
        const pivots = new Int32Array(n);
        let determinant = 1;
        if (!luFactor(factors, n, pivots)) return;
        for (let k = 0; k < n; k++) determinant *= factors[k * n + k]! * (pivots[k] === k ? 1 : -1);
        let productRe = 1;
        let productIm = 0;
        for (let k = 0; k < n; k++) {
          [productRe, productIm] = [productRe * re[k]! - productIm * im[k]!, productRe * im[k]! + productIm * re[k]!];
        }
        // A change of norm δ in A changes the determinant by less than n·δ·‖A‖ⁿ⁻¹.
        const limit = 1e-13 * n * n * Math.max(frobenius(a) ** n, Number.MIN_VALUE);
        expect(Math.hypot(productRe - determinant, productIm)).toBeLessThanOrEqual(limit);
      }),
    );
  });

  test("pairs are neighbours, positive first, and the order is by falling real part", () => {
    fc.assert(
      fc.property(anyMatrix, (a) => {
        const { re, im, n } = solve(a);
        for (let i = 0; i < n; i++) {
          if (i > 0) expect(re[i]!).toBeLessThanOrEqual(re[i - 1]!);
          if (im[i] === 0) continue;
          expect(im[i]!).toBeGreaterThan(0);
          expect(re[i + 1]).toBe(re[i]);
          expect(im[i + 1]).toBe(-im[i]!);
          i++;
        }
      }),
    );
  });

  test.each([6, 13, 22])("transposition and exchange of rows and columns keep the spectrum, order %i", (n) => {
    const a = spreadMatrix(n, 3);
    const { re, im } = solve(a);
    const turned = solve(transpose(a, n));
    const exchanged = solve(fromRule(n, (i, j) => a[((i * 5 + 2) % n) * n + ((j * 5 + 2) % n)]!));
    expect(spectrumDistance(re, im, turned.re, turned.im)).toBeLessThan(1e-13 * n);
    expect(spectrumDistance(re, im, exchanged.re, exchanged.im)).toBeLessThan(1e-13 * n);
  });

  test("bad scaling: 10^(i−j) times a spread matrix has the spread matrix's spectrum", () => {
    const n = 12;
    const c = spreadMatrix(n, 2);
    const { re, im } = solve(c);
    const scaled = solve(fromRule(n, (i, j) => c[i * n + j]! * 10 ** (i - j)));
    expect(spectrumDistance(re, im, scaled.re, scaled.im)).toBeLessThan(1e-12);
  });

  test("powers of two scale the spectrum bit for bit", () => {
    const a = spreadMatrix(7, 4);
    const { re, im } = solve(a);
    for (const power of [-900, -450, -40, 40, 450, 1000]) {
      const factor = 2 ** power;
      const scaled = solve(a.map((value) => value * factor));
      expect(scaled.outcome).toBe("converged");
      expect([...scaled.re]).toEqual([...re].map((value) => value * factor));
      expect([...scaled.im]).toEqual([...im].map((value) => value * factor));
    }
  });
});

describe("hard input ends", () => {
  test("NaN or an infinity anywhere is refused and leaves NaN", () => {
    for (let at = 0; at < 16; at++) {
      for (const bad of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
        const a = spreadMatrix(4);
        a[at] = bad;
        const { outcome, re, im } = solve(a);
        expect(outcome).toBe("not finite");
        expect([...re, ...im].every(Number.isNaN)).toBe(true);
      }
    }
  });

  test.each([1e160, -1e160, 1e300, 1.7e308, 1e-160, 5e-324])("one element of %d among ordinary ones", (extreme) => {
    for (let at = 0; at < 25; at++) {
      const a = spreadMatrix(5);
      a[at] = extreme;
      const { outcome, re, im } = solve(a);
      expect(["converged", "not finite"]).toContain(outcome);
      if (outcome === "converged") expect([...re, ...im].every(Number.isFinite)).toBe(true);
    }
  });

  test("all elements at either end of the range of numbers", () => {
    expect(solve(new Float64Array(16).fill(1e307)).re[0]! / 4e307).toBeCloseTo(1, 12);
    expect(solve(new Float64Array(16).fill(1.7e308)).outcome).toBe("not finite");
    expect(solve(new Float64Array(16).fill(5e-324)).re[0]).toBe(4 * 5e-324);
  });

  test("widely spread elements: no overflow, no endless loop", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: -1070, max: 1020 }), fc.double({ min: -1, max: 1, noNaN: true })), {
          minLength: 36,
          maxLength: 36,
        }),
        (parts) => {
          const { outcome } = solve(Float64Array.from(parts, ([power, factor]) => factor * 2 ** power));
          expect(["converged", "not finite"]).toContain(outcome);
        },
      ),
    );
  });

  test("tiny and large eigenvalues that do not touch both keep their digits", () => {
    expect([
      ...solve(
        fromRows([
          [5e-324, 0],
          [0, -4],
        ]),
      ).re,
    ]).toEqual([5e-324, -4]);
    const block = solve(
      fromRows([
        [0, 2e-300, 0],
        [2e-300, 0, 0],
        [1, 1, 1e140],
      ]),
    );
    expect([...block.re]).toEqual([1e140, 2e-300, -2e-300]);
  });

  test("the zero matrix", () => {
    const { outcome, re, im } = solve(new Float64Array(25));
    expect(outcome).toBe("converged");
    expect([...re, ...im]).toEqual(new Array(10).fill(0));
  });

  test("the iteration stops at its limit", () => {
    const h = spreadMatrix(6).fill(Number.NaN);
    expect(francis(h, 6, 0, 5, new Float64Array(8), new Float64Array(6), new Float64Array(6))).toBe(false);
  });

  test("wrong sizes", () => {
    const row = new Float64Array(3);
    const workspace = createEigenWorkspace(3);
    expect(() => createEigenWorkspace(0)).toThrow(DomainError);
    expect(() => eigenvalues(new Float64Array(8), 3, workspace, row, row)).toThrow("length of matrix is 8");
    expect(() => eigenvalues(new Float64Array(16), 4, workspace, row, row)).toThrow(DomainError);
    expect(() => eigenvalues(new Float64Array(9), 2.5, workspace, row, row)).toThrow(DomainError);
  });
});

test("a larger workspace and repeated use change nothing", () => {
  const large = createEigenWorkspace(30);
  const re = new Float64Array(30);
  const im = new Float64Array(30);
  for (const n of [22, 5, 13, 22]) {
    const a = spreadMatrix(n, n);
    const fresh = solve(a);
    eigenvalues(a, n, large, re, im);
    expect(re.subarray(0, n)).toEqual(fresh.re);
    expect(im.subarray(0, n)).toEqual(fresh.im);
  }
});
