import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import { RandomStream } from "../random/index.ts";
import { allowedRate, exitRate, firstPassage, meanCrossings, peakDistance } from "./index.ts";

describe("crossings of a normal process", () => {
  it("a narrow band of noise passes its mean once a period (closed form)", () => {
    // constant spectrum from ω₁ to ω₂: σ² = ω₂ − ω₁, σ̇² = (ω₂³ − ω₁³)/3
    const n0 = (low: number, high: number) =>
      meanCrossings(Math.sqrt(high - low), Math.sqrt((high ** 3 - low ** 3) / 3));
    expectClose(n0(2 * Math.PI * 0.999, 2 * Math.PI * 1.001), 1, { rtol: 1e-6, why: "width² / 24" });
    // low-pass noise to ω: N₀ = ω/(2π√3), Rice's own example
    expectClose(n0(0, 2 * Math.PI), 1 / Math.sqrt(3), { rtol: 1e-14, why: "round-off" });
  });

  it("counts what a made history of narrow-band noise does", () => {
    // sum of many cosines, 0.4 … 0.6 Hz, equal strength, random phases
    const phases = new RandomStream(11, 0);
    const lines = Array.from({ length: 40 }, (_, k) => ({
      w: 2 * Math.PI * (0.4 + (0.2 * (k + 0.5)) / 40),
      phase: 2 * Math.PI * phases.uniform(),
    }));
    const deviation = Math.sqrt(40 / 2);
    const rate = Math.sqrt(lines.reduce((sum, { w }) => sum + (w * w) / 2, 0));
    const process = { mean: 0, deviation, crossings: meanCrossings(deviation, rate) };
    const time = 4000;
    const level = 1.5 * deviation;
    let out = 0;
    let before = 0;
    for (let t = 0; t < time; t += 0.02) {
      const y = lines.reduce((sum, { w, phase }) => sum + Math.cos(w * t + phase), 0);
      if (Math.abs(y) > level && Math.abs(before) <= level) out++;
      before = y;
    }
    const expected = exitRate(process, { lower: -level, upper: level }) * time;
    // exits come in clumps of about three: the spread is that of a third as many independent ones
    expectClose(out, expected, { atol: 4 * Math.sqrt(3 * expected), why: "four standard deviations" });
    expect(expected).toBeGreaterThan(1000);
  });

  it("both ends and the mean count; a mean on an end has no finite rate", () => {
    const process = { mean: 1, deviation: 2, crossings: 0.5 };
    expectClose(exitRate(process, { lower: -3, upper: 5 }), 0.5 * (Math.exp(-2) + Math.exp(-2)), {
      rtol: 1e-14,
      why: "formula",
    });
    expect(exitRate(process, { lower: -Infinity, upper: 5 })).toBe(0.5 * Math.exp(-2));
    expect(exitRate(process, { lower: 1, upper: 5 })).toBe(Infinity);
    expect(exitRate({ ...process, deviation: 0 }, { lower: 0, upper: 2 })).toBe(0);
    expect(firstPassage(Infinity, 10)).toBe(1);
  });

  it("rate, probability and peak invert each other", () => {
    const rate = allowedRate(0.01, 300);
    expectClose(firstPassage(rate, 300), 0.01, { rtol: 1e-14, why: "inverse" });
    const process = { mean: -3, deviation: 1.7, crossings: 0.8 };
    const a = peakDistance(process, rate);
    expectClose(exitRate(process, { lower: -3 - a, upper: -3 + a }), rate, { rtol: 1e-12, why: "inverse" });
    expect(peakDistance(process, 2)).toBe(0);
  });

  it("refuses what has no meaning", () => {
    expect(() => meanCrossings(0, 1)).toThrow(DomainError);
    expect(() => allowedRate(1, 10)).toThrow("probability");
    expect(() => exitRate({ mean: 0, deviation: 1, crossings: 1 }, { lower: 2, upper: 1 })).toThrow(
      "lower below upper",
    );
  });
});
