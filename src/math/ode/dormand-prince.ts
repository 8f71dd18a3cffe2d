import { DENSE_WEIGHTS, ERROR_WEIGHTS, NODES, STAGES } from "./dormand-prince.table.ts";
import type { Derivative } from "./types.ts";

/** Arrays of one integration, shape (n) each. */
export interface DormandPrince {
  readonly n: number;
  /** Stage derivatives k₁ … k₇. */
  readonly k: readonly Float64Array[];
  readonly stage: Float64Array;
  /** State at the start and at the end of the step. */
  readonly y: Float64Array;
  readonly yNext: Float64Array;
  /** Coefficients of the continuous extension. */
  readonly dense: readonly Float64Array[];
}

/**
 * Makes the arrays for n states.
 *
 * @param n  number of states
 */
export function createDormandPrince(n: number): DormandPrince {
  const row = () => new Float64Array(n);
  return {
    n,
    k: Array.from({ length: 7 }, row),
    stage: row(),
    y: row(),
    yNext: row(),
    dense: Array.from({ length: 5 }, row),
  };
}

/**
 * Tries one step: writes k₂ … k₇ and `yNext` of order five. k₁ must hold f(t, y).
 *
 *     kᵢ = f(t + cᵢ h, y + h Σ aᵢⱼ kⱼ),   y⁺ = y + h Σ bᵢ kᵢ                   (2)
 *
 * @param work        from `createDormandPrince`
 * @param derivative  f
 * @param t           time at the start
 * @param step        h
 * @source dormand-prince.table.ts
 * @verified dormand-prince.test.ts, integrate.test.ts
 */
export function tryStep(work: DormandPrince, derivative: Derivative, t: number, step: number): void {
  const { n, k, stage, y, yNext } = work;
  for (let s = 1; s < 7; s++) {
    const row = STAGES[s]!;
    const target = s === 6 ? yNext : stage;
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let j = 0; j < s; j++) sum += row[j]! * k[j]![i]!;
      target[i] = y[i]! + step * sum;
    }
    derivative(t + NODES[s]! * step, target, k[s]!);
  }
}

/**
 * Estimated local error of the tried step, over its tolerance: accept up to one.
 *
 *     ‖e‖ = √(1/n Σ (h Σⱼ eⱼ kⱼᵢ / (aᵢ + r·max(|yᵢ|, |yᵢ⁺|)))²)                (3)
 *
 * @param work                from `tryStep`
 * @param step                h
 * @param relativeTolerance   r
 * @param absoluteTolerances  a, shape (n)
 * @returns NaN or infinity when a stage is not finite
 * @source Hairer, Nørsett and Wanner (1993), eq. II.4.10–4.11
 * @verified integrate.test.ts
 */
export function errorOfStep(
  work: DormandPrince,
  step: number,
  relativeTolerance: number,
  absoluteTolerances: Float64Array,
): number {
  const { n, k, y, yNext } = work;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    let error = 0;
    for (let s = 0; s < 7; s++) error += ERROR_WEIGHTS[s]! * k[s]![i]!;
    const size = Math.max(Math.abs(y[i]!), Math.abs(yNext[i]!));
    squares += ((step * error) / (absoluteTolerances[i]! + relativeTolerance * size)) ** 2;
  }
  return Math.sqrt(squares / n);
}

/**
 * Prepares the continuous extension of the tried step.
 *
 * @param work  from `tryStep`
 * @param step  h
 * @source Hairer, Nørsett and Wanner (1993), section II.6
 * @verified dormand-prince.test.ts: conditions of order four at every place in the step
 */
export function prepareDense(work: DormandPrince, step: number): void {
  const { n, k, y, yNext, dense } = work;
  for (let i = 0; i < n; i++) {
    const rise = yNext[i]! - y[i]!;
    const start = step * k[0]![i]! - rise;
    let last = 0;
    for (let s = 0; s < 7; s++) last += DENSE_WEIGHTS[s]! * k[s]![i]!;
    dense[0]![i] = y[i]!;
    dense[1]![i] = rise;
    dense[2]![i] = start;
    dense[3]![i] = rise - step * k[6]![i]! - start;
    dense[4]![i] = step * last;
  }
}

/**
 * State inside the step, y(t + θ h), of order four.
 *
 *     y = d₀ + θ (d₁ + (1−θ)(d₂ + θ (d₃ + (1−θ) d₄)))                          (4)
 *
 * @param work   from `prepareDense`
 * @param theta  θ in 0 … 1
 * @param out    shape (n), written
 * @source Hairer, Nørsett and Wanner (1993), section II.6
 * @verified dormand-prince.test.ts, integrate.test.ts
 */
export function evaluateDense(work: DormandPrince, theta: number, out: Float64Array): void {
  const { n, dense } = work;
  const rest = 1 - theta;
  for (let i = 0; i < n; i++) {
    const inner = dense[2]![i]! + theta * (dense[3]![i]! + rest * dense[4]![i]!);
    out[i] = dense[0]![i]! + theta * (dense[1]![i]! + rest * inner);
  }
}
