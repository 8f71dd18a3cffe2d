import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { createEigenWorkspace, eigenvalues } from "../eigen/index.ts";
import { DomainError } from "../errors.ts";
import {
  append,
  closeLoops,
  connectedPart,
  type LinearSystem,
  linearSystem,
  select,
  series,
  TransferFunction,
} from "./index.ts";

const firstOrder = (gain: number, lag: number): LinearSystem =>
  linearSystem({ states: 1, inputs: 1, outputs: 1 }, { A: [-1 / lag], B: [gain / lag], C: [1] });
const integrator = linearSystem({ states: 1, inputs: 1, outputs: 1 }, { B: [1], C: [1] });

function at(system: LinearSystem, imag: number, input = 0): number[] {
  const out = new Float64Array(2 * system.outputs);
  new TransferFunction(system, input).evaluate(0, imag, out);
  return Array.from(out);
}
function roots(system: LinearSystem): number[] {
  const n = system.states;
  const [re, im] = [new Float64Array(n), new Float64Array(n)];
  eigenvalues(system.A, n, createEigenWorkspace(n), re, im);
  return Array.from(re).flatMap((value, i) => [value, im[i]]);
}
const rounding = { rtol: 1e-13, atol: 1e-13, why: "rounding" };

describe("connected systems", () => {
  it("in series multiply their transfer functions", () => {
    const [a, b] = [firstOrder(2, 0.5), firstOrder(3, 0.1)];
    const [aRe, aIm] = at(a, 1.7);
    const [bRe, bIm] = at(b, 1.7);
    expectAllClose(at(series(a, b), 1.7), [aRe * bRe - aIm * bIm, aRe * bIm + aIm * bRe], rounding);
    const direct = linearSystem({ states: 0, inputs: 1, outputs: 1 }, { D: [4] });
    expectAllClose(at(series(direct, series(a, direct)), 1.7), [16 * aRe, 16 * aIm], rounding);
  });

  it("side by side do not meet, and can be picked apart again", () => {
    const [a, b] = [firstOrder(2, 0.5), firstOrder(3, 0.1)];
    const both = append([a, b]);
    expectAllClose(at(both, 1.7, 1), [0, 0, ...at(b, 1.7)], rounding);
    expectAllClose(at(select(both, [1], [1, 0]), 1.7), [...at(b, 1.7), 0, 0], rounding);
    expectAllClose(at(select(both, [0], [0]), 1.7), at(a, 1.7), rounding);
  });

  it("closed by negative feedback have the textbook poles", () => {
    // K/(s(s + 2)) with K = 10: s² + 2s + 10
    const plant = series(integrator, firstOrder(0.5, 0.5));
    const closed = closeLoops(plant, Float64Array.of(-10));
    expectAllClose(roots(closed), [-1, 3, -1, -3], { rtol: 1e-12, why: "rounding of a double-precision root" });
    expectAllClose(at(closed, 0), [0.1, 0], rounding, "unity feedback around gain 10");
  });

  it("with direct feed-through are solved for, and opened again by the opposite gain", () => {
    const system = linearSystem({ states: 1, inputs: 1, outputs: 1 }, { A: [-3], B: [1], C: [2], D: [0.5] });
    const closed = closeLoops(system, Float64Array.of(-2));
    // y = (2x + 0.5v)/(1 + 1): D = 0.25
    expectClose(closed.D[0], 0.25, rounding);
    const again = closeLoops(closed, Float64Array.of(2));
    for (const key of ["A", "B", "C", "D"] as const) expectAllClose(again[key], system[key], rounding, key);
    expect(() => closeLoops(system, Float64Array.of(2))).toThrow(DomainError);
  });

  it("keep only what an input moves and an output sees, with the same transfer functions", () => {
    const [a, b] = [firstOrder(2, 0.5), firstOrder(3, 0.1)];
    const both = append([a, b]);
    const one = connectedPart(select(both, [1], [1]));
    expect(one.states).toBe(1);
    expectAllClose(at(one, 1.7), at(b, 1.7), rounding);
    // a chain a → b, seen only in the middle, moved only in the middle
    const chain = series(a, b);
    expect(connectedPart(chain).states).toBe(2);
    const seenFirst = linearSystem({ states: 2, inputs: 1, outputs: 1 }, { ...chain, C: [1, 0] });
    const movedLast = linearSystem({ states: 2, inputs: 1, outputs: 1 }, { ...chain, B: [0, 1] });
    for (const part of [seenFirst, movedLast]) {
      expect(connectedPart(part).states).toBe(1);
      expectAllClose(at(connectedPart(part), 1.7), at(part, 1.7), rounding);
    }
    expect(connectedPart(linearSystem({ states: 2, inputs: 1, outputs: 1 }, { A: chain.A })).states).toBe(0);
  });

  it("refuse what does not fit", () => {
    expect(() => series(append([integrator, integrator]), integrator)).toThrow(DomainError);
    expect(() => linearSystem({ states: 2, inputs: 1, outputs: 1 }, { A: [1, 2, 3] })).toThrow(DomainError);
    expect(() => linearSystem({ states: 1, inputs: 0, outputs: 1 }, {})).toThrow(DomainError);
    expect(() => closeLoops(integrator, new Float64Array(0))).toThrow(DomainError);
  });
});
