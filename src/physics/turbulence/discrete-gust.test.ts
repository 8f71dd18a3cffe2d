import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import {
  designGust,
  GRADIENTS,
  gustAlleviation,
  gustLoadFactor,
  massRatio,
  oneMinusCosine,
  oneMinusCosineSlope,
  referenceGust,
} from "./index.ts";

const FOOT = 0.3048;

describe("discrete gusts", () => {
  it("1−cosine: peak at H, nothing outside 0 … 2H, slope by differences", () => {
    expect(oneMinusCosine(5, 20, 20)).toBe(5);
    expect(oneMinusCosine(5, 20, -1)).toBe(0);
    expect(oneMinusCosine(5, 20, 41)).toBe(0);
    for (const s of [3, 20, 33]) {
      const difference = (oneMinusCosine(5, 20, s + 1e-4) - oneMinusCosine(5, 20, s - 1e-4)) / 2e-4;
      expectClose(oneMinusCosineSlope(5, 20, s), difference, { atol: 1e-7, why: "central difference" });
    }
  });

  it("design gust grows with the sixth root of the gradient up to the reference", () => {
    expectClose(designGust(17, 1, GRADIENTS.to), 17, { rtol: 1e-12, why: "H = 350 ft" });
    expectClose(designGust(17, 0.8, GRADIENTS.to / 2), 17 * 0.8 * 2 ** (-1 / 6), { rtol: 1e-12, why: "formula" });
    expect(() => designGust(17, 1, 5)).toThrow(DomainError);
    expect(referenceGust(3000)).toBeLessThan(referenceGust(0));
    expect(referenceGust(3000)).toBeGreaterThan(referenceGust(4572));
  });

  it("gust alleviation and the gust formula with its constant 498 in knots and lb/ft²", () => {
    // worked by hand: μ 20 → 0.88·20/25.3
    expectClose(gustAlleviation(20), 0.695652, { rtol: 1e-6, why: "six digits" });
    expect(gustAlleviation(1e9)).toBeCloseTo(0.88, 6);
    expectClose(massRatio(300, 1.225, 2, 5), 600 / 12.25, { rtol: 1e-14, why: "formula" });
    const poundsPerFoot2 = 30;
    const loading = (poundsPerFoot2 * 0.45359237) / FOOT ** 2;
    const own = gustLoadFactor(0.7, 50 * FOOT, 150 * 0.514444, 5, loading);
    expectClose(own, (0.7 * 50 * 150 * 5) / (498 * poundsPerFoot2), { rtol: 2e-3, why: "498 is rounded" });
  });
});
