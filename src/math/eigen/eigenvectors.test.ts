import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { luFactor, luSolve } from "../dense/index.ts";
import { DomainError } from "../errors.ts";
import { createEigenWorkspace, eigenSystem, eigenvalues, eigenvectors, leftEigenvectors } from "./index.ts";
import { clement, frobenius, fromRows, fromRule, grcar, jordan, spreadMatrix } from "./test-matrices.ts";

/** Largest ‖A x − λ x‖ over the vectors; checks length one and the phase as well. */
function worstResidual(a: Float64Array, n: number, re: Float64Array, im: Float64Array, vectors: Float64Array): number {
  let worst = 0;
  for (let j = 0; j < n; j++) {
    const isPair = im[j] !== 0;
    const x = Array.from({ length: n }, (_, i) => vectors[i * n + j]!);
    const y = Array.from({ length: n }, (_, i) => (isPair ? vectors[i * n + j + 1]! : 0));
    expect(Math.abs(Math.hypot(...x, ...y) - 1)).toBeLessThan(1e-14 * n);
    const sizes = x.map((value, i) => Math.hypot(value, y[i]!));
    const atLeast = (1 - 2e-6) * Math.max(...sizes);
    expect(sizes.some((size, i) => size >= atLeast && x[i]! > 0 && Math.abs(y[i]!) < 1e-15)).toBe(true);
    const residual = x.map((_, i) => {
      let real = im[j]! * y[i]! - re[j]! * x[i]!;
      let imaginary = -im[j]! * x[i]! - re[j]! * y[i]!;
      for (let k = 0; k < n; k++) {
        real += a[i * n + k]! * x[k]!;
        imaginary += a[i * n + k]! * y[k]!;
      }
      return Math.hypot(real, imaginary);
    });
    worst = Math.max(worst, Math.hypot(...residual));
    if (isPair) j++;
  }
  return worst;
}

function check(a: Float64Array, n: number) {
  const before = a.slice();
  const system = eigenSystem(a, n);
  expect(a).toEqual(before);
  expect(system.outcome).toBe("converged");
  return { ...system, residual: worstResidual(a, n, system.re, system.im, system.vectors) };
}

function rankOf(vectors: Float64Array, n: number): number {
  const factors = vectors.slice();
  let rank = 0;
  if (luFactor(factors, n, new Int32Array(n))) {
    for (let k = 0; k < n; k++) if (Math.abs(factors[k * n + k]!) > 1e-8) rank++;
  }
  return rank;
}

