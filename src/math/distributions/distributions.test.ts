import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { loadPublished } from "../../../reference/load.ts";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import {
  betaQuantile,
  clopperPearson,
  fromNormalScore,
  incompleteBeta,
  logGamma,
  lowerBound,
  type Marginal,
  normalCdf,
  normalDensity,
  normalQuantile,
  normalUpper,
  toNormalScore,
  upperBound,
  wilson,
} from "./index.ts";

const generated = JSON.parse(
  readFileSync(new URL("../../../reference/generated/distributions-scipy/values.json", import.meta.url), "utf8"),
) as Readonly<Record<"cdf" | "quantile" | "beta" | "gamma" | "clopper", number[][]>>;

describe("normal distribution", () => {
  test("values of an independent library (generated/distributions-scipy)", () => {
    for (const [x, p] of generated.cdf) {
      expectClose(normalCdf(x), p, { rtol: 3e-13, why: "rounding of x² in the exponent, up to 700 ε" }, `Φ(${x})`);
    }
    for (const [p, z] of generated.quantile) {
      expectClose(normalQuantile(p), z, { rtol: 1e-12, atol: 1e-14, why: "rounding" }, `quantile of ${p}`);
    }
  });

  test("symmetry, slope and round trip", () => {
    fc.assert(
      fc.property(fc.double({ min: -7, max: 7, noNaN: true }), (x) => {
        expectClose(normalCdf(x) + normalCdf(-x), 1, { atol: 1e-15, why: "rounding" });
        expectClose(normalUpper(x), normalCdf(-x), { rtol: 0, why: "the same number" });
        const h = 1e-4;
        const slope = (normalCdf(x + h) - normalCdf(x - h)) / (2 * h);
        expectClose(slope, normalDensity(x), { rtol: 1e-5, atol: 1e-11, why: "difference over 2e-4" });
        if (x < 3) expectClose(normalQuantile(normalCdf(x)), x, { atol: 1e-12, why: "rounding of Φ" });
      }),
    );
  });

  test("refuses what is no probability", () => {
    for (const p of [0, 1, -0.1, Number.NaN]) expect(() => normalQuantile(p)).toThrow(DomainError);
    expect(() => normalCdf(Number.NaN)).toThrow("normal score");
  });
});

describe("gamma and beta functions", () => {
  test("values of an independent library (generated/distributions-scipy)", () => {
    for (const [x, value] of generated.gamma) {
      expectClose(logGamma(x), value, { rtol: 1e-13, atol: 2e-15, why: "Lanczos sum" }, `ln Γ(${x})`);
    }
    for (const [x, a, b, value] of generated.beta) {
      const why = "logarithms of gamma functions of up to 1e4: 1e5·ε";
      expectClose(incompleteBeta(x, a, b), value, { rtol: 1e-10, atol: 1e-300, why }, `I_${x}(${a}, ${b})`);
    }
  });

  test("is a sum of binomial terms for whole numbers", () => {
    const [n, k, p] = [12, 4, 0.27];
    let sum = 0;
    for (let i = k; i <= n; i++) {
      const ways = Math.exp(logGamma(n + 1) - logGamma(i + 1) - logGamma(n - i + 1));
      sum += ways * p ** i * (1 - p) ** (n - i);
    }
    expectClose(incompleteBeta(p, k, n - k + 1), sum, { rtol: 1e-12, why: "rounding" });
  });

  test("the quantile undoes it; ends are exact; arguments out of range are refused", () => {
    for (const p of [1e-6, 0.3, 0.999]) {
      expectClose(incompleteBeta(betaQuantile(p, 3, 1.5), 3, 1.5), p, { rtol: 1e-10, why: "root to rounding" });
    }
    expect([betaQuantile(0, 2, 3), betaQuantile(1, 2, 3), incompleteBeta(0, 2, 3)]).toEqual([0, 1, 0]);
    expect(() => incompleteBeta(1.1, 1, 1)).toThrow(DomainError);
    expect(() => incompleteBeta(0.5, 0, 1)).toThrow("parameters of the beta function");
    expect(() => logGamma(0)).toThrow(DomainError);
  });
});

