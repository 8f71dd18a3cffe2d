import fc from "fast-check";
import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import { choleskyFactor, choleskySolve, generalisedSymmetricEigen, symmetricEigen } from "./index.ts";

const element = fc.double({ min: -10, max: 10, noNaN: true });
const square = (n: number) =>
  fc.array(element, { minLength: n * n, maxLength: n * n }).map((e) => Float64Array.from(e));
const sized = fc.integer({ min: 1, max: 12 }).chain((n) => fc.tuple(fc.constant(n), square(n), square(n)));

function symmetrised(a: Float64Array, n: number): Float64Array {
  return a.map((value, at) => value + a[(at % n) * n + Math.floor(at / n)]!);
}
/** GᵀG + 1: positive definite. */
function definite(g: Float64Array, n: number): Float64Array {
  const at = (i: number, j: number) => {
    let sum = i === j ? 1 : 0;
    for (let k = 0; k < n; k++) sum += g[k * n + i]! * g[k * n + j]!;
    return sum;
  };
  return g.map((_, index) => at(Math.floor(index / n), index % n));
}
const rule = (n: number, f: (i: number, j: number) => number) =>
  Float64Array.from({ length: n * n }, (_, at) => f(Math.floor(at / n), at % n));
const times = (a: Float64Array, x: Float64Array, n: number) =>
  rule(n, (i, j) => {
    let sum = 0;
    for (let k = 0; k < n; k++) sum += a[i * n + k]! * x[k * n + j]!;
    return sum;
  });
const transposed = (a: Float64Array, n: number) => rule(n, (i, j) => a[j * n + i]!);
const largest = (a: ArrayLike<number>) => Array.from(a).reduce((most, value) => Math.max(most, Math.abs(value)), 0);

describe("choleskyFactor and choleskySolve", () => {
  it("give back the matrix and solve with it", () => {
    fc.assert(
      fc.property(sized, ([n, g, b]) => {
        const a = definite(g, n);
        const l = a.slice();
        expect(choleskyFactor(l, n)).toBe(true);
        const near = { atol: 1e-13 * largest(a) * n, why: "round-off" };
        expectAllClose(times(l, transposed(l, n), n), a, near, "L Lᵀ");
        const x = b.slice();
        choleskySolve(l, n, x, n);
        const size = largest(a) * largest(x) + largest(b);
        expectAllClose(times(a, x, n), b, { atol: 1e-13 * n * size, why: "round-off" }, "A X");
      }),
      { seed: 61 },
    );
  });

  it("refuse what is singular, indefinite or not finite, and short arrays", () => {
    const factor = (...a: number[]) => choleskyFactor(Float64Array.from(a), Math.sqrt(a.length));
    expect(factor(4, 2, 2, 1)).toBe(false);
    expect(factor(1, 2, 2, 1)).toBe(false);
    expect(factor(0)).toBe(false);
    expect(factor(-1)).toBe(false);
    expect(factor(Number.NaN, 0, 0, 1)).toBe(false);
    expect(factor(1, 0, Number.NaN, 1)).toBe(false);
    expect(factor(Number.POSITIVE_INFINITY)).toBe(false);
    expect(choleskyFactor(Float64Array.of(1, 1, 1, 1 + 1e-10), 2, 1e-9)).toBe(false);
    expect(choleskyFactor(Float64Array.of(1, 1, 1, 1 + 1e-8), 2, 1e-9)).toBe(true);
    expect(() => choleskyFactor(new Float64Array(3), 2)).toThrow(DomainError);
    expect(() => choleskySolve(new Float64Array(4), 2, new Float64Array(1))).toThrow(DomainError);
  });
});

