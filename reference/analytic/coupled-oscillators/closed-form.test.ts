import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { coupledModes } from "./closed-form.ts";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("coupledModes", () => {
  it("solves the equations of motion", () => {
    fc.assert(
      fc.property(number(30, 50), number(-5, 5), number(-5, 5), number(-5, 5), (mean, half, onFirst, onSecond) => {
        const system = { mean, half, onFirst, onSecond };
        for (const { real, imag, first, second } of coupledModes(system)) {
          expect(imag).toBeGreaterThan(0);
          // λ²
          const [re, im] = [real * real - imag * imag, 2 * real * imag];
          const size = Math.hypot(...first, ...second);
          const residuals = [
            (re + mean - half) * first[0] - im * first[1] + onFirst * second[0],
            (re + mean - half) * first[1] + im * first[0] + onFirst * second[1],
            (re + mean + half) * second[0] - im * second[1] + onSecond * first[0],
            (re + mean + half) * second[1] + im * second[0] + onSecond * first[1],
          ];
          for (const residual of residuals) {
            expectClose(residual, 0, {
              atol: 1e-12 * mean * size,
              why: "round-off of terms of size mean times amplitude",
            });
          }
        }
      }),
      { seed: 41, numRuns: 300 },
    );
  });

  it("has an amplitude that is not zero, without coupling too", () => {
    for (const half of [-2, 2]) {
      for (const mode of coupledModes({ mean: 40, half, onFirst: 0, onSecond: 0 })) {
        expect(Math.hypot(...mode.first, ...mode.second)).toBeGreaterThan(1);
      }
    }
  });

  it("coalesces where the gyration outweighs the difference, and only there", () => {
    const at = (half: number) => coupledModes({ mean: 40, half, onFirst: 3, onSecond: -3 });
    expect(at(3.001).map((mode) => mode.real)).toEqual([0, 0]);
    expect(at(3.001)[0].imag).toBeLessThan(at(3.001)[1].imag);
    const [growing, dying] = at(2.999);
    expect(growing.real).toBeGreaterThan(0);
    expect(dying.real).toBe(-growing.real);
    expect(dying.imag).toBe(growing.imag);
  });
});
