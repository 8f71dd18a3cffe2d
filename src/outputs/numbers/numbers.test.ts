import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DomainError } from "../../math/errors.ts";
import {
  formatAgainst,
  formatFixed,
  formatNumber,
  formatPair,
  formatQuantity,
  formatShortQuantity,
  prettyUnit,
  scaleUnit,
} from "./index.ts";

describe("printed numbers", () => {
  it("keeps significant digits and never rounds whole digits away", () => {
    expect(formatNumber(0.0154321)).toBe("0.0154");
    expect(formatNumber(5528.4)).toBe("5528");
    expect(formatNumber(-81.25, { digits: 4 })).toBe("−81.25");
    expect(formatNumber(0)).toBe("0");
    expect(formatNumber(-0)).toBe("0");
  });

  it("uses powers of ten only outside the readable range", () => {
    expect(formatNumber(1.234e8)).toBe("1.23×10⁸");
    expect(formatNumber(-1.2e-5, { digits: 2 })).toBe("−1.2×10⁻⁵");
    expect(formatNumber(1.2e-5, { digits: 2, minus: "-" })).toBe("1.2e-5");
    expect(formatNumber(9_999_999)).toBe("9999999");
  });

  it("stays within half a unit of the last printed digit", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-4, max: 1e6, noNaN: true }), fc.integer({ min: 2, max: 8 }), (value, digits) => {
        const back = Number(formatNumber(value, { digits }));
        expect(Math.abs(back - value)).toBeLessThanOrEqual(
          0.5000001 * 10 ** (Math.floor(Math.log10(value)) - digits + 1),
        );
      }),
    );
  });

  it("never prints a negative zero", () => {
    expect(formatFixed(-0.0004, 2)).toBe("0.00");
    expect(formatFixed(-0.006, 2)).toBe("−0.01");
  });

  it("refuses what is not finite", () => {
    expect(() => formatNumber(Number.NaN)).toThrow(DomainError);
    expect(() => formatFixed(Number.POSITIVE_INFINITY, 2)).toThrow("printed number is Infinity");
  });

  it("shows on which side of its limit a value lies", () => {
    expect(formatAgainst(0.02996, 0.03)).toBe("0.02996");
    expect(formatAgainst(0.03, 0.03)).toBe("0.0300");
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.1, noNaN: true }), (value) => {
        if (Math.abs(value - 0.03) < 1e-13) return;
        const printed = Number(formatAgainst(value, 0.03));
        expect(Math.sign(printed - 0.03)).toBe(Math.sign(value - 0.03));
      }),
    );
  });
});

describe("printed units", () => {
  it("writes products and powers", () => {
    expect(prettyUnit("N*s/m")).toBe("N·s/m");
    expect(prettyUnit("kg/m^3")).toBe("kg/m³");
    expect(prettyUnit("1")).toBe("");
  });

  it("picks a prefix for stiffness, not for speed or time", () => {
    expect(formatQuantity(52400, "N/m")).toBe("52.4 kN/m");
    expect(formatQuantity(6e6, "N/m")).toBe("6.00 MN/m");
    expect(formatQuantity(1234, "s")).toBe("1234 s");
    expect(formatQuantity(0.0312, "1")).toBe("0.0312");
    expect(formatQuantity(40, "%")).toBe("40.0 %");
    expect(scaleUnit("N*s/m", 3500)).toEqual({ factor: 1e-3, unit: "kN·s/m" });
  });

  it("prints lengths below a metre in millimetres, but stored values in metres throughout", () => {
    expect([formatQuantity(0.178, "m"), formatQuantity(-0.018, "m"), formatQuantity(2.5, "m")]).toEqual([
      "178 mm",
      "−18.0 mm",
      "2.50 m",
    ]);
    expect(formatPair(0.0749, 0.075, "m")).toEqual({ value: "74.9 mm", limit: "75 mm" });
    expect(formatPair(0.5, 2, "m")).toEqual({ value: "0.500 m", limit: "2 m" });
    expect(formatShortQuantity(0.02, "m")).toBe("0.02 m");
  });

  it("prints a value and its limit in one unit", () => {
    expect(formatPair(52400, 900, "N/m")).toEqual({ value: "52.4 kN/m", limit: "0.9 kN/m" });
    expect(formatPair(-0.0812, 0.03, "1")).toEqual({ value: "−0.0812", limit: "0.03" });
  });
});
