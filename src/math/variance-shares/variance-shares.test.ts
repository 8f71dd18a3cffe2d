import { describe, expect, test } from "vitest";
import { ishigami, ishigamiShares } from "../../../reference/analytic/ishigami/closed-form.ts";
import { sobolG, sobolGShares } from "../../../reference/analytic/sobol-g/closed-form.ts";
import { expectClose } from "../../../test/support/close.ts";
import { normalQuantile } from "../distributions/index.ts";
import { DomainError } from "../errors.ts";
import { sobolSampler } from "../sampling/index.ts";
import { type VarianceDesign, type VarianceShares, varianceShares } from "./index.ts";

/** Shares of a function of uniform numbers in 0 … 1, or of what `map` makes of them. */
function sharesOf(
  f: (x: Float64Array) => number,
  dimensions: number,
  count: number,
  change: Partial<VarianceDesign> & { map?: (u: number) => number } = {},
): VarianceShares {
  const sampler = sobolSampler(2 * dimensions, 11);
  const both = new Float64Array(2 * dimensions);
  const map = change.map ?? ((u: number) => u);
  return varianceShares({
    dimensions,
    outputs: 1,
    groups: Array.from({ length: dimensions }, (_, j) => [j]),
    count,
    pair: (i, a, b) => {
      sampler.point(i, both);
      a.forEach((_, j) => {
        a[j] = map(both[j]);
        b[j] = map(both[dimensions + j]);
      });
    },
    evaluate: (x, out) => {
      out[0] = f(x);
      return true;
    },
    ...change,
  });
}

describe("varianceShares", () => {
  test("Ishigami's function (analytic/ishigami): an input that acts only together with another", () => {
    const exact = ishigamiShares();
    const found = sharesOf((u) => ishigami(u.map((x) => Math.PI * (2 * x - 1))), 3, 8192);
    expectClose(found.mean[0], exact.mean, { rtol: 2e-3, why: "8192 points" });
    expectClose(found.variance[0], exact.variance, { rtol: 5e-3, why: "8192 points" });
    found.shares[0].forEach(({ first, total, firstError, totalError }, j) => {
      expectClose(first, exact.first[j], { atol: 0.01, why: "8192 points of a Sobol sequence" }, `S${j + 1}`);
      expectClose(total, exact.total[j], { atol: 0.01, why: "8192 points of a Sobol sequence" }, `ST${j + 1}`);
      expect(Math.abs(first - exact.first[j])).toBeLessThan(4 * firstError);
      expect(Math.abs(total - exact.total[j])).toBeLessThan(4 * totalError + 1e-12);
    });
  });

  test("Sobol's g (analytic/sobol-g), six inputs of falling weight", () => {
    const a = [0, 0.5, 3, 9, 99, 99];
    const exact = sobolGShares(a);
    const found = sharesOf((u) => sobolG(u, a), 6, 8192).shares[0];
    found.forEach(({ first, total }, j) => {
      expectClose(first, exact.first[j], { atol: 0.015, why: "8192 points of a Sobol sequence" }, `S${j + 1}`);
      expectClose(total, exact.total[j], { atol: 0.015, why: "8192 points of a Sobol sequence" }, `ST${j + 1}`);
    });
  });

  test("a sum: shares are the squares of its coefficients, first and total alike", () => {
    const weights = [3, -2, 1, 0];
    const f = (x: Float64Array) => 100 + weights.reduce((sum, w, j) => sum + w * x[j], 0);
    const found = sharesOf(f, 4, 4096, { map: normalQuantile }).shares[0];
    found.forEach(({ first, total }, j) => {
      const exact = weights[j] ** 2 / 14;
      expectClose(total, exact, { atol: 0.005, why: "4096 points" });
      expectClose(first, exact, { atol: 0.02, why: "4096 points" });
    });
    expect(found[3]).toMatchObject({ total: 0, totalError: 0 });
  });

  test("a group of correlated inputs has the variance of its sum, correlation included", () => {
    const rho = 0.8;
    // x₀ and x₁ correlated, x₂ on its own: var(x₀ + x₁ + x₂) = 2 + 2ρ + 1
    const f = (z: Float64Array) => z[0] + (rho * z[0] + Math.sqrt(1 - rho * rho) * z[1]) + z[2];
    const { variance, shares } = sharesOf(f, 3, 4096, { map: normalQuantile, groups: [[0, 1], [2]] });
    expectClose(variance[0], 3 + 2 * rho, { rtol: 0.02, why: "4096 points" });
    expectClose(shares[0][0].total, (2 + 2 * rho) / (3 + 2 * rho), { atol: 0.01, why: "4096 points" });
    expectClose(shares[0][1].total, 1 / (3 + 2 * rho), { atol: 0.01, why: "4096 points" });
  });

  test("says which group changed, leaves out pairs without a value, and makes no share of no variance", () => {
    const seen: (number | null)[] = [];
    const part = sharesOf((x) => x[0], 2, 4, {
      evaluate: (x, out, group) => {
        seen.push(group);
        out[0] = x[0];
        return x[0] < 0.75;
      },
    });
    expect(seen.slice(0, 4)).toEqual([null, null, 0, 1]);
    expect(part.used).toBeLessThan(4);
    expect(part.used).toBeGreaterThan(0);
    const flat = sharesOf(() => 5, 2, 16);
    expect(flat.shares[0][0]).toEqual({ first: 0, total: 0, firstError: 0, totalError: 0 });
    expect(() => sharesOf(() => 1, 2, 0)).toThrow(DomainError);
  });
});
