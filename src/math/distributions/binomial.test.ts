import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import {
  betaQuantile,
  binomialAtLeast,
  binomialAtMost,
  binomialProbability,
  binomialTest,
  fisherExact,
} from "./index.ts";

const generated = JSON.parse(
  readFileSync(new URL("../../../reference/generated/claims-scipy/values.json", import.meta.url), "utf8"),
) as Readonly<Record<"binomial" | "fisher" | "posterior", [number, number, number, ...number[]][]>>;

describe("binomial distribution", () => {
  test("values of an independent library (generated/claims-scipy)", () => {
    const why = "logarithms of gamma functions";
    for (const [hits, of, share, one, atLeast, atMost, p] of generated.binomial) {
      const label = `${hits} of ${of} at ${share}`;
      expectClose(binomialProbability(hits, of, share), one!, { rtol: 1e-11, why }, label);
      expectClose(binomialAtLeast(hits, of, share), atLeast!, { rtol: 1e-10, why }, label);
      expectClose(binomialAtMost(hits, of, share), atMost!, { rtol: 1e-10, why }, label);
      expectClose(binomialTest(hits, of, share), p!, { rtol: 1e-9, why }, label);
    }
    for (const [a, b, p, value] of generated.posterior) {
      expectClose(betaQuantile(p, a, b), value!, { rtol: 1e-9, why: "root to rounding" }, `beta ${a}, ${b} at ${p}`);
    }
  });

  test("sums to one, both tails overlap in one count, hits mirror misses", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 60 }),
        fc.integer({ min: 0, max: 60 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (of, some, share) => {
          const hits = Math.min(of, some);
          let sum = 0;
          for (let j = 0; j <= of; j++) sum += binomialProbability(j, of, share);
          expectClose(sum, 1, { atol: 1e-11, why: "rounding of 61 terms" });
          const both = binomialAtLeast(hits, of, share) + binomialAtMost(hits, of, share);
          expectClose(both, 1 + binomialProbability(hits, of, share), { atol: 1e-10, why: "rounding" });
          const mirrored = binomialTest(of - hits, of, 1 - share);
          if (share > 1e-3 && share < 0.999)
            expectClose(binomialTest(hits, of, share), mirrored, { rtol: 1e-8, why: "rounding of 1 - share" });
        },
      ),
    );
  });

  test("the most likely count is no surprise, an impossible one is certain to be", () => {
    expectClose(binomialTest(8, 10, 0.8), 1, { atol: 1e-12, why: "sum of all" });
    expect(binomialTest(9, 10, 1)).toBe(0);
    expect(binomialTest(10, 10, 1)).toBe(1);
    expect(() => binomialTest(11, 10, 0.5)).toThrow(DomainError);
    expect(() => binomialProbability(0.5, 10, 0.5)).toThrow("whole number");
    expect(() => binomialAtMost(1, 10, 1.5)).toThrow("probability");
  });
});

describe("two groups", () => {
  test("the lady tasting tea: 16 + 1 of 70 divisions", () => {
    const { firstHigher, twoSided } = fisherExact({ hits: [3, 1], of: [4, 4] });
    expectClose(firstHigher, 17 / 70, { rtol: 1e-12, why: "rounding" });
    expectClose(twoSided, 34 / 70, { rtol: 1e-12, why: "rounding" });
  });

  test("values of an independent library (generated/claims-scipy)", () => {
    for (const [a, n, b, m, two, less, greater] of generated.fisher) {
      const found = fisherExact({ hits: [a, b], of: [n, m!] });
      const why = "logarithms of gamma functions of up to 5e3";
      expectClose(found.twoSided, two!, { rtol: 1e-9, why });
      expectClose(found.firstLower, less!, { rtol: 1e-9, why });
      expectClose(found.firstHigher, greater!, { rtol: 1e-9, why });
    }
  });

  test("groups may change places; a large second group turns it into the test against its share", () => {
    const one = fisherExact({ hits: [7, 2], of: [9, 8] });
    const other = fisherExact({ hits: [2, 7], of: [8, 9] });
    expectClose(one.firstHigher, other.firstLower, { rtol: 1e-12, why: "rounding" });
    const against = fisherExact({ hits: [6, 9_000_000], of: [9, 10_000_000] });
    expectClose(against.twoSided, binomialTest(6, 9, 0.9), { rtol: 1e-5, why: "second group of 1e7" });
    expect(() => fisherExact({ hits: [5, 1], of: [4, 4] })).toThrow(DomainError);
  });
});
