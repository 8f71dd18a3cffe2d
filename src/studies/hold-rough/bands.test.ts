import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { exitsOf, type Limited, largestSigma, passage } from "./bands.ts";

const one: Limited = { key: "pitch", mean: 0, deviationPerSigma: 2, crossings: 0.5, lower: -10, upper: 10 };

describe("largest intensity", () => {
  it("one symmetric band in closed form: σ = room/(s·√(2·ln(2N₀T/−ln(1 − P))))", () => {
    for (const [probability, time] of [
      [0.01, 600],
      [0.5, 60],
      [1e-6, 36000],
    ] as const) {
      const exits = (2 * one.crossings * time) / -Math.log1p(-probability);
      const sigma = 10 / (2 * Math.sqrt(2 * Math.log(exits)));
      expectClose(largestSigma([one], probability, time), sigma, { rtol: 1e-9, why: "closed form" });
      expectClose(passage([one], sigma, time), probability, { rtol: 1e-9, why: "inverse" });
    }
  });

  it("falls with time hooked, with a harder probability, with a narrower band and with every further limit", () => {
    const base = largestSigma([one], 0.01, 600);
    expect(largestSigma([one], 0.01, 1200)).toBeLessThan(base);
    expect(largestSigma([one], 0.001, 600)).toBeLessThan(base);
    expect(largestSigma([{ ...one, upper: 9 }], 0.01, 600)).toBeLessThan(base);
    expect(largestSigma([one, { ...one, key: "bank" }], 0.01, 600)).toBeLessThan(base);
    expect(largestSigma([{ ...one, mean: 3 }], 0.01, 600)).toBeLessThan(base);
    expect(largestSigma([{ ...one, lower: -Infinity }], 0.01, 600)).toBeGreaterThan(base);
  });

  it("goes with the room: twice the band, twice the σ", () => {
    const base = largestSigma([one], 0.01, 600);
    const wide = largestSigma([{ ...one, lower: -20, upper: 20 }], 0.01, 600);
    expectClose(wide, 2 * base, { rtol: 1e-9, why: "linear" });
  });

  it("a mean on or beyond its limit leaves nothing, a quantity that does not move leaves all", () => {
    expect(largestSigma([{ ...one, mean: 10 }], 0.01, 600)).toBe(0);
    expect(exitsOf([{ ...one, mean: 12 }], 1)).toBe(Infinity);
    expect(largestSigma([{ ...one, deviationPerSigma: 0, crossings: 0 }], 0.01, 600)).toBe(1e4);
  });
});
