import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DomainError } from "../errors.ts";
import { add, type Interval, interval, plusMinus, point, scale, square, subtract } from "./interval.ts";
import { krawczyk, preconditioned, spreadOf } from "./krawczyk.ts";

/**
 * Circle and line, h = (x² + y² − r², y − t·x), solution r·(1, t)/√(1 + t²), about the guess (x̂, ŷ), for t in an interval.
 * @returns half-widths of what is proven, `null` if nothing is
 */
function enclose(t: Interval, guess: readonly [number, number], r: number, box: number): Float64Array | null {
  const [x, y] = [point(guess[0]), point(guess[1])];
  const residual = [subtract(add(square(x), square(y)), square(point(r))), subtract(y, scale(guess[0], t))];
  const [bx, by] = [add(x, plusMinus(box)), add(y, plusMinus(box))];
  const rows = [scale(2, bx), scale(2, by), scale(-1, t), point(1)];
  const matrix = { low: Float64Array.from(rows, ({ low }) => low), high: Float64Array.from(rows, ({ high }) => high) };
  const [a, b, c, d] = rows.map(({ low, high }) => 0.5 * (low + high));
  const inverse = Float64Array.of(d, -b, -c, a).map((one) => one / (a * d - b * c));
  const [offset, spread, out] = [new Float64Array(2), new Float64Array(4), new Float64Array(2)];
  preconditioned(inverse, residual, offset);
  spreadOf(inverse, matrix, 2, spread);
  return krawczyk(offset, spread, Float64Array.of(box, box), out) ? out : null;
}

describe("Krawczyk's operator", () => {
  it("proves the crossing of circle and line for all slopes of an interval, and where it is", () => {
    const [r, middle, half] = [2, 0.7, 0.01];
    const guess = [r / Math.hypot(1, middle), (r * middle) / Math.hypot(1, middle)] as const;
    const found = enclose(interval(middle - half, middle + half), guess, r, 0.05);
    if (found === null) throw new Error("not proven");
    for (let k = -20; k <= 20; k++) {
      const t = middle + (half * k) / 20;
      expect(Math.abs(r / Math.hypot(1, t) - guess[0])).toBeLessThanOrEqual(found[0]);
      expect(Math.abs((r * t) / Math.hypot(1, t) - guess[1])).toBeLessThanOrEqual(found[1]);
    }
    // The end of the interval is off by about r·half/(1 + t²)^(3/2).
    expect(found[1]).toBeLessThan(2 * ((r * half) / (1 + middle ** 2) ** 1.5));
  });

  it("proves nothing for a box that does not hold the solutions, or in which they are not alone", () => {
    expect(enclose(interval(0.7, 0.7), [1.5, 1.2], 2, 0.05)).toBeNull();
    expect(enclose(interval(0.6, 0.8), [1.64, 1.15], 2, 0.05)).toBeNull();
    // Both crossings of the circle.
    expect(enclose(interval(0.7, 0.7), [0.1, 0.07], 2, 4)).toBeNull();
    // Not a number anywhere proves nothing.
    expect(enclose(interval(0.7, 0.7), [Number.NaN, 1.2], 2, 0.05)).toBeNull();
  });

  it("bounds I − Y·A for every member of A", () => {
    const entry = fc.double({ min: -2, max: 2, noNaN: true });
    const matrix = fc.array(entry, { minLength: 9, maxLength: 9 });
    const share = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 9, maxLength: 9 });
    fc.assert(
      fc.property(matrix, matrix, matrix, share, (y, one, other, t) => {
        const low = Float64Array.from(one, (value, k) => Math.min(value, other[k]!));
        const high = Float64Array.from(one, (value, k) => Math.max(value, other[k]!));
        const member = low.map((value, k) => value + t[k]! * (high[k]! - value));
        const spread = new Float64Array(9);
        spreadOf(Float64Array.from(y), { low, high }, 3, spread);
        for (let i = 0; i < 3; i++) {
          for (let j = 0; j < 3; j++) {
            let value = i === j ? 1 : 0;
            for (let k = 0; k < 3; k++) value -= y[3 * i + k]! * member[3 * k + j]!;
            expect(Math.abs(value)).toBeLessThanOrEqual(spread[3 * i + j]! + 1e-14);
          }
        }
      }),
    );
  });

  it("refuses arrays that are too short", () => {
    const two = new Float64Array(2);
    expect(() => krawczyk(two, two, two, two)).toThrow(DomainError);
    expect(() => preconditioned(two, [point(1), point(1)], two)).toThrow(DomainError);
    expect(() => spreadOf(two, { low: two, high: two }, 2, two)).toThrow(DomainError);
  });
});
