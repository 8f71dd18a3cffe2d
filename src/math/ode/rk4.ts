import { requireLength } from "../require.ts";
import type { Derivative } from "./types.ts";

/**
 * One step of the classical Runge–Kutta method of order four.
 *
 *     y(t + h) = y + h (k₁ + 2k₂ + 2k₃ + k₄)/6                                 (1)
 *
 * @param derivative  writes ẏ(t, y)
 * @param t           time at the start
 * @param y           state at the start, shape (n); not changed unless it is `out`
 * @param step        h, may be negative
 * @param out         state at the end, shape (n), written; may be `y`
 * @param workspace   from `createRk4Workspace(n)`
 * @throws {DomainError} if an array is too short
 * @source Kutta (1901); Hairer, Nørsett and Wanner, Solving Ordinary Differential Equations I, 2nd ed. (1993), table II.1.2
 * @verified rk4.test.ts: order four, exact on cubics
 * @cost four calls of `derivative`, no allocation
 */
export function rk4Step(
  derivative: Derivative,
  t: number,
  y: Float64Array,
  step: number,
  out: Float64Array,
  workspace: Rk4Workspace,
): void {
  const n = y.length;
  requireLength("end state", out.length, n);
  requireLength("workspace", workspace.stage.length, n);
  const { stage, k1, k2, k3, k4 } = workspace;
  derivative(t, y, k1);
  for (let i = 0; i < n; i++) stage[i] = y[i]! + 0.5 * step * k1[i]!;
  derivative(t + 0.5 * step, stage, k2);
  for (let i = 0; i < n; i++) stage[i] = y[i]! + 0.5 * step * k2[i]!;
  derivative(t + 0.5 * step, stage, k3);
  for (let i = 0; i < n; i++) stage[i] = y[i]! + step * k3[i]!;
  derivative(t + step, stage, k4);
  for (let i = 0; i < n; i++) out[i] = y[i]! + (step / 6) * (k1[i]! + 2 * (k2[i]! + k3[i]!) + k4[i]!);
}

/** Stages of `rk4Step`, shape (n) each. */
export interface Rk4Workspace {
  readonly stage: Float64Array;
  readonly k1: Float64Array;
  readonly k2: Float64Array;
  readonly k3: Float64Array;
  readonly k4: Float64Array;
}

/**
 * Makes the arrays of `rk4Step` for n states.
 *
 * @param n  number of states
 */
export function createRk4Workspace(n: number): Rk4Workspace {
  const row = () => new Float64Array(n);
  return { stage: row(), k1: row(), k2: row(), k3: row(), k4: row() };
}
