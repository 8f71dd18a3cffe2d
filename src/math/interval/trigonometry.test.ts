import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DomainError } from "../errors.ts";
import { add, holds, interval, point, square, subtract } from "./interval.ts";
import { sineCosine, turnFactors } from "./trigonometry.ts";

describe("sine and cosine", () => {
  it("agree with the library to its rounding, for numbers", () => {
    fc.assert(
      fc.property(fc.double({ min: -50, max: 50, noNaN: true }), (x) => {
        const { sine, cosine } = sineCosine(point(x));
        // The library is right to about a unit; the reduction loses some tens of them at fifty radians.
        expect(Math.abs(sine.low - Math.sin(x))).toBeLessThan(1e-13);
        expect(sine.high - sine.low).toBeLessThan(1e-13);
        expect(Math.abs(cosine.low - Math.cos(x))).toBeLessThan(1e-13);
        expect(cosine.high - cosine.low).toBeLessThan(1e-13);
        expect(holds(add(square(sine), square(cosine)), 1)).toBe(true);
      }),
    );
  });

  it("hold the exact values at 30°, 45°, and where a quarter turn begins", () => {
    // π/6 and π/4 lie between neighbours; the sine of π/6 is exactly ½.
    const sixth = interval(0.5235987755982988, 0.5235987755982989);
    expect(holds(sineCosine(sixth).sine, 0.5)).toBe(true);
    const quarter = interval(0.7853981633974483, 0.7853981633974484);
    expect(holds(subtract(sineCosine(quarter).sine, sineCosine(quarter).cosine), 0)).toBe(true);
    const half = interval(1.5707963267948966, 1.5707963267948968);
    expect(sineCosine(half).sine.high).toBe(1);
    expect(holds(sineCosine(half).cosine, 0)).toBe(true);
    expect(sineCosine(point(0)).sine.high).toBeLessThan(1e-300);
  });

  it("hold those of all members, also over turning points and wide", () => {
    const end = fc.double({ min: -20, max: 20, noNaN: true });
    const width = fc.double({ min: 0, max: 4, noNaN: true });
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(end, width, share, (low, w, t) => {
        const { sine, cosine } = sineCosine(interval(low, low + w));
        const x = low + t * w;
        const slack = 1e-14;
        expect(sine.low - slack <= Math.sin(x) && Math.sin(x) <= sine.high + slack).toBe(true);
        expect(cosine.low - slack <= Math.cos(x) && Math.cos(x) <= cosine.high + slack).toBe(true);
        expect(sine.low >= -1 && sine.high <= 1).toBe(true);
      }),
    );
  });
});

describe("factors of a turn", () => {
  it("are sin(tθ)/θ and (1 − cos tθ)/θ² for all shares and turns", () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    const angle = fc.double({ min: 0.01, max: 1.3, noNaN: true });
    fc.assert(
      fc.property(share, share, share, angle, (a, b, s, theta) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        const t = low + s * (high - low);
        const { first, second } = turnFactors(interval(low, high), point(theta * theta));
        const slack = 1e-12;
        const [one, two] = [Math.sin(t * theta) / theta, (2 * Math.sin(0.5 * t * theta) ** 2) / theta ** 2];
        expect(first.low - slack <= one && one <= first.high + slack).toBe(true);
        expect(second.low - slack <= two && two <= second.high + slack).toBe(true);
      }),
    );
  });

  it("are t and ½t² without a turn, and refuse a large one", () => {
    const { first, second } = turnFactors(point(0.5), point(0));
    expect(first.low).toBeCloseTo(0.5, 14);
    expect(second.high).toBeCloseTo(0.125, 14);
    expect(() => turnFactors(point(1), point(2.1))).toThrow(DomainError);
  });
});
