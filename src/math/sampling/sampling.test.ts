import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { loadPublished } from "../../../reference/load.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import { haltonPoint, latinHypercube, SOBOL_DIMENSIONS, sobolPoint, sobolSampler, type UnitSampler } from "./index.ts";

interface Generated {
  readonly sobol6: number[][];
  readonly sobol64: { readonly rows: number[]; readonly points: number[][] };
  readonly sobol200: { readonly row: number; readonly point: number[] };
  readonly halton3: number[][];
}
const generated = JSON.parse(
  // generated/sobol-scipy
  readFileSync(new URL("../../../reference/generated/sobol-scipy/values.json", import.meta.url), "utf8"),
) as Generated;

function sobol(index: number, dimensions: number): number[] {
  const out = new Float64Array(dimensions);
  sobolPoint(index, out);
  return [...out];
}
function points(sampler: UnitSampler, count: number): Float64Array[] {
  return Array.from({ length: count }, (_, i) => {
    const out = new Float64Array(sampler.dimensions);
    sampler.point(i, out);
    return out;
  });
}
/** How many of n equal strata of coordinate j hold exactly one of the points. */
function filledStrata(rows: readonly Float64Array[], j: number): number {
  const counts = new Array<number>(rows.length).fill(0);
  for (const row of rows) counts[Math.floor(row[j] * rows.length)]++;
  return counts.filter((count) => count === 1).length;
}

describe("Sobol sequence", () => {
  test("first points as published", () => {
    loadPublished("sobol-joe-kuo")
      .table("points")
      .forEach((row, i) => {
        expect(sobol(i, 2)).toEqual([row("x").value, row("y").value]);
      });
  });

  test("points of an independent library, every digit (generated/sobol-scipy)", () => {
    generated.sobol6.forEach((row, i) => {
      expect(sobol(i, 6)).toEqual(row);
    });
    generated.sobol64.rows.forEach((row, i) => {
      expect(sobol(row, 64)).toEqual(generated.sobol64.points[i]);
    });
    expect(sobol(generated.sobol200.row, 200)).toEqual(generated.sobol200.point);
  });

  test("every coordinate of 2^k points meets each of 2^k strata once, shifted or not", () => {
    const plain = Array.from({ length: 64 }, (_, i) => Float64Array.from(sobol(i, SOBOL_DIMENSIONS)));
    const shifted = points(sobolSampler(SOBOL_DIMENSIONS, 7), 64);
    for (let j = 0; j < SOBOL_DIMENSIONS; j++) {
      expect(filledStrata(plain, j)).toBe(64);
      expect(filledStrata(shifted, j)).toBe(64);
    }
  });

  test("shifts differ by seed and coordinate, points lie inside, the mean errs far less than by chance", () => {
    const one = points(sobolSampler(12, 1), 1024);
    const other = points(sobolSampler(12, 2), 1024);
    expect(one[0]).not.toEqual(other[0]);
    expect(new Set(one[0]).size).toBe(12);
    const mean = one.reduce((sum, row) => sum + row.reduce((product, x) => product * (0.5 + x), 1), 0) / 1024;
    expect(one.every((row) => row.every((x) => x > 0 && x < 1))).toBe(true);
    // Π(½ + x) has mean 1 and standard deviation √((13/12)^12 − 1) = 1.27: by chance the mean would err by 0.040
    expectClose(mean, 1, { atol: 0.04, why: "one standard deviation of 1024 independent points" });
  });

  test("refuses dimensions without a table and indices out of range", () => {
    expect(() => sobolPoint(0, new Float64Array(SOBOL_DIMENSIONS + 1))).toThrow(DomainError);
    expect(() => sobolSampler(SOBOL_DIMENSIONS, 1, 1)).toThrow("dimensions is 201; allowed: 1 to 200");
    expect(() => sobolPoint(2 ** 32, new Float64Array(2))).toThrow("index of a Sobol point");
    expect(() => sobolPoint(-1, new Float64Array(2))).toThrow(DomainError);
  });
});

describe("Latin hypercube", () => {
  test.each([1, 2, 17, 1000])("%d points: one in each stratum of every coordinate", (count) => {
    const rows = points(latinHypercube(5, count, 3), count);
    for (let j = 0; j < 5; j++) expect(filledStrata(rows, j)).toBe(count);
  });

  test("a point does not depend on the order of calls", () => {
    const forward = points(latinHypercube(4, 50, 9), 50);
    const sampler = latinHypercube(4, 50, 9);
    const out = new Float64Array(4);
    for (let i = 49; i >= 0; i--) {
      sampler.point(i, out);
      expect(out).toEqual(forward[i]);
    }
    expect(points(latinHypercube(4, 50, 10), 50)).not.toEqual(forward);
  });

  test("coordinates are not correlated, and a sum is known far better than by chance", () => {
    const rows = points(latinHypercube(2, 4000, 5), 4000);
    const product = rows.reduce((sum, [x, y]) => sum + (x - 0.5) * (y - 0.5), 0) / 4000;
    expectClose(12 * product, 0, { atol: 5 / Math.sqrt(4000), why: "five standard deviations of a correlation" });
    const mean = rows.reduce((sum, [x, y]) => sum + x + y, 0) / 4000;
    // each stratum of width 1/n errs by 1/(n√12): the mean of a sum of two by √2/(√12·n^1.5)
    expectClose(mean, 1, { atol: (5 * Math.SQRT2) / (Math.sqrt(12) * 4000 ** 1.5), why: "five standard deviations" });
  });

  test("refuses sizes that are not whole numbers above zero", () => {
    expect(() => latinHypercube(0, 10, 1)).toThrow(DomainError);
    expect(() => latinHypercube(2, 1.5, 1)).toThrow("number of samples is 1.5");
  });
});

describe("Halton sequence", () => {
  test("points of an independent library, and fractions by hand", () => {
    const out = new Float64Array(3);
    generated.halton3.forEach((row, i) => {
      haltonPoint(i + 1, out);
      expectAllClose(out, row, { atol: 1e-15, why: "rounding of sums of fractions" }, `point ${i + 1}`);
    });
    haltonPoint(6, out);
    expectAllClose(out, [3 / 8, 2 / 9, 6 / 25], { atol: 1e-15, why: "110₂, 20₃, 11₅ mirrored" });
    expect(() => haltonPoint(1, new Float64Array(13))).toThrow(DomainError);
  });

  test("agrees with Sobol and Latin hypercube on an integral", () => {
    const f = (x: ArrayLike<number>) => Math.exp(x[0] + x[1] * x[2]);
    const n = 4096;
    const rows = {
      sobol: points(sobolSampler(3, 1), n),
      latin: points(latinHypercube(3, n, 1), n),
      halton: Array.from({ length: n }, (_, i) => {
        const out = new Float64Array(3);
        haltonPoint(i + 1, out);
        return out;
      }),
    };
    // ∫e^x dx · ∫∫e^{yz} dy dz = (e − 1)·Σ 1/(k!·(k+1)²)
    let inner = 0;
    for (let k = 0, factorial = 1; k < 20; k++, factorial *= k) inner += 1 / (factorial * (k + 1) ** 2);
    const exact = (Math.E - 1) * inner;
    for (const [name, points] of Object.entries(rows)) {
      const mean = points.reduce((sum, x) => sum + f(x), 0) / n;
      expectClose(mean, exact, { rtol: name === "latin" ? 5e-3 : 1e-3, why: "a tenth of the error by chance" }, name);
    }
  });
});
