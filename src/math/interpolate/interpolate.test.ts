import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DomainError } from "../errors.ts";
import { linear, locate, monotoneCubic, requireIncreasing } from "./index.ts";

// Adding zero turns −0 into 0, which compares equal but is told apart by the test's equality.
const value = fc.double({ min: -1000, max: 1000, noNaN: true }).map((x) => x + 0);
const width = fc.double({ min: 0.01, max: 100, noNaN: true });

/** Tables of two to nine rows. */
const table = fc.array(fc.tuple(width, value), { minLength: 2, maxLength: 9 }).map((rows) => {
  let x = -50;
  return {
    xs: rows.map(([step]) => {
      x += step;
      return x;
    }),
    ys: rows.map(([, y]) => y),
  };
});
const share = fc.double({ min: 0, max: 1, noNaN: true });

function placeIn(xs: readonly number[], part: number): number {
  const first = xs[0]!;
  const last = xs[xs.length - 1]!;
  return Math.min(last, Math.max(first, first + part * (last - first)));
}

describe("locate", () => {
  test("finds the interval", () => {
    fc.assert(
      fc.property(table, share, ({ xs }, part) => {
        const x = placeIn(xs, part);
        const i = locate(xs, x);
        expect(xs[i]!).toBeLessThanOrEqual(x);
        expect(xs[i + 1]!).toBeGreaterThanOrEqual(x);
      }),
    );
    expect(locate([1, 2, 3], 2)).toBe(1);
    expect(locate([1, 2, 3], 3)).toBe(1);
    expect(locate([1], 1)).toBe(0);
  });
});

describe("linear", () => {
  test("is exact at nodes", () => {
    fc.assert(
      fc.property(table, ({ xs, ys }) => {
        xs.forEach((x, i) => {
          expect(linear(xs, ys, x)).toBe(ys[i]);
        });
      }),
    );
  });

  test("reproduces straight lines and stays between neighbours", () => {
    fc.assert(
      fc.property(table, share, value, value, ({ xs, ys }, part, slope, offset) => {
        const x = placeIn(xs, part);
        const line = xs.map((node) => slope * node + offset);
        expect(Math.abs(linear(xs, line, x) - (slope * x + offset))).toBeLessThan(1e-9);
        const i = locate(xs, x);
        expect(linear(xs, ys, x)).toBeLessThanOrEqual(Math.max(ys[i]!, ys[i + 1]!) + 1e-12);
        expect(linear(xs, ys, x)).toBeGreaterThanOrEqual(Math.min(ys[i]!, ys[i + 1]!) - 1e-12);
      }),
    );
  });

  test("a table of one row has one place", () => {
    expect(linear([4], [7], 4)).toBe(7);
  });

  test("outside, NaN and short tables throw with the range", () => {
    expect(() => linear([0, 1], [0, 1], 1.5)).toThrow("abscissa is 1.5; allowed: 0 to 1");
    expect(() => linear([0, 1], [0, 1], Number.NaN)).toThrow(DomainError);
    expect(() => linear([0, 1], [0], 0.5)).toThrow(DomainError);
    expect(() => linear([], [], 0)).toThrow(DomainError);
  });
});

describe("monotoneCubic", () => {
  test("is exact at nodes and reproduces straight lines", () => {
    fc.assert(
      fc.property(table, share, value, value, ({ xs, ys }, part, slope, offset) => {
        const curve = monotoneCubic(xs, ys);
        xs.forEach((x, i) => {
          expect(curve(x)).toBe(ys[i]);
        });
        const x = placeIn(xs, part);
        const line = monotoneCubic(
          xs,
          xs.map((node) => slope * node + offset),
        );
        expect(Math.abs(line(x) - (slope * x + offset))).toBeLessThan(1e-8);
      }),
    );
  });

  test("never leaves the range of the two neighbours, so monotone tables give monotone curves", () => {
    fc.assert(
      fc.property(table, share, ({ xs, ys }, part) => {
        const x = placeIn(xs, part);
        const i = locate(xs, x);
        const y = monotoneCubic(xs, ys)(x);
        expect(y).toBeLessThanOrEqual(Math.max(ys[i]!, ys[i + 1]!) + 1e-9);
        expect(y).toBeGreaterThanOrEqual(Math.min(ys[i]!, ys[i + 1]!) - 1e-9);
      }),
      { numRuns: 500 },
    );
  });

  test("rises everywhere between rising nodes", () => {
    fc.assert(
      fc.property(table, ({ xs, ys }) => {
        const rising = [...ys].sort((a, b) => a - b);
        const curve = monotoneCubic(xs, rising);
        let before = curve(xs[0]!);
        for (let k = 1; k <= 200; k++) {
          const y = curve(placeIn(xs, k / 200));
          expect(y).toBeGreaterThanOrEqual(before - 1e-9);
          before = y;
        }
      }),
    );
  });

  test("the slope is continuous at a node", () => {
    const curve = monotoneCubic([0, 1, 3, 4], [0, 2, 3, 7]);
    const h = 1e-6;
    for (const x of [1, 3]) {
      const left = (curve(x) - curve(x - h)) / h;
      const right = (curve(x + h) - curve(x)) / h;
      expect(Math.abs(left - right)).toBeLessThan(1e-4);
    }
  });

  test("converges on a smooth monotone function with order two at least", () => {
    const error = (n: number) => {
      const xs = Array.from({ length: n + 1 }, (_, i) => i / n);
      const curve = monotoneCubic(xs, xs.map(Math.exp));
      return Math.max(...Array.from({ length: 997 }, (_, i) => Math.abs(curve(i / 997) - Math.exp(i / 997))));
    };
    expect(Math.log2(error(20) / error(40))).toBeGreaterThan(2);
  });

  test("changes of the table afterwards do not matter", () => {
    const ys = [0, 1, 2];
    const curve = monotoneCubic([0, 1, 2], ys);
    ys[1] = 50;
    expect(curve(1)).toBe(1);
  });

  test("throws outside and on bad tables", () => {
    const curve = monotoneCubic([0, 1, 2], [0, 1, 2]);
    expect(() => curve(-1e-9)).toThrow("allowed: 0 to 2");
    expect(() => curve(Number.NaN)).toThrow(DomainError);
    expect(() => monotoneCubic([0], [0])).toThrow(DomainError);
    expect(() => monotoneCubic([0, 0], [0, 1])).toThrow("abscissae[1] is 0; allowed: more than its predecessor 0");
    expect(() => monotoneCubic([0, 1], [0, Number.NaN])).toThrow("ordinates[1] is NaN");
    expect(() => monotoneCubic([0, 1], [0])).toThrow(DomainError);
  });
});

test("requireIncreasing names the first offender", () => {
  expect(() => requireIncreasing("speeds", [1, 2, 2])).toThrow("speeds[2] is 2");
  expect(() => requireIncreasing("speeds", [1, Number.POSITIVE_INFINITY])).toThrow("speeds[1] is Infinity");
  expect(() => requireIncreasing("speeds", [])).toThrow(DomainError);
});
