import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import { gaussLegendre, integrate, resonanceBreaks } from "./index.ts";

describe("gaussLegendre", () => {
  it("is exact to degree 2n − 1 and not beyond", () => {
    for (let n = 1; n <= 12; n++) {
      const { points, weights } = gaussLegendre(n);
      const moment = (d: number): number => points.reduce((sum, x, k) => sum + weights[k]! * x ** d, 0);
      for (let d = 0; d <= 2 * n - 1; d++) {
        expectClose(moment(d), d % 2 === 0 ? 2 / (d + 1) : 0, { atol: 1e-14, why: "round-off" }, `n ${n}, degree ${d}`);
      }
      expect(Math.abs(moment(2 * n) - 2 / (2 * n + 1))).toBeGreaterThan(1e-8);
    }
  });
});

describe("integrate", () => {
  it("several functions at once, each to its tolerance", () => {
    const { outcome, values, errors } = integrate(
      (x, out) => {
        out[0] = Math.exp(-x);
        out[1] = Math.sqrt(x);
        out[2] = Math.cos(50 * x);
      },
      3,
      [0, 1],
      1e-9,
    );
    expect(outcome).toBe("converged");
    const exact = [1 - Math.exp(-1), 2 / 3, Math.sin(50) / 50];
    exact.forEach((value, i) => {
      expectClose(values[i]!, value, { atol: 3e-9, why: "asked tolerance" }, `function ${i}`);
      expect(Math.abs(values[i]! - value)).toBeLessThan(errors[i]! + 1e-12);
    });
  });

  it("an oscillator under white noise: both variances, damping from 0.0001 to 2", () => {
    for (const zeta of [1e-4, 0.01, 0.5, 2]) {
      const w0 = 3;
      const spread = w0 * Math.sqrt(Math.max(0, 1 - zeta ** 2));
      const breaks = resonanceBreaks(1e-5, 1e6, [[-zeta * w0, spread]]);
      const { values } = integrate(
        (x, out) => {
          const w = Math.exp(x);
          const power = w / ((w0 ** 2 - w ** 2) ** 2 + (2 * zeta * w0 * w) ** 2);
          out[0] = power;
          out[1] = w * w * power;
        },
        2,
        breaks,
        1e-9,
      );
      // ∫₀^∞ dω/|…|² = π/(4ζω₀³), with ω² = π/(4ζω₀)
      expectClose(values[0]!, Math.PI / (4 * zeta * w0 ** 3), { rtol: 1e-5, why: "cut at 1e-5 rad/s" });
      expectClose(values[1]!, Math.PI / (4 * zeta * w0), { rtol: 1e-5, why: "cut at 1e6 rad/s" });
    }
  });

  it("not finite and wrong bounds", () => {
    const nan = (_: number, out: Float64Array) => out.fill(Number.NaN);
    expect(integrate(nan, 1, [0, 1], 1e-6).outcome).toBe("not finite");
    expect(() => integrate(nan, 1, [0, 0], 1e-6)).toThrow(DomainError);
    expect(() => integrate(nan, 1, [0], 1e-6)).toThrow("at least 2");
    expect(() => integrate(nan, 1, [0, 1], 0)).toThrow("relative tolerance");
    expect(() => resonanceBreaks(1, 1, [])).toThrow(DomainError);
  });
});