describe("symmetricEigen", () => {
  it("gives values, and orthogonal vectors with residuals at rounding level", () => {
    fc.assert(
      fc.property(sized, ([n, g]) => {
        const a = symmetrised(g, n);
        const values = new Float64Array(n);
        const x = new Float64Array(n * n);
        expect(symmetricEigen(a.slice(), n, values, x)).toBe("found");
        const near = { atol: 1e-13 * n * (largest(a) + 1), why: "round-off, n·ε·‖A‖" };
        const scaled = rule(n, (i, j) => x[i * n + j]! * values[j]!);
        expectAllClose(times(a, x, n), scaled, near, "A X");
        const identity = rule(n, (i, j) => (i === j ? 1 : 0));
        expectAllClose(times(transposed(x, n), x, n), identity, { atol: 1e-13 * n, why: "round-off" }, "XᵀX");
        const other = new EigenvalueDecomposition(new Matrix(n, n).apply(fill(a, n)), { assumeSymmetric: true });
        expectAllClose(
          values,
          other.realEigenvalues.slice().sort((p, q) => p - q),
          near,
          "values, ml-matrix",
        );
        const alone = new Float64Array(n);
        symmetricEigen(a.slice(), n, alone);
        expect(alone).toEqual(values);
      }),
      { seed: 62 },
    );
  });

  it("knows the chain of equal springs, at any scale, and repeated values", () => {
    const n = 60;
    for (const scale of [1, 1e-300, 1e300]) {
      const chain = rule(n, (i, j) => (i === j ? 2 : Math.abs(i - j) === 1 ? -1 : 0) * scale);
      const values = new Float64Array(n);
      expect(symmetricEigen(chain, n, values, new Float64Array(n * n))).toBe("found");
      const known = values.map((_, i) => 4 * scale * Math.sin(((i + 1) * Math.PI) / (2 * (n + 1))) ** 2);
      expectAllClose(values, known, { atol: 1e-14 * n * scale, why: "n·ε·‖A‖" });
    }
    const ones = new Float64Array(5);
    expect(symmetricEigen(new Float64Array(25).fill(1), 5, ones, new Float64Array(25))).toBe("found");
    expectAllClose(ones, [0, 0, 0, 0, 5], { atol: 1e-14, why: "round-off" });
    expect(symmetricEigen(new Float64Array(9), 3, ones.subarray(0, 3), new Float64Array(9))).toBe("found");
    expect(Array.from(ones.subarray(0, 3))).toEqual([0, 0, 0]);
  });

  it("returns NaN in the lower triangle as an outcome, and reads nothing above it", () => {
    const values = new Float64Array(2);
    expect(symmetricEigen(Float64Array.of(1, 0, Number.NaN, 1), 2, values, new Float64Array(4))).toBe("not finite");
    expect(values.every(Number.isNaN)).toBe(true);
    expect(symmetricEigen(Float64Array.of(1, Number.NaN, 0, 3), 2, values)).toBe("found");
    expect(Array.from(values)).toEqual([1, 3]);
    expect(() => symmetricEigen(new Float64Array(3), 2, values)).toThrow(DomainError);
  });
});

describe("generalisedSymmetricEigen", () => {
  it("solves the pair, with vectors orthonormal in the right matrix", () => {
    fc.assert(
      fc.property(sized, ([n, g, h]) => {
        const a = symmetrised(g, n);
        const b = definite(h, n);
        const values = new Float64Array(n);
        const x = new Float64Array(n * n);
        expect(generalisedSymmetricEigen(a.slice(), b.slice(), n, values, x)).toBe("found");
        const size = largest(a) * largest(x) + largest(values) * largest(b) * largest(x);
        const right = times(b, x, n).map((value, at) => value * values[at % n]!);
        expectAllClose(
          times(a, x, n),
          right,
          { atol: 1e-12 * n * (size + 1), why: "round-off; cond(B) to 1e3" },
          "A X",
        );
        const product = times(transposed(x, n), times(b, x, n), n);
        const identity = rule(n, (i, j) => (i === j ? 1 : 0));
        expectAllClose(product, identity, { atol: 1e-11 * n, why: "round-off times cond(B)" }, "XᵀBX");
        expect(Array.from(values)).toEqual(Array.from(values).sort((p, q) => p - q));
      }),
      { seed: 63 },
    );
  });

  it("finds the lowest frequencies most accurately as the largest 1/ω²", () => {
    // masses 1 and 2 on springs 4 and 6: (10 − ω²)(6 − 2ω²) = 36
    const values = new Float64Array(2);
    const outcome = generalisedSymmetricEigen(
      Float64Array.of(1, 0, 0, 2),
      Float64Array.of(10, -6, -6, 6),
      2,
      values,
      new Float64Array(4),
    );
    expect(outcome).toBe("found");
    expectClose(1 / values[1]!, (13 - Math.sqrt(121)) / 2, { rtol: 1e-14, why: "round-off" }, "ω₁²");
    expectClose(1 / values[0]!, (13 + Math.sqrt(121)) / 2, { rtol: 1e-14, why: "round-off" }, "ω₂²");
  });

  it("refuses a right matrix that is not positive definite", () => {
    const values = new Float64Array(2);
    const x = new Float64Array(4);
    const outcome = generalisedSymmetricEigen(Float64Array.of(1, 0, 0, 1), Float64Array.of(1, 1, 1, 1), 2, values, x);
    expect(outcome).toBe("right matrix not positive definite");
    expect([...values, ...x].every(Number.isNaN)).toBe(true);
  });
});

function fill(a: Float64Array, n: number) {
  return function (this: Matrix, i: number, j: number): void {
    this.set(i, j, a[i * n + j]!);
  };
}
