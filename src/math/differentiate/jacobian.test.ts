import { describe, expect, test } from "vitest";
import { DomainError } from "../errors.ts";
import { createJacobianWorkspace, jacobian, type VectorFunction } from "./index.ts";

function derive(f: VectorFunction, x: readonly number[], steps: readonly number[], m: number): Float64Array {
  const out = new Float64Array(m * x.length);
  const workspace = createJacobianWorkspace(x.length, m);
  expect(jacobian(f, Float64Array.from(x), Float64Array.from(steps), m, out, workspace)).toBe(true);
  return out;
}

const curved: VectorFunction = (x, out) => {
  out[0] = Math.sin(x[0]!) * Math.exp(x[1]!);
  out[1] = x[0]! / (1 + x[1]! * x[1]!);
  out[2] = Math.sqrt(x[0]! + x[1]!);
};

function curvedExact(x: number, y: number): number[] {
  const root = 0.5 / Math.sqrt(x + y);
  return [
    Math.cos(x) * Math.exp(y),
    Math.sin(x) * Math.exp(y),
    1 / (1 + y * y),
    (-2 * x * y) / (1 + y * y) ** 2,
    root,
    root,
  ];
}

describe("jacobian", () => {
  test("is exact on polynomials up to order four", () => {
    const out = derive(
      (x, values) => {
        values[0] = x[0]! ** 4 - 2 * x[0]! ** 3 + x[1]!;
      },
      [1.5, 2],
      [0.5, 0.25],
      1,
    );
    expect(out[0]).toBeCloseTo(4 * 1.5 ** 3 - 6 * 1.5 ** 2, 12);
    expect(out[1]).toBeCloseTo(1, 14);
  });

  test("converges with order four in each variable", () => {
    const exact = curvedExact(0.8, 0.3);
    const error = (step: number) =>
      derive(curved, [0.8, 0.3], [step, step], 3).map((value, i) => Math.abs(value - exact[i]!));
    const coarse = error(0.1);
    const fine = error(0.05);
    coarse.forEach((value, i) => {
      if (i === 2) return; // linear in x: exact
      expect(Math.log2(value / fine[i]!)).toBeGreaterThan(3.8);
      expect(Math.log2(value / fine[i]!)).toBeLessThan(4.3);
    });
    expect(coarse[2]).toBeLessThan(1e-14);
  });

  test("reaches 1e-11 with steps of a thousandth", () => {
    const exact = curvedExact(0.8, 0.3);
    derive(curved, [0.8, 0.3], [1e-3, 1e-3], 3).forEach((value, i) => {
      expect(Math.abs(value - exact[i]!)).toBeLessThan(1e-11);
    });
  });

  test("leaves the point alone and puts every moved variable back", () => {
    const x = Float64Array.of(1, 2, 3);
    const seen: number[][] = [];
    const f: VectorFunction = (at, out) => {
      seen.push([...at]);
      out[0] = at[0]! + at[1]! + at[2]!;
    };
    jacobian(f, x, Float64Array.of(0.5, 0.5, 0.5), 1, new Float64Array(3), createJacobianWorkspace(3, 1));
    expect([...x]).toEqual([1, 2, 3]);
    expect(seen.length).toBe(12);
    for (const at of seen) expect(at.filter((value, i) => value !== x[i]).length).toBe(1);
  });

  test("works in the arrays of its workspace alone", () => {
    const arrays = new Set<Float64Array>();
    const f: VectorFunction = (x, out) => {
      arrays.add(x);
      arrays.add(out);
      curved(x, out);
    };
    const workspace = createJacobianWorkspace(2, 3);
    const out = new Float64Array(6);
    for (let call = 0; call < 3; call++)
      jacobian(f, Float64Array.of(1, 2), Float64Array.of(0.1, 0.1), 3, out, workspace);
    expect(arrays).toEqual(new Set(Object.values(workspace)));
  });

  test("says when a derivative is not finite", () => {
    const f: VectorFunction = (x, out) => {
      out[0] = Math.sqrt(x[0]!);
    };
    const out = new Float64Array(1);
    const workspace = createJacobianWorkspace(1, 1);
    expect(jacobian(f, Float64Array.of(0), Float64Array.of(1e-3), 1, out, workspace)).toBe(false);
  });

  test("refuses steps that are not above zero and short arrays", () => {
    const workspace = createJacobianWorkspace(2, 1);
    const x = new Float64Array(2);
    const f: VectorFunction = (_, out) => out.fill(0);
    for (const bad of [0, -1, Number.NaN]) {
      expect(() => jacobian(f, x, Float64Array.of(1, bad), 1, new Float64Array(2), workspace)).toThrow(
        `step of variable 1 is ${bad}`,
      );
    }
    expect(() => jacobian(f, x, Float64Array.of(1), 1, new Float64Array(2), workspace)).toThrow(DomainError);
    expect(() => jacobian(f, x, Float64Array.of(1, 1), 1, new Float64Array(1), workspace)).toThrow(DomainError);
    expect(() => createJacobianWorkspace(0, 1)).toThrow(DomainError);
  });
});
