import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { normalCdf, normalQuantile } from "../../math/distributions/index.ts";
import { lowerRank, quantile, type Samples, summarise } from "./distribution.ts";
import { afterMeasurement, gainOf } from "./ground-tests.ts";
import { factorOf } from "./variables.ts";

describe("lowerRank", () => {
  it("95 % with 95 % confidence: the smallest of 59, the second of 93, the third of 124", () => {
    // 0.95^58 = 0.0510, 0.95^59 = 0.0485: Wilks' numbers of runs for the first three orders
    expect([59, 92, 93, 123, 124].map((n) => lowerRank(n, 0.05, 0.95))).toEqual([0, 0, 1, 1, 2]);
  });

  it("holds its confidence and not one rank more", () => {
    const below = (n: number, k: number): number => {
      // P(at least k of n fall below the 5 % quantile), summed term by term
      let sum = 0;
      let term = 0.95 ** n;
      for (let i = 0; i < k; i++) {
        sum += term;
        term *= ((n - i) / (i + 1)) * (0.05 / 0.95);
      }
      return 1 - sum;
    };
    for (const n of [100, 400, 2048]) {
      const rank = lowerRank(n, 0.05, 0.95);
      expect(below(n, rank + 1)).toBeGreaterThanOrEqual(0.95);
      expect(below(n, rank + 2)).toBeLessThan(0.95);
    }
  });
});

/** Samples of one plane whose worst ζ are given; the other plane is empty. */
function samplesOf(zeta: number[], margin = zeta.map((value) => value - 0.03)): Samples {
  const empty = new Float64Array(zeta.length).fill(Number.NaN);
  return {
    count: zeta.length,
    zeta: [Float64Array.from(zeta), empty],
    margin: [Float64Array.from(margin), empty],
    worstMass: [new Int32Array(zeta.length), new Int32Array(zeta.length)],
    ...{ impossible: 0, noTrim: 0 },
  };
}

describe("summarise", () => {
  it("a normal distribution: moments, quantiles, probability of missing, histogram", () => {
    const n = 4000;
    const [mean, sigma] = [0.05, 0.01];
    const zeta = Array.from({ length: n }, (_, i) => mean + sigma * normalQuantile((i + 0.5) / n));
    const found = summarise(samplesOf(zeta), 0, ["full"], 0.03, 0.95)!;
    expectClose(found.mean_1, mean, { atol: 1e-9, why: "symmetric" });
    expectClose(found.standardDeviation_1, sigma, { rtol: 2e-3, why: "tails cut at 1/8000" });
    for (const { probability_1, dampingRatio_1 } of found.quantiles) {
      const exact = mean + sigma * normalQuantile(probability_1);
      expectClose(dampingRatio_1, exact, { atol: 1e-5, why: "straight between neighbours" });
    }
    expectClose(found.failing.probability_1, normalCdf(-2), { atol: 1 / n, why: "whole samples" });
    expect(found.failing.lower_1).toBeLessThan(normalCdf(-2));
    expect(found.failing.upper_1).toBeGreaterThan(normalCdf(-2));
    expect(found.histogram.counts.reduce((sum, count) => sum + count, 0)).toBe(n);
    expect(found.lowerBound_1).toBeLessThan(found.quantiles[1].dampingRatio_1);
    expectClose(found.lowerBound_1, found.quantiles[1].dampingRatio_1, { rtol: 0.02, why: "4000 samples" });
    expect(found.worstMass).toEqual([{ mass: "full", share_1: 1 }]);
  });

  it("counts what misses by another mode, and leaves out what has no value", () => {
    const found = summarise(
      samplesOf([0.05, 0.05, 0.01, Number.NaN, Number.NaN], [0.02, -0.1, -0.02, -1, Number.NaN]),
      ...([0, ["full"], 0.03, 0.95] as const),
    )!;
    expect(found.failing).toMatchObject({ count: 3, of: 4, otherwise: 2 });
    expect(found.samples).toBe(3);
    expect(summarise(samplesOf([Number.NaN]), 0, ["full"], 0.03, 0.95)).toBeNull();
  });

  it("a quantile lies between its neighbours and rises", () => {
    const sorted = [1, 2, 4, 8];
    expect([0, 0.125, 0.25, 0.5, 1].map((p) => quantile(sorted, p))).toEqual([1, 1, 1.5, 3, 8]);
  });
});