describe("residuals at rounding level", () => {
  test.each([1, 2, 3, 7, 13, 22, 40])("spread matrices of order %i", (n) => {
    for (let start = 1; start <= 5; start++) {
      const a = spreadMatrix(n, start);
      expect(check(a, n).residual).toBeLessThan(20 * n * Number.EPSILON * frobenius(a));
    }
  });

  test("any matrix has finite vectors", () => {
    const matrix = fc
      .integer({ min: 1, max: 8 })
      .chain((n) => fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: n * n, maxLength: n * n }))
      // Eigenvalues among the subnormal numbers have no digits to find a vector with.
      .map((elements) => Float64Array.from(elements, (value) => (Math.abs(value) < 1e-250 ? 0 : value)));
    fc.assert(
      fc.property(matrix, (a) => {
        const system = eigenSystem(a, Math.sqrt(a.length));
        expect(system.outcome).toBe("converged");
        expect([...system.vectors].every(Number.isFinite)).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  test("whole numbers, singular and repeated as they come", () => {
    const matrix = fc
      .integer({ min: 2, max: 6 })
      .chain((n) => fc.array(fc.integer({ min: -2, max: 2 }), { minLength: n * n, maxLength: n * n }))
      .map((elements) => Float64Array.from(elements));
    fc.assert(
      fc.property(matrix, (a) => {
        const n = Math.sqrt(a.length);
        expect(check(a, n).residual).toBeLessThan(1e-12);
      }),
      { numRuns: 300 },
    );
  });

  test("a tiny pair beside a chain of zeros, which only one start vector in eight finds", () => {
    const a = new Float64Array(64);
    const elements = [
      [9, -9.999998997256833],
      [15, 1e-250],
      [18, -1.1858541225631398],
      [19, 2.14285714285575],
      [31, 4.285714285714282],
      [35, 8.223568628137615e-8],
      [38, -2.6130917329916344e-25],
      [52, 9.999937740090669],
      [57, -9.9999980865935],
    ] as const;
    for (const [at, value] of elements) a[at] = value;
    a[6] = -9.633800553137492e-244;
    a[47] = -1e-250;
    a[50] = -1e-250;
    a[56] = 1.401298464324817e-45;
    a[61] = -1e-250;
    expect(check(a, 8).outcome).toBe("converged");
  });

  test.each([clement(12), grcar(16)])("Clement and Grcar %#", (a) => {
    expect(check(a, Math.sqrt(a.length)).residual).toBeLessThan(1e-12);
  });
});

describe("known vectors", () => {
  test("a rotation generator: (1, −i)/√2 for +3i", () => {
    const { vectors, im } = check(
      fromRows([
        [0, 3],
        [-3, 0],
      ]),
      2,
    );
    expect(im[0]).toBeCloseTo(3, 15);
    const expected = [Math.SQRT1_2, 0, 0, Math.SQRT1_2];
    vectors.forEach((value, i) => {
      expect(value).toBeCloseTo(expected[i]!, 14);
    });
  });

  test("second difference: sines", () => {
    const n = 9;
    const { vectors } = check(
      fromRule(n, (i, j) => (i === j ? 2 : Math.abs(i - j) === 1 ? -1 : 0)),
      n,
    );
    for (let j = 0; j < n; j++) {
      const wave = Array.from({ length: n }, (_, i) => Math.sin(((i + 1) * (n - j) * Math.PI) / (n + 1)));
      const dot = wave.reduce((sum, value, i) => sum + value * vectors[i * n + j]!, 0) / Math.hypot(...wave);
      expect(Math.abs(Math.abs(dot) - 1)).toBeLessThan(1e-13);
    }
  });

  test("two systems that do not touch keep zeros in each other's place", () => {
    const a = fromRows([
      [0, 1, 0, 0],
      [-4, -0.1, 0, 0],
      [0, 0, -0.2, 3],
      [0, 0, -3, -0.2],
    ]);
    const { re, vectors } = check(a, 4);
    for (let j = 0; j < 4; j++) {
      const isFirst = Math.abs(re[j]! + 0.05) < 1e-12;
      for (let i = 0; i < 4; i++) if (i < 2 !== isFirst) expect(Math.abs(vectors[i * 4 + j]!)).toBeLessThan(1e-14);
    }
  });
});

describe("repeated and defective roots", () => {
  test.each([1, 3, 8])("the unit matrix of order %i has a full set", (n) => {
    const a = fromRule(n, (i, j) => (i === j ? 1 : 0));
    expect(rankOf(check(a, n).vectors, n)).toBe(n);
  });

  test("a hidden double root with two vectors gives independent ones", () => {
    // A = S diag(2, 2, 5, −1) S⁻¹
    const s = spreadMatrix(4, 6);
    const transposed = fromRule(4, (i, j) => s[j * 4 + i]!);
    const right = fromRule(4, (i, j) => [2, 2, 5, -1][i]! * s[j * 4 + i]!);
    const pivots = new Int32Array(4);
    luFactor(transposed, 4, pivots);
    luSolve(transposed, 4, pivots, right, 4);
    const { residual, vectors } = check(
      fromRule(4, (i, j) => right[j * 4 + i]!),
      4,
    );
    expect(residual).toBeLessThan(1e-11);
    expect(rankOf(vectors, 4)).toBe(4);
  });

  test.each([2, 5, 12, 30])("a Jordan block of order %i gives its one vector", (n) => {
    const { vectors, residual } = check(jordan(n, -0.5), n);
    expect(residual).toBeLessThan(1e-13);
    for (let j = 0; j < n; j++) expect(Math.abs(vectors[j]! - 1)).toBeLessThan(1e-13);
  });

  test("four integrators in chain beside an oscillator", () => {
    const a = fromRule(6, (i, j) => (i < 4 ? (j === i + 1 ? 1 : 0) : i === 4 ? (j === 5 ? 1 : 0) : j === 4 ? -9 : 0));
    expect(check(a, 6).residual).toBeLessThan(1e-13);
  });
});

describe("left vectors", () => {
  test.each([2, 7, 13])("yᴴA = λyᴴ and yᵢᴴxⱼ = 0 for different roots, order %i", (n) => {
    const a = spreadMatrix(n, 9);
    const { re, im, vectors } = check(a, n);
    const left = new Float64Array(n * n);
    expect(leftEigenvectors(a, n, re, im, createEigenWorkspace(n), left)).toBe("converged");
    const column = (from: Float64Array, j: number) => {
      const first = im[j]! < 0 ? j - 1 : j;
      const sign = im[j]! < 0 ? -1 : im[j]! > 0 ? 1 : 0;
      return Array.from(
        { length: n },
        (_, i) => [from[i * n + first]!, sign === 0 ? 0 : sign * from[i * n + first + 1]!] as const,
      );
    };
    for (let j = 0; j < n; j++) {
      const y = column(left, j);
      for (let k = 0; k < n; k++) {
        // (yᴴ A)ₖ − λ ȳₖ
        let real = -(re[j]! * y[k]![0] + im[j]! * y[k]![1]);
        let imaginary = -(im[j]! * y[k]![0] - re[j]! * y[k]![1]);
        for (let i = 0; i < n; i++) {
          real += y[i]![0] * a[i * n + k]!;
          imaginary -= y[i]![1] * a[i * n + k]!;
        }
        expect(Math.hypot(real, imaginary)).toBeLessThan(1e-12);
        if (k === j) continue;
        const x = column(vectors, k);
        const dotRe = y.reduce((sum, [c, s], i) => sum + c * x[i]![0] + s * x[i]![1], 0);
        const dotIm = y.reduce((sum, [c, s], i) => sum + c * x[i]![1] - s * x[i]![0], 0);
        expect(Math.hypot(dotRe, dotIm)).toBeLessThan(1e-11);
      }
    }
  });
});

describe("bad scaling and hard input", () => {
  test("10^(i−j) times a spread matrix: each component to its own scale", () => {
    const n = 9;
    const c = spreadMatrix(n, 2);
    const plain = check(c, n);
    const scaled = eigenSystem(
      fromRule(n, (i, j) => c[i * n + j]! * 10 ** (i - j)),
      n,
    );
    expect(scaled.outcome).toBe("converged");
    for (let j = 0; j < n; j++) {
      if (plain.im[j] !== 0) continue;
      const ratio = scaled.vectors[(n - 1) * n + j]! / (plain.vectors[(n - 1) * n + j]! * 10 ** (n - 1));
      for (let i = 0; i < n; i++) {
        const expected = plain.vectors[i * n + j]! * 10 ** i * ratio;
        expect(Math.abs(scaled.vectors[i * n + j]! / expected - 1)).toBeLessThan(1e-9);
      }
    }
  });

  test.each([-1000, -450, 450, 1000])("powers of two leave the vectors as they are: 2^%i", (power) => {
    const a = spreadMatrix(7, 4);
    const { vectors } = check(a, 7);
    const scaled = eigenSystem(
      a.map((value) => value * 2 ** power),
      7,
    );
    expect(scaled.outcome).toBe("converged");
    scaled.vectors.forEach((value, i) => {
      expect(Math.abs(value - vectors[i]!)).toBeLessThan(1e-13);
    });
  });

  test("the zero matrix has a full set", () => {
    expect(rankOf(check(new Float64Array(16), 4).vectors, 4)).toBe(4);
  });

  test("NaN gives NaN and says so", () => {
    const a = spreadMatrix(3);
    a[4] = Number.NaN;
    const { outcome, vectors, re } = eigenSystem(a, 3);
    expect(outcome).toBe("not finite");
    expect([...vectors, ...re].every(Number.isNaN)).toBe(true);
    const good = spreadMatrix(3);
    const broken = Float64Array.of(1, Number.NaN, 2);
    expect(eigenvectors(good, 3, broken, new Float64Array(3), createEigenWorkspace(3), vectors)).toBe("not finite");
    expect(eigenvectors(a, 3, new Float64Array(3), new Float64Array(3), createEigenWorkspace(3), vectors)).toBe(
      "not finite",
    );
  });

  test("a number that is no eigenvalue has no vector", () => {
    const a = spreadMatrix(5);
    const re = new Float64Array(5);
    const im = new Float64Array(5);
    const workspace = createEigenWorkspace(5);
    eigenvalues(a, 5, workspace, re, im);
    re.forEach((value, i) => {
      re[i] = value + 0.01;
    });
    const vectors = new Float64Array(25);
    expect(eigenvectors(a, 5, re, im, workspace, vectors)).toBe("no convergence");
    expect([...vectors].every(Number.isNaN)).toBe(true);
  });

  test("short arrays", () => {
    const row = new Float64Array(3);
    const workspace = createEigenWorkspace(3);
    expect(() => eigenvectors(new Float64Array(9), 3, row, row, workspace, new Float64Array(8))).toThrow(DomainError);
    expect(() => leftEigenvectors(new Float64Array(8), 3, row, row, workspace, new Float64Array(9))).toThrow(
      DomainError,
    );
  });
});
