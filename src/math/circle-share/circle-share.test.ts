import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import { circleShare, marcum, rayleighShare, riceShare } from "./index.ts";

const generated = JSON.parse(
  readFileSync(new URL("../../../reference/generated/claims-scipy/values.json", import.meta.url), "utf8"),
) as Readonly<Record<"marcum" | "rayleigh" | "circle", [number, number, number, number, number, number, number][]>>;

describe("share in a circle", () => {
  test("values of independent libraries (generated/claims-scipy)", () => {
    for (const [radius, sigma, share] of generated.rayleigh) {
      expectClose(rayleighShare(radius, sigma), share, { rtol: 1e-13, why: "rounding" });
    }
    for (const [a, b, inside, outside] of generated.marcum) {
      const why = "Poisson weights from logarithms";
      const found = marcum(a, b);
      expectClose(found.inside, inside, { rtol: 1e-10, why }, `1 - Q(${a}, ${b})`);
      expectClose(found.outside, outside, { rtol: 1e-10, why }, `Q(${a}, ${b})`);
    }
    for (const [radius, m1, m2, s1, s2, correlation, share] of generated.circle) {
      const found = circleShare(radius, { mean: [m1, m2], sigma: [s1, s2], correlation });
      expectClose(found, share, { rtol: 1e-9, why: "quadrature to 1e-12 of the whole" }, `${radius} ${m1} ${m2}`);
    }
  });

  test("equal scatter: strips, series and closed form are the same", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 12, noNaN: true }),
        fc.double({ min: 0, max: 8, noNaN: true }),
        fc.double({ min: 0, max: 6.3, noNaN: true }),
        (radius, offset, angle) => {
          const mean = [offset * Math.cos(angle), offset * Math.sin(angle)] as const;
          const strips = circleShare(radius, { mean, sigma: [1, 1] });
          expectClose(strips, riceShare(radius, 1, offset), { atol: 1e-11, why: "quadrature, series" });
          expectClose(riceShare(radius, 1, 0), rayleighShare(radius, 1), { rtol: 1e-11, why: "series" });
        },
      ),
      { numRuns: 60 },
    );
  });

  test("turning axes and mean together changes nothing; unequal scatter has its closed limits", () => {
    const plain = circleShare(0.7, { mean: [0.3, -0.2], sigma: [0.5, 0.2] });
    const [cos, sin] = [Math.cos(0.6), Math.sin(0.6)];
    const [a, b] = [0.25, 0.04];
    const [first, second] = [a * cos * cos + b * sin * sin, a * sin * sin + b * cos * cos];
    const turned = circleShare(0.7, {
      mean: [0.3 * cos + 0.2 * sin, 0.3 * sin - 0.2 * cos],
      sigma: [Math.sqrt(first), Math.sqrt(second)],
      correlation: ((a - b) * sin * cos) / Math.sqrt(first * second),
    });
    expectClose(turned, plain, { rtol: 1e-10, why: "rounding of the turn" });
    // one direction without scatter: the error function of the half width
    const strip = circleShare(1, { mean: [0, 0], sigma: [1, 1e-6] });
    expectClose(strip, 0.6826894921370859, { rtol: 1e-9, why: "σ of 1e-6 instead of none" });
  });

  test("inside and outside add to one; Q has its symmetry", () => {
    for (const [a, b] of [
      [0, 0],
      [0.3, 2],
      [5, 4],
      [60, 61],
      [400, 401],
    ] as const) {
      const { inside, outside } = marcum(a, b);
      expectClose(inside + outside, 1, { atol: 1e-9, why: "exponents of up to 1e6" });
      // Q(a, b) + Q(b, a) = 1 + e^(-(a² + b²)/2)·I₀(ab): with the centre on the edge both are equal
      if (a > 0) expectClose(marcum(a, a).outside, marcum(a, a).inside + together(a), { atol: 1e-9, why: "as above" });
    }
  });

  test("no circle holds nothing, nonsense is refused", () => {
    expect([circleShare(0, { mean: [0, 0], sigma: [1, 1] }), riceShare(0, 1, 1), rayleighShare(0, 1)]).toEqual([
      0, 0, 0,
    ]);
    expect(circleShare(1, { mean: [50, 0], sigma: [0.1, 0.1] })).toBe(0);
    expect(() => circleShare(-1, { mean: [0, 0], sigma: [1, 1] })).toThrow(DomainError);
    expect(() => circleShare(1, { mean: [0, 0], sigma: [0, 1] })).toThrow("sigma");
    expect(() => circleShare(1, { mean: [0, 0], sigma: [1, 1], correlation: 1 })).toThrow("correlation");
    expect(() => marcum(501, 1)).toThrow("Marcum");
  });
});

/** P(J = K) of two equal Poisson counts of mean a²/2: e^(−a²)·I₀(a²), by its integral. */
function together(a: number): number {
  const n = 4096;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += Math.exp(a * a * (Math.cos((2 * Math.PI * (i + 0.5)) / n) - 1));
  return sum / n;
}