describe("afterMeasurement", () => {
  it("an independent value keeps v²/(1 + v²) of its variance, the others all of it", () => {
    const v = 0.25;
    const left = afterMeasurement(Float64Array.of(1, 0, 0, 1), 2, [{ index: 0, deviation: v }]);
    expectAllClose(left, [v ** 2 / (1 + v ** 2), 0, 0, 1], { atol: 1e-15, why: "rounding" });
  });

  it("a correlated value profits: 1 − ρ²/(1 + v²), and a perfect measurement leaves 1 − ρ²", () => {
    const [rho, v] = [0.9, 0.5];
    const R = Float64Array.of(1, rho, rho, 1);
    const left = afterMeasurement(R, 2, [{ index: 0, deviation: v }]);
    expectClose(left[3], 1 - rho ** 2 / (1 + v ** 2), { rtol: 1e-14, why: "rounding" });
    expectClose(left[1], rho - rho / (1 + v ** 2), { rtol: 1e-14, why: "rounding" });
    const exact = afterMeasurement(R, 2, [{ index: 0, deviation: 0 }]);
    expectAllClose(exact, [0, 0, 0, 1 - rho ** 2], { atol: 1e-14, why: "rounding" });
  });

  it("two measurements of one after the other are both at once, and leave a matrix that has a factor", () => {
    fc.assert(
      fc.property(
        fc.tuple(fc.double({ min: -0.9, max: 0.9, noNaN: true }), fc.double({ min: 0.01, max: 3, noNaN: true })),
        ([rho, v]) => {
          const R = Float64Array.of(1, rho, 0, rho, 1, 0.3, 0, 0.3, 1);
          if (1 - rho * rho - 0.09 <= 0.01) return;
          const measured = [
            { index: 0, deviation: v },
            { index: 2, deviation: 1.5 * v },
          ];
          const both = afterMeasurement(R, 3, measured);
          const inTurn = afterMeasurement(afterMeasurement(R, 3, measured.slice(0, 1)), 3, measured.slice(1));
          expectAllClose(both, inTurn, { atol: 1e-12, why: "rounding" });
          const L = factorOf(both, 3);
          for (let i = 0; i < 3; i++) {
            let square = 0;
            for (let j = 0; j <= i; j++) square += L[3 * i + j] ** 2;
            expectClose(square, both[4 * i], { atol: 2e-9, why: "slack of the factor" });
            expect(both[4 * i]).toBeLessThanOrEqual(1 + 1e-12);
          }
        },
      ),
    );
  });
});

describe("gainOf", () => {
  const margin = Float64Array.of(0.01, -0.01, 0.02, Number.NaN);
  it("a test that leaves nothing decides for certain; one that changes nothing buys nothing", () => {
    const all = gainOf({ mean: 0.04, deviation: 0.02 }, { deviation: 0 }, margin, 0.03, 0.95);
    expect(all.varianceBought_1).toBe(1);
    expectClose(all.decides_1, 1, { atol: 1e-15, why: "rounding" });
    const nothing = gainOf({ mean: 0.04, deviation: 0.02 }, { deviation: 0.02 }, margin, 0.03, 0.95);
    expect(nothing).toMatchObject({ varianceBought_1: 0, decides_1: 0 });
    expectClose(nothing.failing_1, 1 / 3, { rtol: 1e-15, why: "a share of three" });
  });

  it("decides by the formula for a mean on the criterion: 2·Φ(−k·s'/s_t)", () => {
    const gain = gainOf({ mean: 0.03, deviation: 0.05 }, { deviation: 0.03 }, margin, 0.03, 0.95);
    expectClose(gain.varianceBought_1, 0.64, { rtol: 1e-14, why: "1 − 0.36" });
    const k = normalQuantile(0.95);
    expectClose(gain.decides_1, 2 * normalCdf((-k * 0.03) / 0.04), { rtol: 1e-12, why: "rounding" });
  });
});
