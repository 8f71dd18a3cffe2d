import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import { padeCoefficients, padeDelay, TransferFunction } from "./index.ts";

function phaseAt(delay: number, order: number, omega: number): { size: number; angle: number } {
  const out = new Float64Array(2);
  new TransferFunction(padeDelay(delay, order)).evaluate(0, omega, out);
  return { size: Math.hypot(out[0], out[1]), angle: Math.atan2(out[1], out[0]) };
}

describe("Padé approximation of a delay", () => {
  it("has the textbook polynomials", () => {
    // 2 + z, 12 + 6z + z², 120 + 60z + 12z² + z³: expanded by hand from matching the series of exp
    expect(padeCoefficients(0)).toEqual([1]);
    expect(padeCoefficients(1)).toEqual([2, 1]);
    expect(padeCoefficients(2)).toEqual([12, 6, 1]);
    expect(padeCoefficients(3)).toEqual([120, 60, 12, 1]);
  });

  it("passes every frequency with gain 1", () => {
    for (const order of [1, 2, 3, 4, 5, 6]) {
      for (const omega of [0.1, 3, 20, 300]) {
        expectClose(phaseAt(0.2, order, omega).size, 1, { rtol: 1e-10, why: "rounding" }, `order ${order}, ${omega}`);
      }
    }
  });

  it("misses the phase by an error of order 2n + 1", () => {
    for (const order of [1, 2, 3]) {
      const miss = (z: number): number => Math.abs(phaseAt(1, order, z).angle + z);
      const measured = Math.log2(miss(0.8) / miss(0.4));
      expectClose(measured, 2 * order + 1, { atol: 0.15, why: "next term of the series" }, `order ${order}`);
    }
  });

  it("keeps its phase within 1 % up to what it says", () => {
    for (const [order, z] of [
      [1, 0.34],
      [2, 1.6],
      [3, 3.0],
    ]) {
      const { angle } = phaseAt(1, order, z);
      expectClose(angle, -z, { rtol: 0.01, why: "stated" });
    }
  });

  it("without delay is one, without states", () => {
    expect(padeDelay(0, 3).states).toBe(0);
    expectAllClose(padeDelay(0, 3).D, [1], { atol: 0, why: "exact" });
    expectAllClose(padeDelay(0.1, 0).D, [1], { atol: 0, why: "exact" });
  });

  it("refuses a negative delay and an order without sense", () => {
    expect(() => padeDelay(-0.1, 3)).toThrow("delay is -0.1");
    expect(() => padeDelay(Number.POSITIVE_INFINITY, 3)).toThrow(DomainError);
    expect(() => padeDelay(0.1, 7)).toThrow(DomainError);
    expect(() => padeDelay(0.1, 1.5)).toThrow(DomainError);
  });
});
