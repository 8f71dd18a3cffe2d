import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isPositiveSemidefinite } from "./correlations.ts";
import type { Inertia } from "./inertia.ts";
import { impossibleInertia, principalMoments } from "./inertia.ts";

/** Inertia of point masses about their centre, which every check must accept. */
function ofPoints(points: readonly { x: number; y: number; z: number; m: number }[]): Inertia {
  const mass = points.reduce((sum, p) => sum + p.m, 0);
  const mean = (axis: "x" | "y" | "z") => points.reduce((sum, p) => sum + p.m * p[axis], 0) / mass;
  const [cx, cy, cz] = [mean("x"), mean("y"), mean("z")];
  const sum = (f: (x: number, y: number, z: number) => number) =>
    points.reduce((total, p) => total + p.m * f(p.x - cx, p.y - cy, p.z - cz), 0);
  return {
    Ixx: sum((_, y, z) => y * y + z * z),
    Iyy: sum((x, _, z) => x * x + z * z),
    Izz: sum((x, y) => x * x + y * y),
    Ixy: sum((x, y) => x * y),
    Ixz: sum((x, _, z) => x * z),
    Iyz: sum((_, y, z) => y * z),
  };
}

const position = fc.integer({ min: -1000, max: 1000 }).map((n) => n / 100);
const body = fc.array(fc.record({ x: position, y: position, z: position, m: fc.integer({ min: 1, max: 50 }) }), {
  minLength: 4,
  maxLength: 12,
});

const NO_PRODUCTS = { Ixy: 0, Ixz: 0, Iyz: 0 };

describe("inertia", () => {
  it("of any body made of masses is possible", () => {
    fc.assert(
      fc.property(body, (points) => {
        const inertia = ofPoints(points);
        const [low] = principalMoments(inertia);
        fc.pre(low > 1e-6);
        expect(impossibleInertia(inertia)).toBeUndefined();
      }),
      { numRuns: 300 },
    );
  });

  it("principal moments keep trace, sum of squares and determinant, in rising order", () => {
    fc.assert(
      fc.property(body, (points) => {
        const I = ofPoints(points);
        const [a, b, c] = principalMoments(I);
        const scale = I.Ixx + I.Iyy + I.Izz + 1;
        expect(a).toBeLessThanOrEqual(b + 1e-9 * scale);
        expect(b).toBeLessThanOrEqual(c + 1e-9 * scale);
        expect((a + b + c) / scale).toBeCloseTo((I.Ixx + I.Iyy + I.Izz) / scale, 12);
        const squares = I.Ixx ** 2 + I.Iyy ** 2 + I.Izz ** 2 + 2 * (I.Ixy ** 2 + I.Ixz ** 2 + I.Iyz ** 2);
        expect((a * a + b * b + c * c) / scale ** 2).toBeCloseTo(squares / scale ** 2, 10);
        const determinant =
          I.Ixx * (I.Iyy * I.Izz - I.Iyz ** 2) -
          I.Ixy * (I.Ixy * I.Izz + I.Iyz * I.Ixz) -
          I.Ixz * (I.Ixy * I.Iyz + I.Iyy * I.Ixz);
        expect((a * b * c) / scale ** 3).toBeCloseTo(determinant / scale ** 3, 8);
      }),
      { numRuns: 200 },
    );
  });

  it("of a flat plate lies on the edge of the rule and is possible", () => {
    expect(impossibleInertia({ Ixx: 1 / 3, Iyy: 2 / 3, Izz: 1, ...NO_PRODUCTS })).toBeUndefined();
    expect(impossibleInertia({ Ixx: 5, Iyy: 5, Izz: 5, ...NO_PRODUCTS })).toBeUndefined();
  });

  it.each([
    [{ Ixx: 1, Iyy: 1, Izz: 2.1 }, "Ixx + Iyy = 2 is smaller than Izz = 2.1"],
    [{ Ixx: 1, Iyy: 2.1, Izz: 1 }, "Ixx + Izz = 2 is smaller than Iyy = 2.1"],
    [{ Ixx: 2.1, Iyy: 1, Izz: 1 }, "Iyy + Izz = 2 is smaller than Ixx = 2.1"],
  ])("%j is impossible and says which rule", (moments, text) => {
    expect(impossibleInertia({ ...moments, ...NO_PRODUCTS })).toContain(text);
  });

  it("products alone can make it impossible, and the sign of one product does not matter", () => {
    for (const Ixz of [1.2, -1.2]) {
      expect(impossibleInertia({ Ixx: 2, Iyy: 3, Izz: 4, ...NO_PRODUCTS, Ixz })).toContain("the largest exceeds");
    }
    expect(impossibleInertia({ Ixx: 2, Iyy: 3, Izz: 4, ...NO_PRODUCTS, Ixz: 3 })).toContain("not positive");
  });

  it("the sign of all three products together does matter", () => {
    const bar = ofPoints([
      { x: 1, y: 1, z: 1, m: 10 },
      { x: -1, y: -1, z: -1, m: 10 },
      { x: 1, y: -1, z: 0, m: 1 },
      { x: -1, y: 1, z: 0, m: 1 },
      { x: 1, y: 1, z: -2, m: 0.5 },
      { x: -1, y: -1, z: 2, m: 0.5 },
    ]);
    expect(impossibleInertia(bar)).toBeUndefined();
    expect(impossibleInertia({ ...bar, Ixy: -bar.Ixy, Ixz: -bar.Ixz, Iyz: -bar.Iyz })).toBeDefined();
  });
});

describe("correlation matrices", () => {
  const two = (c: number) => [
    [1, c],
    [c, 1],
  ];

  it("of two values hold up to one and not beyond", () => {
    for (const c of [-1, -0.5, 0, 0.7, 1]) expect(isPositiveSemidefinite(two(c))).toBe(true);
    for (const c of [-1.001, 1.001]) expect(isPositiveSemidefinite(two(c))).toBe(false);
  });

  it("of three values hold exactly where 1 + 2abc − a² − b² − c² is not negative", () => {
    const coefficient = fc.integer({ min: -99, max: 99 }).map((n) => n / 100);
    fc.assert(
      fc.property(coefficient, coefficient, coefficient, (a, b, c) => {
        const determinant = 1 + 2 * a * b * c - a * a - b * b - c * c;
        fc.pre(Math.abs(determinant) > 1e-6);
        const matrix = [
          [1, a, b],
          [a, 1, c],
          [b, c, 1],
        ];
        expect(isPositiveSemidefinite(matrix)).toBe(determinant > 0);
      }),
      { numRuns: 500 },
    );
  });

  it("of factors always hold", () => {
    const vector = fc.tuple(position, position, position).filter((v) => Math.hypot(...v) > 0.1);
    fc.assert(
      fc.property(fc.array(vector, { minLength: 1, maxLength: 8 }), (vectors) => {
        const dot = (u: readonly number[], v: readonly number[]) => u.reduce((sum, x, i) => sum + x * v[i]!, 0);
        const matrix = vectors.map((u, i) =>
          vectors.map((v, j) => (i === j ? 1 : dot(u, v) / (Math.hypot(...u) * Math.hypot(...v)))),
        );
        expect(isPositiveSemidefinite(matrix)).toBe(true);
      }),
    );
    expect(isPositiveSemidefinite([])).toBe(true);
  });
});
