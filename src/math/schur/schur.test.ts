import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { multiply } from "../dense/index.ts";
import { createEigenWorkspace, eigenvalues } from "../eigen/index.ts";
import { DomainError } from "../errors.ts";
import { blockEigenvalues, realSchur } from "./index.ts";

const matrices = fc
  .integer({ min: 1, max: 9 })
  .chain((n) =>
    fc
      .array(fc.integer({ min: -20, max: 20 }), { minLength: n * n, maxLength: n * n })
      .map((elements) => ({ n, a: Float64Array.from(elements) })),
  );

function turned(u: Float64Array, t: Float64Array, n: number): Float64Array {
  const ut = u.map((_, at) => u[(at % n) * n + Math.floor(at / n)]!);
  const half = new Float64Array(n * n);
  const out = new Float64Array(n * n);
  multiply(u, t, half, n, n, n);
  multiply(half, ut, out, n, n, n);
  return out;
}

describe("realSchur", () => {
  it("U·T·Uᵀ = A, UᵀU = 1, zeros below the blocks, eigenvalues of the blocks", () => {
    fc.assert(
      fc.property(matrices, ({ n, a }) => {
        const schur = realSchur(a, n);
        expect(schur.outcome).toBe("converged");
        const size = 1 + a.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
        turned(schur.vectors, schur.form, n).forEach((x, i) => {
          expect(Math.abs(x - a[i]!)).toBeLessThan(1e-12 * size * n);
        });
        const one = new Float64Array(n * n);
        for (let i = 0; i < n; i++) one[i * (n + 1)] = 1;
        turned(schur.vectors, one, n).forEach((x, i) => {
          expect(Math.abs(x - one[i]!)).toBeLessThan(1e-13 * n);
        });
        for (let i = 0; i < n; i++) {
          for (let j = 0; j < i; j++) {
            if (i - j > 1 || !schur.blocks.includes(j) || schur.blocks.includes(i))
              expect(schur.form[i * n + j]).toBe(0);
          }
        }
        // sums of powers of the eigenvalues, which do not care for their order or condition
        const re = new Float64Array(n);
        const im = new Float64Array(n);
        eigenvalues(a, n, createEigenWorkspace(n), re, im);
        const own = blockEigenvalues(schur, n);
        expect(own.length).toBe(n);
        const sum = own.reduce((total, [real]) => total + real, 0);
        const squares = own.reduce((total, [real, imag]) => total + real * real - imag * imag, 0);
        expect(Math.abs(sum - re.reduce((t, x) => t + x, 0))).toBeLessThan(1e-10 * size * n);
        const other = re.reduce((t, x, i) => t + x * x - im[i]! * im[i]!, 0);
        expect(Math.abs(squares - other)).toBeLessThan(1e-9 * size * size * n);
      }),
    );
  });

  it("a companion matrix of a hard cycle converges: x⁴ = 1", () => {
    const a = new Float64Array(16);
    for (let i = 0; i < 3; i++) a[(i + 1) * 4 + i] = 1;
    a[3] = 1;
    const values = blockEigenvalues(realSchur(a, 4), 4).map(([re, im]) => `${re.toFixed(9)} ${im.toFixed(9)}`);
    expect(values.map((v) => v.replaceAll("-0.000000000", "0.000000000")).sort()).toEqual([
      "-1.000000000 0.000000000",
      "0.000000000 -1.000000000",
      "0.000000000 1.000000000",
      "1.000000000 0.000000000",
    ]);
  });

  it("refuses what is not finite", () => {
    expect(() => realSchur(Float64Array.of(1, Number.NaN, 0, 1), 2)).toThrow(DomainError);
    expect(() => realSchur(new Float64Array(3), 2)).toThrow(DomainError);
  });
});
