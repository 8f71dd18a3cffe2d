import { luFactor, luSolve } from "../dense/index.ts";
import { requireLength, requirePositive, requireSize } from "../require.ts";
import { trigonometricTable } from "./fourier.ts";
import type { FourierBalance, FourierMotion, FourierOutcome, FourierTask, PeriodicSystem } from "./types.ts";

const MOST_ITERATIONS = 40;
const MOST_HALVINGS = 10;
/** Change of the motion from one step to the next, over its size, at which it is found. */
const FOUND = 1e-8;
/** The same where no shorter step helps: kinks of f at the samples end the contraction of Newton's method. */
const FOUND_AT_KINKS = 2e-4;
/** A step that lowers the mean square of the residuals to this share keeps its derivatives for the next one. */
const KEPT = 1e-2;
/** Steps of the differences over the size of the motion. */
const STEP = 1e-5;
/** Samples of a period for each harmonic. */
const OVERSAMPLING = 6;

interface Work {
  readonly system: PeriodicSystem;
  readonly task: FourierTask;
  readonly n: number;
  readonly terms: number;
  readonly samples: number;
  readonly unknowns: number;
  readonly table: Float64Array;
  /** States and rates at the samples, shape (samples, n). */
  readonly y: Float64Array;
  readonly f: Float64Array;
  readonly matrix: Float64Array;
  readonly pivots: Int32Array;
}

/**
 * Periodic motion of ẏ = f(t, y; p) by harmonic balance: the Fourier coefficients of both sides agree up to the highest one kept.
 *
 *     kω·S_k = (f)_{C,k},  −kω·C_k = (f)_{S,k},  0 = (f)_{C,0},  k = 1 … H                       (README eq. 2)
 *
 * The right side is sampled in time, so that f may be any function. Solved for all coefficients at once by Newton's method with
 * halved steps; stable and unstable motions are found alike. Of f that is smooth the error falls faster than any power of 1/H; a jump
 * in a derivative of order m leaves H^−(m+1).
 *
 * @param system what moves
 * @param start  first guess; its length sets H. Its sine of the measured state should be small
 * @param task   what is given
 * @returns "balanced", or why not, with the last iterate
 * @throws {DomainError} for sizes that do not fit or a frequency or scale not above zero
 * @source Krack and Gross, Harmonic Balance for Nonlinear Vibration Problems (2019), from memory; own derivation, README eq. 2–4
 * @verified periodic.test.ts (linear response; elliptic period; relaxation oscillator against an integrated one; describing function)
 */
export function balanceFourier(system: PeriodicSystem, start: FourierMotion, task: FourierTask): FourierBalance {
  const work = createWork(system, start, task);
  const { n, terms, unknowns, matrix, pivots } = work;
  const size = n * terms;
  let x = new Float64Array(unknowns);
  x.set(start.coefficients.subarray(0, size));
  if (task.kind !== "driven") x[size] = start.omega;
  if (task.kind === "of amplitude") x[size + 1] = start.parameter;
  let residual = new Float64Array(unknowns);
  let merit = evaluate(work, start, x, residual);
  const step = new Float64Array(unknowns);
  const done = (outcome: FourierOutcome, iterations: number): FourierBalance => ({
    outcome,
    iterations,
    coefficients: x.slice(0, size),
    omega: task.kind === "driven" ? start.omega : x[size]!,
    parameter: task.kind === "of amplitude" ? x[size + 1]! : start.parameter,
  });
  let isKept = false;
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    if (!Number.isFinite(merit)) return done("not finite", iteration);
    if (!isKept) {
      differentiate(work, start, x);
      if (!luFactor(matrix, unknowns, pivots)) return done("singular", iteration);
    }
    for (let i = 0; i < unknowns; i++) step[i] = -residual[i]!;
    luSolve(matrix, unknowns, pivots, step);
    const length = lengthOf(work, x, step);
    let share = 1;
    let halvings = 0;
    const before = merit;
    for (; halvings <= MOST_HALVINGS; halvings++, share /= 2) {
      const next = x.map((value, i) => value + share * step[i]!);
      const left = new Float64Array(unknowns);
      const after = next[size]! <= 0 ? Number.NaN : evaluate(work, start, next, left);
      if (after < merit || (length < FOUND && Number.isFinite(after))) {
        [x, residual, merit] = [next, left, after];
        break;
      }
    }
    const isAtKinks = halvings > MOST_HALVINGS && !isKept && length < FOUND_AT_KINKS;
    if (length < FOUND || isAtKinks) return done("balanced", iteration + 1);
    // factors that were taken over may be the reason
    if (halvings > MOST_HALVINGS && !isKept) return done("no descent", iteration + 1);
    isKept = merit < KEPT * before;
  }
  return done("too many iterations", MOST_ITERATIONS);
}

