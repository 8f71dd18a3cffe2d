import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import { lyapunov } from "./index.ts";

describe("lyapunov", () => {
  it("a first-order lag under white noise", () => {
    const { outcome, matrix } = lyapunov(Float64Array.of(-2), Float64Array.of(3), 1);
    expect(outcome).toBe("solved");
    expectClose(matrix[0]!, 3 / 4, { rtol: 1e-15, why: "q/2a" });
  });

  it("an oscillator under white noise: variances in closed form, however light its damping", () => {
    for (const zeta of [1e-6, 0.01, 0.7, 1, 3]) {
      const w = 2.5;
      const { matrix, residual } = lyapunov(
        Float64Array.of(0, 1, -w * w, -2 * zeta * w),
        Float64Array.of(0, 0, 0, 0.8),
        2,
      );
      const rate = 0.8 / (4 * zeta * w);
      expectAllClose(matrix, [rate / w ** 2, 0, 0, rate], { rtol: 1e-9, atol: 1e-9 * rate, why: "round-off over ζ" });
      expect(residual).toBeLessThan(1e-14);
    }
  });

  it("agrees with scipy on random matrices near instability (generated/lyapunov-scipy)", () => {
    const file = new URL("../../../reference/generated/lyapunov-scipy/values.json", import.meta.url);
    const { cases } = JSON.parse(readFileSync(file, "utf8")) as {
      cases: { n: number; a: number[]; q: number[]; p: number[] }[];
    };
    expect(cases.length).toBe(8);
    for (const { n, a, q, p } of cases) {
      const { outcome, matrix, residual } = lyapunov(Float64Array.from(a), Float64Array.from(q), n);
      expect(outcome).toBe("solved");
      expect(residual).toBeLessThan(1e-13);
      const size = Math.max(...p.map(Math.abs));
      expectAllClose(matrix, p, { atol: 1e-9 * size, why: "condition of the equation" }, `order ${n}`);
      for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) expect(matrix[i * n + j]).toBe(matrix[j * n + i]);
    }
  });

  it("an unstable or merely stable matrix has no stationary covariance", () => {
    for (const a of [Float64Array.of(0.1, 0, 0, -1), Float64Array.of(0, 1, -4, 0), new Float64Array(4)]) {
      const { outcome, matrix, largestReal } = lyapunov(a, Float64Array.of(1, 0, 0, 1), 2);
      expect(outcome).toBe("unstable");
      expect([...matrix]).toEqual([0, 0, 0, 0]);
      expect(largestReal).toBeGreaterThanOrEqual(0);
    }
  });

  it("refuses short arrays and what is not finite", () => {
    expect(() => lyapunov(Float64Array.of(-1, 0, 0, -1), new Float64Array(3), 2)).toThrow(DomainError);
    expect(() => lyapunov(Float64Array.of(Number.NaN), new Float64Array(1), 1)).toThrow("matrix element 0 is NaN");
  });
});
