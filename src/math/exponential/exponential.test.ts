import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { expectAllClose } from "../../../test/support/close.ts";
import { multiply } from "../dense/index.ts";
import { DomainError } from "../errors.ts";
import { matrixExponential } from "./index.ts";

describe("matrixExponential", () => {
  it("decay, rotation and a nilpotent matrix in closed form", () => {
    const close = { atol: 1e-14, rtol: 1e-14, why: "round-off" };
    expectAllClose(matrixExponential(Float64Array.of(-3), 1), [Math.exp(-3)], close);
    const turn = [Math.cos(7), -Math.sin(7), Math.sin(7), Math.cos(7)];
    expectAllClose(matrixExponential(Float64Array.of(0, -7, 7, 0), 2), turn, { atol: 1e-13, why: "four squarings" });
    expectAllClose(
      matrixExponential(Float64Array.of(0, 2, 5, 0, 0, 3, 0, 0, 0), 3),
      [1, 2, 8, 0, 1, 3, 0, 0, 1],
      close,
    );
    expectAllClose(matrixExponential(new Float64Array(4), 2), [1, 0, 0, 1], close);
  });

  it("agrees with scipy (generated/lyapunov-scipy)", () => {
    const file = new URL("../../../reference/generated/lyapunov-scipy/values.json", import.meta.url);
    const { cases } = JSON.parse(readFileSync(file, "utf8")) as {
      cases: { n: number; a: number[]; exponential: number[]; divisor: number }[];
    };
    for (const { n, a, exponential, divisor } of cases) {
      const own = matrixExponential(
        Float64Array.from(a, (x) => x / divisor),
        n,
      );
      const size = Math.max(...exponential.map(Math.abs));
      expectAllClose(own, exponential, { atol: 1e-12 * size, why: "round-off of order 30" }, `order ${n}`);
    }
  });

  it("e^A·e^−A = 1", () => {
    const a = Float64Array.from({ length: 25 }, (_, i) => Math.sin(3 * i + 1) * 2);
    const product = new Float64Array(25);
    multiply(
      matrixExponential(a, 5),
      matrixExponential(
        a.map((x) => -x),
        5,
      ),
      product,
      5,
      5,
      5,
    );
    const one = Array.from({ length: 25 }, (_, i) => (i % 6 === 0 ? 1 : 0));
    expectAllClose(product, one, { atol: 1e-11, why: "round-off times the condition" });
  });

  it("refuses what is not finite", () => {
    expect(() => matrixExponential(Float64Array.of(Infinity), 1)).toThrow(DomainError);
  });
});