describe("intervals of a probability", () => {
  test.each([
    ["wilson", wilson],
    ["clopperPearson", clopperPearson],
  ] as const)("%s: published/binomial-intervals", (table, interval) => {
    for (const row of loadPublished("binomial-intervals").cells(table)) {
      const found = interval(row.hits.value, row.of.value, row.confidence.value);
      for (const end of ["lower", "upper"] as const) {
        if (row[end] === undefined) continue;
        const why = "one unit of the last printed digit, or the root of the beta function where 16 digits are printed";
        const atol = Math.max(row[end].lastDigit, 1e-14);
        expectClose(found[end], row[end].value, { atol, why }, `${row.hits.value}/${row.of.value}`);
      }
    }
  });

  test("one-sided bounds: published/binomial-intervals", () => {
    for (const { hits, of, confidence, lower, upper } of loadPublished("binomial-intervals").cells("oneSided")) {
      const why = "one unit of the last printed digit, or the root of the beta function where 16 digits are printed";
      for (const [bound, printed] of [
        [lowerBound, lower],
        [upperBound, upper],
      ] as const) {
        if (printed === undefined) continue;
        const atol = Math.max(printed.lastDigit, 1e-14);
        expectClose(bound(hits.value, of.value, confidence.value), printed.value, { atol, why });
      }
    }
  });

  test("none of n: the rule of three from 31 on (published/rule-of-three), exactly 1 - (1 - c)^(1/n)", () => {
    const [rule] = loadPublished("rule-of-three").cells("rule");
    for (const n of [31, 59, 300, 5000]) {
      const bound = upperBound(0, n, rule!.confidence.value);
      expectClose(rule!.numerator.value / n, bound, { rtol: 0.055, why: "the rule's own error at n = 31" });
      expectClose(bound, -Math.expm1(Math.log(1 - rule!.confidence.value) / n), { rtol: 1e-9, why: "root" });
    }
  });

  test("one-sided bounds are the ends of a two-sided interval of twice the risk", () => {
    const both = clopperPearson(18, 20, 0.9);
    expect([lowerBound(18, 20, 0.95), upperBound(18, 20, 0.95)]).toEqual([both.lower, both.upper]);
    expect([lowerBound(0, 4, 0.9), upperBound(4, 4, 0.9)]).toEqual([0, 1]);
    expect(() => lowerBound(5, 4, 0.9)).toThrow(DomainError);
  });

  test("exact intervals of large counts (generated/distributions-scipy)", () => {
    for (const [hits, of, confidence, lower, upper] of generated.clopper) {
      const found = clopperPearson(hits, of, confidence);
      expectClose(found.lower, lower, { rtol: 1e-9, why: "root of the beta function" });
      expectClose(found.upper, upper, { rtol: 1e-9, why: "root of the beta function" });
    }
  });

  test("hold the share, mirror, and narrow with the number of trials", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 400 }), fc.double({ min: 0, max: 1, noNaN: true }), (of, share) => {
        const hits = Math.round(share * of);
        for (const interval of [wilson, clopperPearson]) {
          const { lower, upper } = interval(hits, of, 0.9);
          expect(lower).toBeLessThanOrEqual(hits / of + 1e-12);
          expect(upper).toBeGreaterThanOrEqual(hits / of - 1e-12);
          const mirrored = interval(of - hits, of, 0.9);
          expectClose(mirrored.lower, 1 - upper, { atol: 1e-9, why: "rounding" });
          const more = interval(4 * hits, 4 * of, 0.9);
          expect(more.upper - more.lower).toBeLessThan(upper - lower);
        }
      }),
    );
    expect(() => wilson(3, 2, 0.95)).toThrow("number of hits is 3");
    expect(() => clopperPearson(1, 0, 0.95)).toThrow(DomainError);
    expect(() => clopperPearson(1, 2, 1)).toThrow("confidence");
  });
});

const marginals: readonly [Marginal, number, number][] = [
  [{ kind: "normal", centre: 3, sigma: 0.4 }, 3, 0.4],
  [{ kind: "uniform", centre: -2, halfWidth: 1.5 }, -2, 1.5 / Math.sqrt(3)],
  [{ kind: "triangular", centre: 5, halfWidth: 2 }, 5, 2 / Math.sqrt(6)],
  [
    { kind: "lognormal", median: 2, logSigma: 0.3 },
    2 * Math.exp(0.045),
    2 * Math.exp(0.045) * Math.sqrt(Math.expm1(0.09)),
  ],
];

describe("marginals", () => {
  test.each(marginals)("%o: mean and standard deviation over equally likely scores", (marginal, mean, sigma) => {
    const n = 20_000;
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < n; i++) {
      const x = fromNormalScore(marginal, normalQuantile((i + 0.5) / n));
      sum += x / n;
      squares += (x - mean) ** 2 / n;
    }
    expectClose(sum, mean, { atol: 1e-4 * sigma, why: "midpoint rule, tails cut at 1/40000" });
    expectClose(Math.sqrt(squares), sigma, { rtol: 1e-3, why: "midpoint rule, tails cut at 1/40000" });
  });

  test.each(marginals)("%o: rises, and the score comes back", (marginal) => {
    let last = Number.NEGATIVE_INFINITY;
    for (const z of [-4, -2, -0.7, 0, 0.1, 1, 3]) {
      const x = fromNormalScore(marginal, z);
      expect(x).toBeGreaterThan(last);
      last = x;
      expectClose(toNormalScore(marginal, x), z, { atol: 1e-9, why: "rounding near a bound" });
    }
  });

  test("bounded ones keep their bounds, the centre is score 0, a value outside is refused", () => {
    const uniform: Marginal = { kind: "uniform", centre: 1, halfWidth: 0.5 };
    const triangular: Marginal = { kind: "triangular", centre: 1, halfWidth: 0.5 };
    for (const marginal of [uniform, triangular]) {
      expect(fromNormalScore(marginal, 0)).toBe(1);
      expect(fromNormalScore(marginal, 30)).toBeLessThanOrEqual(1.5);
      expect(fromNormalScore(marginal, -30)).toBeGreaterThanOrEqual(0.5);
      expect(() => toNormalScore(marginal, 1.6)).toThrow("not inside its bounds");
    }
    expect(() => toNormalScore({ kind: "lognormal", median: 1, logSigma: 1 }, -1)).toThrow("lognormal");
  });
});
