import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DomainError } from "../errors.ts";
import {
  add,
  divide,
  holds,
  hull,
  type Interval,
  interval,
  magnitude,
  middle,
  multiply,
  negate,
  plusMinus,
  point,
  roundedDown,
  roundedUp,
  scale,
  square,
  squareRoot,
  subtract,
} from "./interval.ts";

const number = fc.double({ min: -1e6, max: 1e6, noNaN: true });
const share = fc.double({ min: 0, max: 1, noNaN: true });
const bounds = fc.tuple(number, number).map(([a, b]) => interval(Math.min(a, b), Math.max(a, b)));
/** An interval with a number in it. */
const member = fc
  .tuple(bounds, share)
  .map(([a, t]) => ({ a, x: Math.min(a.high, Math.max(a.low, a.low + t * (a.high - a.low))) }));

/** A double as a fraction of whole numbers, exact: n/2^1074. */
function exact(x: number): bigint {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, x);
  const bits = view.getBigUint64(0);
  const exponent = Number((bits >> 52n) & 0x7ffn);
  const fraction = bits & 0xfffffffffffffn;
  const size = exponent === 0 ? fraction : (fraction | (1n << 52n)) << BigInt(exponent - 1);
  return bits >> 63n ? -size : size;
}
const SCALE = 1n << 1074n;

describe("rounding outwards", () => {
  it("goes at least one place, at any size, and no more than two", () => {
    const any = fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e300, max: 1e300 });
    fc.assert(
      fc.property(any, (x) => {
        expect(roundedUp(x)).toBeGreaterThan(x);
        expect(roundedDown(x)).toBeLessThan(x);
        const unit = 2 ** -52 * Math.abs(x);
        expect(roundedUp(x) - x).toBeLessThanOrEqual(2 * unit + 2 * Number.MIN_VALUE);
      }),
    );
  });

  it.each([0, -0, 1, -1, Number.MIN_VALUE, -Number.MIN_VALUE, 2 ** -1022, 1 - 2 ** -53, 2 ** 52])(
    "leaves neither side out at %d",
    (x) => {
      expect(exact(roundedUp(x))).toBeGreaterThan(exact(x));
      expect(exact(roundedDown(x))).toBeLessThan(exact(x));
    },
  );

  it("holds exact sums, differences and products of numbers, by whole numbers", () => {
    const small = fc.double({ noNaN: true, min: -1e100, max: 1e100 });
    fc.assert(
      fc.property(small, small, (x, y) => {
        const [a, b] = [exact(x), exact(y)];
        const between = ({ low, high }: Interval, value: bigint, scaling: bigint) =>
          exact(low) * scaling <= value && value <= exact(high) * scaling;
        expect(between(add(point(x), point(y)), a + b, 1n)).toBe(true);
        expect(between(subtract(point(x), point(y)), a - b, 1n)).toBe(true);
        expect(between(multiply(point(x), point(y)), a * b, SCALE)).toBe(true);
        expect(between(scale(x, point(y)), a * b, SCALE)).toBe(true);
        expect(between(square(point(x)), a * a, SCALE)).toBe(true);
      }),
    );
  });

  it("holds exact quotients and roots", () => {
    const positive = fc.double({ noNaN: true, min: 1e-100, max: 1e100 });
    fc.assert(
      fc.property(positive, positive, (x, y) => {
        const q = divide(point(x), point(y));
        expect(exact(q.low) * exact(y) <= exact(x) * SCALE).toBe(true);
        expect(exact(q.high) * exact(y) >= exact(x) * SCALE).toBe(true);
        const r = squareRoot(point(x));
        expect(exact(r.low) ** 2n <= exact(x) * SCALE).toBe(true);
        expect(exact(r.high) ** 2n >= exact(x) * SCALE).toBe(true);
      }),
    );
  });
});

describe("operations on intervals", () => {
  it("hold what the operation gives for any two members", () => {
    fc.assert(
      fc.property(member, member, ({ a, x }, { a: b, x: y }) => {
        expect(holds(add(a, b), x + y)).toBe(true);
        expect(holds(subtract(a, b), x - y)).toBe(true);
        expect(holds(multiply(a, b), x * y)).toBe(true);
        expect(holds(square(a), x * x)).toBe(true);
        expect(holds(scale(y, a), y * x)).toBe(true);
        expect(holds(negate(a), -x)).toBe(true);
        expect(holds(hull(a, b), x) && holds(hull(a, b), y)).toBe(true);
        expect(Math.abs(x)).toBeLessThanOrEqual(magnitude(a));
        if (!holds(b, 0)) expect(holds(divide(a, b), x / y)).toBe(true);
        if (a.low >= 0) expect(holds(squareRoot(a), Math.sqrt(x))).toBe(true);
      }),
    );
  });

  it("are no wider than the members need, but for rounding", () => {
    expect(multiply(interval(-2, 3), interval(-5, 4)).low).toBeCloseTo(-15, 12);
    expect(multiply(interval(-2, 3), interval(-5, 4)).high).toBeCloseTo(12, 12);
    expect(square(interval(-2, 3)).low).toBe(0);
    expect(square(interval(-3, -2)).low).toBeCloseTo(4, 12);
    expect(divide(interval(1, 2), interval(-4, -2)).low).toBeCloseTo(-1, 12);
    expect(middle(interval(-1, 4))).toBe(1.5);
    expect(plusMinus(2)).toEqual(interval(-2, 2));
    expect(squareRoot(interval(-1e-300, 4)).low).toBe(0);
  });

  it("refuse what has no meaning", () => {
    expect(() => interval(1, 0)).toThrow(DomainError);
    expect(() => interval(0, Infinity)).toThrow(DomainError);
    expect(() => interval(Number.NaN, 0)).toThrow(DomainError);
    expect(() => divide(point(1), interval(-1, 1))).toThrow("without zero");
    expect(() => squareRoot(interval(-2, -1))).toThrow("root");
  });
});