function createWork(system: PeriodicSystem, start: FourierMotion, task: FourierTask): Work {
  const n = system.size;
  requireSize("number of states", n, 1);
  requireLength("scales", system.scales.length, n);
  for (let i = 0; i < n; i++) requirePositive(`scale ${i}`, system.scales[i]!);
  requirePositive("frequency", start.omega);
  const harmonics = (start.coefficients.length / n - 1) / 2;
  requireSize("harmonics", harmonics, 1);
  const terms = 2 * harmonics + 1;
  const samples = OVERSAMPLING * harmonics + 2;
  const extra = task.kind === "driven" ? 0 : task.kind === "own frequency" ? 1 : 2;
  const unknowns = n * terms + extra;
  return {
    ...{ system, task, n, terms, samples, unknowns },
    table: trigonometricTable(harmonics, samples),
    y: new Float64Array(samples * n),
    f: new Float64Array(samples * n),
    matrix: new Float64Array(unknowns * unknowns),
    pivots: new Int32Array(unknowns),
  };
}

/** Residuals of eq. 2 and of phase and amplitude; returns their mean square over the sizes of the states. */
function evaluate(work: Work, start: FourierMotion, x: Float64Array, out: Float64Array): number {
  const { system, task, n, terms, samples, table, y, f } = work;
  const size = n * terms;
  const omega = task.kind === "driven" ? start.omega : x[size]!;
  const parameter = task.kind === "of amplitude" ? x[size + 1]! : start.parameter;
  for (let j = 0; j < samples; j++) {
    const state = y.subarray(j * n, (j + 1) * n);
    state.fill(0);
    for (let a = 0; a < terms; a++) {
      const weight = table[j * terms + a]!;
      for (let i = 0; i < n; i++) state[i] += weight * x[a * n + i]!;
    }
    system.derivative((2 * Math.PI * j) / (samples * omega), state, parameter, f.subarray(j * n, (j + 1) * n));
  }
  out.fill(0);
  for (let a = 0; a < terms; a++) {
    for (let j = 0; j < samples; j++) {
      const weight = weightOf(work, a, j);
      for (let i = 0; i < n; i++) out[a * n + i] -= weight * f[j * n + i]!;
    }
  }
  for (let k = 1; 2 * k < terms; k++) {
    const [c, s] = [(2 * k - 1) * n, 2 * k * n];
    for (let i = 0; i < n; i++) {
      out[c + i] += k * omega * x[s + i]!;
      out[s + i] -= k * omega * x[c + i]!;
    }
  }
  if (task.kind !== "driven") out[size] = x[2 * n + task.measure]!;
  if (task.kind === "of amplitude") out[size + 1] = x[n + task.measure]! - task.amplitude;
  let sum = 0;
  for (let i = 0; i < size; i++) sum += (out[i]! / (omega * system.scales[i % n]!)) ** 2;
  for (let i = size; i < work.unknowns; i++) {
    sum += (out[i]! / system.scales[(task as { measure: number }).measure]!) ** 2;
  }
  return sum;
}

/** Share of sample j in coefficient a. */
function weightOf({ table, terms, samples }: Work, a: number, j: number): number {
  return ((a === 0 ? 1 : 2) * table[j * terms + a]!) / samples;
}

