import { luFactor, luSolve } from "../dense/index.ts";
import { createEigenWorkspace, eigenvalues } from "../eigen/index.ts";
import { integrate } from "../ode/index.ts";
import { requireLength, requirePositive, requireSize } from "../require.ts";
import type { Multipliers, Orbit, OrbitOutcome, PeriodicSystem, ShotOptions, ShotStart } from "./types.ts";

/** Distance of the neighbours over the size of the motion. */
const STEP = 1e-5;
/** Gap between end and start, over the size of the motion and the tolerance of the integration, at which an orbit is closed. */
const CLOSED = 100;
const MOST_ITERATIONS = 12;

/**
 * Closes a periodic motion of ẏ = f(t, y; p) by Newton's method on a start and, where it is the system's own, on the period.
 *
 *     y(T; y₀) = y₀,  f(y₀*)·(y₀ − y₀*) = 0                                                   (README eq. 5)
 *
 * All neighbours of the start go through the same steps of one integration, so that the matrix of derivatives is that of the motion
 * as computed. It is the monodromy matrix; the motion is stable where every Floquet multiplier but that of the shift along it lies inside
 * the unit circle.
 *
 * @param system what moves
 * @param start  a point near the motion, its period and the parameter
 * @returns the orbit, with the multipliers at the last iterate
 * @throws {DomainError} for sizes that do not fit, or a period, tolerance or scale not above zero
 * @source own derivation, README eq. 5–7
 * @verified periodic.test.ts (multipliers of linear systems e^(λT); Mathieu's equation; relaxation oscillator against an integrated one)
 */
export function closeOrbit(system: PeriodicSystem, start: ShotStart, options: ShotOptions): Orbit {
  const n = system.size;
  check(system, start, options);
  const isOwn = options.period === "own";
  const order = isOwn ? n + 1 : n;
  const matrix = new Float64Array(order * order);
  const pivots = new Int32Array(order);
  const step = new Float64Array(order);
  const rate = new Float64Array(n);
  const y0 = Float64Array.from({ length: n }, (_, i) => start.y0[i]!);
  let period = start.period;
  const most = options.maxIterations ?? MOST_ITERATIONS;
  for (let iteration = 0; ; iteration++) {
    const shot = monodromyOf(system, { ...start, y0, period }, options);
    const finish = (outcome: OrbitOutcome): Orbit => ({
      ...{ outcome, y0, period, monodromy: shot.monodromy, iterations: iteration },
      multipliers: outcome === "lost" ? NO_MULTIPLIERS : multipliersOf(shot.monodromy, n, isOwn),
    });
    if (!shot.reached) return finish("lost");
    let gap = 0;
    for (let i = 0; i < n; i++) gap = Math.max(gap, Math.abs(shot.end[i]! - y0[i]!) / system.scales[i]!);
    if (gap <= CLOSED * options.tolerance) return finish("closed");
    if (iteration === most) return finish("too many iterations");
    for (let i = 0; i < n; i++) {
      for (let k = 0; k < n; k++) matrix[i * order + k] = shot.monodromy[i * n + k]! - (i === k ? 1 : 0);
      step[i] = y0[i]! - shot.end[i]!;
    }
    if (isOwn) {
      system.derivative(period, shot.end, start.parameter, rate);
      for (let i = 0; i < n; i++) matrix[i * order + n] = rate[i]!;
      system.derivative(0, y0, start.parameter, rate);
      for (let k = 0; k < n; k++) matrix[n * order + k] = rate[k]! / system.scales[k]! ** 2;
      matrix[n * order + n] = 0;
      step[n] = 0;
    }
    if (!luFactor(matrix, order, pivots)) return finish("singular");
    luSolve(matrix, order, pivots, step);
    for (let i = 0; i < n; i++) y0[i] += step[i]!;
    if (isOwn) period += step[n]!;
    if (!(period > 0 && y0.every(Number.isFinite))) return { ...finish("lost"), period: start.period };
  }
}

