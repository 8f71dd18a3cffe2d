import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DomainError } from "../errors.ts";
import { contourLines, type Polyline } from "./index.ts";

type Surface = (x: number, y: number) => number;

function sample(z: Surface, xs: readonly number[], ys: readonly number[]): number[] {
  return ys.flatMap((y) => xs.map((x) => z(x, y)));
}

function range(from: number, to: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
}

function pointsOf(line: Polyline): [number, number][] {
  return Array.from(line.x, (x, i) => [x, line.y[i]!]);
}

const circle: Surface = (x, y) => x * x + y * y;

describe("shape of the lines", () => {
  test("a plane gives one straight line from border to border, exactly", () => {
    const xs = [0, 1, 2.5, 3];
    const ys = [-1, 0, 2];
    const lines = contourLines(
      xs,
      ys,
      sample((x, y) => x + 2 * y, xs, ys),
      1.3,
    );
    expect(lines.length).toBe(1);
    expect(lines[0]!.closed).toBe(false);
    for (const [x, y] of pointsOf(lines[0]!)) expect(x + 2 * y).toBeCloseTo(1.3, 14);
  });

  test("a circle is one closed line whose error falls with order two", () => {
    const error = (count: number) => {
      const xs = range(-1, 1, count);
      const lines = contourLines(xs, xs, sample(circle, xs, xs), 0.5);
      expect(lines.length).toBe(1);
      const [line] = lines;
      expect(line!.closed).toBe(true);
      expect(line!.x[0]).toBe(line!.x[line!.x.length - 1]);
      expect(line!.y[0]).toBe(line!.y[line!.y.length - 1]);
      return Math.max(...pointsOf(line!).map(([x, y]) => Math.abs(Math.hypot(x, y) - Math.SQRT1_2)));
    };
    const order = Math.log2(error(20) / error(39));
    expect(order).toBeGreaterThan(1.7);
    expect(order).toBeLessThan(2.3);
  });

  test("the higher side is on the left: a hill is walked counter-clockwise, a bowl clockwise", () => {
    const area = (lines: Polyline[]) =>
      lines.reduce((sum, { x, y }) => {
        for (let i = 1; i < x.length; i++) sum += 0.5 * (x[i - 1]! * y[i]! - x[i]! * y[i - 1]!);
        return sum;
      }, 0);
    const xs = range(-1, 1, 41);
    const bowl = contourLines(xs, xs, sample(circle, xs, xs), 0.5);
    const hill = contourLines(
      xs,
      xs,
      sample((x, y) => -circle(x, y), xs, xs),
      -0.5,
    );
    expect(area(hill)).toBeCloseTo(Math.PI / 2, 2);
    expect(area(bowl)).toBeCloseTo(-Math.PI / 2, 2);
  });

  test("two hills give two closed lines below the pass between them apart, one above it joined", () => {
    const xs = range(-3, 3, 61);
    const ys = range(-2, 2, 41);
    const hills = sample((x, y) => Math.exp(-circle(x - 1, y)) + Math.exp(-circle(x + 1, y)), xs, ys);
    const pass = 2 * Math.exp(-1);
    expect(contourLines(xs, ys, hills, pass + 0.05).length).toBe(2);
    expect(contourLines(xs, ys, hills, pass - 0.05).length).toBe(1);
  });

  test("levels outside the values have no lines, a flat field at its level neither", () => {
    const xs = range(0, 1, 5);
    expect(contourLines(xs, xs, sample(circle, xs, xs), 9)).toEqual([]);
    expect(contourLines(xs, xs, sample(circle, xs, xs), -1)).toEqual([]);
    expect(contourLines(xs, xs, new Array(25).fill(2), 2)).toEqual([]);
  });

  test("a single node at the level with lower ones around has no extent", () => {
    expect(contourLines([0, 1, 2], [0, 1, 2], [0, 0, 0, 0, 1, 0, 0, 0, 0], 1)).toEqual([]);
  });
});