/** Derivatives of the residuals, by differences of f at the samples (README eq. 3). */
function differentiate(work: Work, start: FourierMotion, x: Float64Array): void {
  const { system, task, n, terms, samples, unknowns, matrix, y, f } = work;
  const size = n * terms;
  const omega = task.kind === "driven" ? start.omega : x[size]!;
  const parameter = task.kind === "of amplitude" ? x[size + 1]! : start.parameter;
  const J = new Float64Array(n * n);
  const state = new Float64Array(n);
  const above = new Float64Array(n);
  // Fourier sums of J, [cos 0, sin 0, cos τ, sin τ, …] up to twice the harmonics
  const spectrum = new Float64Array(2 * terms * n * n);
  matrix.fill(0);
  for (let j = 0; j < samples; j++) {
    const time = (2 * Math.PI * j) / (samples * omega);
    state.set(y.subarray(j * n, (j + 1) * n));
    for (let k = 0; k < n; k++) {
      const kept = state[k]!;
      const h = STEP * system.scales[k]!;
      state[k] = kept + h;
      system.derivative(time, state, parameter, above);
      state[k] = kept;
      for (let i = 0; i < n; i++) J[i * n + k] = (above[i]! - f[j * n + i]!) / h;
    }
    for (let m = 0; m < 2 * terms; m++) {
      const angle = (2 * Math.PI * (((m >> 1) * j) % samples)) / samples;
      const weight = (m % 2 === 0 ? Math.cos(angle) : Math.sin(angle)) / samples;
      for (let e = 0; e < n * n; e++) spectrum[m * n * n + e] += weight * J[e]!;
    }
    if (task.kind !== "of amplitude") continue;
    // f depends on the parameter smoothly and mildly: one difference of first order
    const h = 1e-6 * omega;
    system.derivative(time, state, parameter + h, above);
    for (let a = 0; a < terms; a++) {
      const weight = weightOf(work, a, j) / h;
      for (let i = 0; i < n; i++) {
        matrix[(a * n + i) * unknowns + size + 1] -= weight * (above[i]! - f[j * n + i]!);
      }
    }
  }
  addProducts(work, spectrum);
  for (let k = 1; 2 * k < terms; k++) {
    const [c, s] = [(2 * k - 1) * n, 2 * k * n];
    for (let i = 0; i < n; i++) {
      matrix[(c + i) * unknowns + s + i] += k * omega;
      matrix[(s + i) * unknowns + c + i] -= k * omega;
      if (task.kind === "driven") continue;
      matrix[(c + i) * unknowns + size] += k * x[s + i]!;
      matrix[(s + i) * unknowns + size] -= k * x[c + i]!;
    }
  }
  if (task.kind !== "driven") matrix[size * unknowns + 2 * n + task.measure] = 1;
  if (task.kind === "of amplitude") matrix[(size + 1) * unknowns + n + task.measure] = 1;
}

/**
 * Takes from the matrix what J multiplies: sums of products of two angles are sums over their sum and difference.
 *
 *     cos a·cos b = ½(cos(a − b) + cos(a + b)),  sin a·sin b = ½(cos(a − b) − cos(a + b)),  sin a·cos b = ½(sin(a + b) + sin(a − b))
 */
function addProducts({ n, terms, unknowns, matrix }: Work, spectrum: Float64Array): void {
  const square = n * n;
  for (let a = 0; a < terms; a++) {
    const [ka, isSineA] = [(a + 1) >> 1, a > 0 && a % 2 === 0];
    const weight = a === 0 ? 0.5 : 1;
    for (let b = 0; b < terms; b++) {
      const [kb, isSineB] = [(b + 1) >> 1, b > 0 && b % 2 === 0];
      const odd = isSineA !== isSineB ? 1 : 0;
      const sum = (2 * (ka + kb) + odd) * square;
      const difference = (2 * Math.abs(ka - kb) + odd) * square;
      const ofSum = weight * (isSineA && isSineB ? -1 : 1);
      // the sine of a difference has the sign of the angle under the sine
      const ahead = isSineA ? ka - kb : kb - ka;
      const ofDifference = weight * (odd === 1 && ahead < 0 ? -1 : 1);
      for (let i = 0; i < n; i++) {
        const row = (a * n + i) * unknowns + b * n;
        for (let k = 0; k < n; k++) {
          const e = i * n + k;
          matrix[row + k] -= ofSum * spectrum[sum + e]! + ofDifference * spectrum[difference + e]!;
        }
      }
    }
  }
}

/** Largest change in a step over the size of what changes. */
function lengthOf({ system, task, n, terms }: Work, x: Float64Array, step: Float64Array): number {
  const size = n * terms;
  let most = 0;
  for (let i = 0; i < size; i++) most = Math.max(most, Math.abs(step[i]!) / system.scales[i % n]!);
  if (task.kind !== "driven") most = Math.max(most, Math.abs(step[size]! / x[size]!));
  // a parameter has no size of its own; where it is a rate it is small beside the frequency
  if (task.kind === "of amplitude") most = Math.max(most, Math.abs(step[size + 1]! / x[size]!));
  return Number.isFinite(most) ? most : Number.POSITIVE_INFINITY;
}