/**
 * State after a period and its derivatives by the start: the monodromy matrix where the motion is periodic.
 *
 *     M_ik = (y_i(T; y₀ + h_k) − y_i(T; y₀))/h_k                                               (README eq. 6)
 *
 * Errors: 1e5 times the tolerance, and 1e-5 of what a nonlinear system bends over the size of the motion.
 *
 * @returns whether the integration came to its end, the state there, shape (n), and the matrix, shape (n, n) row-major
 * @source own derivation, README eq. 6 (neighbours in the same integration: no noise from the choice of steps)
 * @verified periodic.test.ts (e^(A·T) of linear systems, rtol 1e-8)
 */
export function monodromyOf(
  system: PeriodicSystem,
  { y0, period, parameter }: ShotStart,
  { tolerance, maxSteps }: Pick<ShotOptions, "tolerance" | "maxSteps">,
): { readonly reached: boolean; readonly end: Float64Array; readonly monodromy: Float64Array } {
  const n = system.size;
  const starts = new Float64Array((n + 1) * n);
  const absolute = new Float64Array((n + 1) * n);
  for (let c = 0; c <= n; c++) {
    for (let i = 0; i < n; i++) {
      starts[c * n + i] = y0[i]!;
      absolute[c * n + i] = tolerance * system.scales[i]!;
    }
    if (c > 0) starts[c * n + c - 1] += STEP * system.scales[c - 1]!;
  }
  const state = new Float64Array(n);
  const rate = new Float64Array(n);
  const run = integrate({
    derivative: (t, y, out) => {
      for (let c = 0; c <= n * n; c += n) {
        for (let i = 0; i < n; i++) state[i] = y[c + i]!;
        system.derivative(t, state, parameter, rate);
        for (let i = 0; i < n; i++) out[c + i] = rate[i]!;
      }
    },
    ...{ y0: starts, from: 0, to: period, relativeTolerance: tolerance, absoluteTolerance: absolute, maxSteps },
  });
  const monodromy = new Float64Array(n * n);
  for (let k = 0; k < n; k++) {
    // the step as it was rounded
    const h = starts[(k + 1) * n + k]! - y0[k]!;
    for (let i = 0; i < n; i++) monodromy[i * n + k] = (run.y[(k + 1) * n + i]! - run.y[i]!) / h;
  }
  return { reached: run.outcome === "reached", end: run.y.slice(0, n), monodromy };
}

const NO_MULTIPLIERS: Multipliers = { re: new Float64Array(0), im: new Float64Array(0), largest: 0, shiftError: 0 };

/** Eigenvalues of a monodromy matrix (README eq. 7). */
function multipliersOf(monodromy: Float64Array, n: number, isOwn: boolean): Multipliers {
  const re = new Float64Array(n);
  const im = new Float64Array(n);
  eigenvalues(monodromy, n, createEigenWorkspace(n), re, im);
  let shift = -1;
  const offOf = (i: number): number => Math.hypot(re[i]! - 1, im[i]!);
  if (isOwn) {
    shift = 0;
    for (let i = 1; i < n; i++) if (offOf(i) < offOf(shift)) shift = i;
  }
  let largest = 0;
  for (let i = 0; i < n; i++) if (i !== shift) largest = Math.max(largest, Math.hypot(re[i]!, im[i]!));
  return { re, im, largest, shiftError: shift < 0 ? 0 : offOf(shift) };
}

function check(system: PeriodicSystem, start: ShotStart, options: ShotOptions): void {
  const n = system.size;
  requireSize("number of states", n, 1);
  requireLength("scales", system.scales.length, n);
  requireLength("start", start.y0.length, n);
  for (let i = 0; i < n; i++) requirePositive(`scale ${i}`, system.scales[i]!);
  requirePositive("period", start.period);
  requirePositive("tolerance", options.tolerance);
}