describe("saddles", () => {
  const xs = [0, 1];
  const connects = (lines: Polyline[], a: [number, number], b: [number, number]) =>
    lines.some((line) => {
      const ends = pointsOf(line);
      const has = ([x, y]: [number, number]) => ends.some((p) => p[0] === x && p[1] === y);
      return has(a) && has(b);
    });

  test("a high centre joins the high corners: the low ones are cut off", () => {
    const lines = contourLines(xs, xs, [2, 0, 0, 2], 0.8);
    expect(lines.length).toBe(2);
    expect(connects(lines, [0.6, 0], [1, 0.4])).toBe(true);
  });

  test("a low centre separates them: the high ones are cut off", () => {
    const lines = contourLines(xs, xs, [2, 0, 0, 2], 1.2);
    expect(lines.length).toBe(2);
    expect(connects(lines, [0.4, 0], [0, 0.4])).toBe(true);
  });

  test("lines of different levels through one saddle do not cross", () => {
    const corners = [3, -1, -2, 4];
    for (const level of range(-0.95, 2.95, 40)) {
      const isCentreHigh = 1 >= level;
      const lines = contourLines(xs, xs, corners, level);
      const south = (3 - level) / 4;
      const other: [number, number] = isCentreHigh ? [1, (level + 1) / 5] : [0, (3 - level) / 5];
      const line = lines.find(({ y, x }) => Math.abs(x[0]! - south) < 1e-12 && y[0] === 0)!;
      expect(Math.abs(line.x[1]! - other[0]) + Math.abs(line.y[1]! - other[1])).toBeLessThan(1e-12);
    }
  });
});

describe("any field", () => {
  const field = fc.tuple(fc.integer({ min: 2, max: 7 }), fc.integer({ min: 2, max: 7 })).chain(([nx, ny]) =>
    fc.tuple(
      fc.constant([nx, ny] as const),
      fc.array(fc.integer({ min: -3, max: 3 }), { minLength: nx * ny, maxLength: nx * ny }),
      fc.integer({ min: -3, max: 3 }).map((level) => level + 0.5),
    ),
  );

  test("every crossed edge is used once; open lines end on the border; the same again gives the same", () => {
    fc.assert(
      fc.property(field, ([[nx, ny], values, level]) => {
        const xs = range(0, nx - 1, nx);
        const ys = range(0, ny - 1, ny);
        const lines = contourLines(xs, ys, values, level);
        let crossed = 0;
        for (let j = 0; j < ny; j++) {
          for (let i = 0; i < nx; i++) {
            const here = values[j * nx + i]! > level;
            if (i + 1 < nx && here !== values[j * nx + i + 1]! > level) crossed++;
            if (j + 1 < ny && here !== values[(j + 1) * nx + i]! > level) crossed++;
          }
        }
        const points = lines.flatMap((line) => pointsOf(line).slice(line.closed ? 1 : 0));
        expect(points.length).toBe(crossed);
        expect(new Set(points.map(String)).size).toBe(crossed);
        const onBorder = ([x, y]: [number, number]) => x === 0 || y === 0 || x === nx - 1 || y === ny - 1;
        for (const line of lines) {
          const ends = pointsOf(line);
          if (line.closed) expect(ends[0]).toEqual(ends[ends.length - 1]);
          else expect(onBorder(ends[0]!) && onBorder(ends[ends.length - 1]!)).toBe(true);
        }
        expect(contourLines(xs, ys, values, level)).toEqual(lines);
      }),
      { numRuns: 300 },
    );
  });

  test("levels on nodes keep the lines whole", () => {
    fc.assert(
      fc.property(field, ([[nx, ny], values]) => {
        const xs = range(0, nx - 1, nx);
        const ys = range(0, ny - 1, ny);
        for (const line of contourLines(xs, ys, values, 0)) {
          expect([...line.x, ...line.y].every(Number.isFinite)).toBe(true);
          for (let i = 1; i < line.x.length; i++) {
            expect(line.x[i] === line.x[i - 1] && line.y[i] === line.y[i - 1]).toBe(false);
          }
        }
      }),
    );
  });
});

test("refusals", () => {
  expect(() => contourLines([0, 1], [0, 1], [0, 1, Number.NaN, 2], 1)).toThrow("values[2] is NaN");
  expect(() => contourLines([0, 1], [0, 1], [0, 1, 2], 1)).toThrow("length of values is 3; allowed: 2 × 2");
  expect(() => contourLines([0, 0], [0, 1], [0, 1, 2, 3], 1)).toThrow("xs[1] is 0");
  expect(() => contourLines([0], [0, 1], [0, 1], 1)).toThrow(DomainError);
  expect(() => contourLines([0, 1], [0, 1], [0, 1, 2, 3], Number.NaN)).toThrow("level is NaN");
  expect(contourLines([0, 1], [0, 1], [-1.7e308, 1.7e308, -1.7e308, 1.7e308], 0)[0]!.x[0]).toBe(0.5);
});
