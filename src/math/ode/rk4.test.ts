import { expect, test } from "vitest";
import { DomainError } from "../errors.ts";
import { createRk4Workspace, type Derivative, rk4Step } from "./index.ts";
import { nextFactor } from "./step-control.ts";

const derivative: Derivative = (t, y, out) => {
  out[0] = y[1]! * Math.cos(t);
  out[1] = -y[0]! * Math.cos(t);
};

/** y = (cos(sin t), −sin(sin t)). */
function errorAt(count: number): number {
  const y = Float64Array.of(1, 0);
  const workspace = createRk4Workspace(2);
  const step = 2 / count;
  for (let k = 0; k < count; k++) rk4Step(derivative, k * step, y, step, y, workspace);
  return Math.hypot(y[0]! - Math.cos(Math.sin(2)), y[1]! + Math.sin(Math.sin(2)));
}

test("order four", () => {
  const order = Math.log2(errorAt(20) / errorAt(40));
  expect(order).toBeGreaterThan(3.8);
  expect(order).toBeLessThan(4.3);
});

test("exact on cubics, forward and back, with the start kept", () => {
  const y = Float64Array.of(1);
  const out = new Float64Array(1);
  const cubic: Derivative = (t, _, rate) => rate.fill(4 * t ** 3 - 3 * t ** 2 + 1);
  rk4Step(cubic, 1, y, 2, out, createRk4Workspace(1));
  expect(y[0]).toBe(1);
  // t⁴ − t³ + t from 1 to 3 is 57 − 1.
  expect(out[0]).toBeCloseTo(57, 12);
  rk4Step(cubic, 3, out, -2, out, createRk4Workspace(1));
  expect(out[0]).toBeCloseTo(1, 12);
});

test("short arrays", () => {
  const y = new Float64Array(2);
  expect(() => rk4Step(derivative, 0, y, 1, new Float64Array(1), createRk4Workspace(2))).toThrow(DomainError);
  expect(() => rk4Step(derivative, 0, y, 1, y, createRk4Workspace(1))).toThrow(DomainError);
});

test("step control: shorter above tolerance, longer below, within its limits", () => {
  expect(nextFactor(1, 1)).toBeCloseTo(0.9, 12);
  expect(nextFactor(2, 1)).toBeLessThan(nextFactor(1, 1));
  expect(nextFactor(0.01, 1)).toBeGreaterThan(1);
  expect(nextFactor(0, 1)).toBe(10);
  expect(nextFactor(1e30, 1)).toBe(0.2);
  expect(nextFactor(1e-30, 1)).toBe(10);
  expect(nextFactor(Number.NaN, 1)).toBe(0.2);
  // A rising error asks for more caution than a falling one.
  expect(nextFactor(0.5, 0.1)).toBeLessThan(nextFactor(0.5, 1));
});
