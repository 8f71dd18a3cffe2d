import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectAllClose } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import { createComplexSystem, factorComplex, luFactor, luSolve, solveComplex } from "./index.ts";

const entry = fc.double({ min: -3, max: 3, noNaN: true });
const systems = fc
  .integer({ min: 1, max: 7 })
  .chain((n) =>
    fc.tuple(
      fc.constant(n),
      fc.array(entry, { minLength: 2 * n * n, maxLength: 2 * n * n }),
      fc.array(entry, { minLength: 2 * n, maxLength: 2 * n }),
    ),
  );

describe("complex systems", () => {
  it("give the answer of the real system [Re −Im; Im Re] of twice the order", () => {
    fc.assert(
      fc.property(systems, ([n, a, b]) => {
        const system = createComplexSystem(n);
        const real = new Float64Array(4 * n * n);
        for (let i = 0; i < n; i++) {
          for (let j = 0; j < n; j++) {
            // a strong diagonal keeps the condition, and so the allowance, small
            const re = a[i * n + j]! + (i === j ? 25 : 0);
            const im = a[n * n + i * n + j]!;
            system.re[i * n + j] = re;
            system.im[i * n + j] = im;
            real[i * 2 * n + j] = re;
            real[i * 2 * n + n + j] = -im;
            real[(n + i) * 2 * n + j] = im;
            real[(n + i) * 2 * n + n + j] = re;
          }
        }
        const xr = Float64Array.from(b.slice(0, n));
        const xi = Float64Array.from(b.slice(n));
        expect(factorComplex(system)).toBe(true);
        solveComplex(system, xr, xi);
        const pivots = new Int32Array(2 * n);
        const expected = Float64Array.from(b);
        expect(luFactor(real, 2 * n, pivots)).toBe(true);
        luSolve(real, 2 * n, pivots, expected);
        expectAllClose([...xr, ...xi], expected, { atol: 1e-14, why: "round-off of well-conditioned systems" });
      }),
      { seed: 81, numRuns: 200 },
    );
  });

  it("exchange rows where a pivot is zero, and refuse a singular matrix", () => {
    const system = createComplexSystem(2);
    system.im[1] = 2; // [0 2i; 3 0]
    system.re[2] = 3;
    const xr = Float64Array.of(4, 3);
    const xi = Float64Array.of(0, 6);
    expect(factorComplex(system)).toBe(true);
    solveComplex(system, xr, xi);
    expect([...xr, ...xi]).toEqual([1, 0, 2, -2]);
    expect(factorComplex(createComplexSystem(3))).toBe(false);
    expect(() => solveComplex(system, new Float64Array(1), new Float64Array(2))).toThrow(DomainError);
  });
});
