import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Limit, LimitStatus } from "../../studies/finding/types.ts";
import { limitMeaning, limitRange } from "./index.ts";

function limit(lower: number | null, upper: number | null, status: LimitStatus = "prohibited", unit = "m/s"): Limit {
  return { id: "a", title: "A", quantity: "airspeed", lower, upper, unit, status, because: [] };
}

describe("range of a limit in words", () => {
  it("names both ends, or says which side has none", () => {
    expect(limitRange(limit(70, 112.34))).toBe("from 70 m/s to 112.4 m/s");
    expect(limitRange(limit(null, 112.3))).toBe("up to 112.3 m/s");
    expect(limitRange(limit(52, null, "prohibited", "deg"))).toBe("from 52 deg upwards");
    expect(limitRange(limit(-1234.5, 0, "analysed", "N"), { minus: "-" })).toBe("from -1.234 kN to 0 kN");
    expect(limitRange(limit(null, null))).toBe("no range stated");
  });

  it("never widens what may be used nor narrows what is forbidden, and neighbours meet", () => {
    const ends = fc.tuple(fc.double({ min: 0.01, max: 400, noNaN: true }), fc.integer({ min: 3, max: 6 }));
    const printed = (words: string): number => Number(/([\d.]+) m\/s( upwards)?$/.exec(words)![1]);
    fc.assert(
      fc.property(ends, ([edge, digits]) => {
        const below = printed(limitRange(limit(null, edge, "prohibited"), { digits }));
        const above = printed(limitRange(limit(edge, null, "analysed"), { digits }));
        expect(below).toBe(above);
        expect(above).toBeGreaterThanOrEqual(edge * (1 - 1e-8));
        expect(above).toBeLessThanOrEqual(edge * (1 + 1.001 * 10 ** (1 - digits)));
        const usedBelow = printed(limitRange(limit(null, edge, "analysed"), { digits }));
        expect(usedBelow).toBeLessThanOrEqual(edge * (1 + 1e-8));
      }),
    );
  });

  it("says what holds inside, and nothing about a range that is not stated", () => {
    expect(limitMeaning(limit(70, 112))).toBe("forbidden inside this range");
    expect(limitMeaning(limit(70, 112, "analysed"))).toContain("meet every criterion inside this range");
    expect(limitMeaning(limit(null, null))).toBe("");
  });
});
