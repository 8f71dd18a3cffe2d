import { multiply } from "../../math/dense/index.ts";
import { BugError } from "../../math/errors.ts";
import { matrixExponential } from "../../math/exponential/index.ts";
import { lyapunov } from "../../math/lyapunov/index.ts";
import { RandomStream } from "../../math/random/index.ts";
import { requirePositive } from "../../math/require.ts";
import { type GustFilter, NOISES } from "./shaping.ts";

/** Gusts at equal steps of time: row k of `values` is u, v, w, p, q, r at k·step; shape (count, 6). */
export interface GustHistory {
  readonly step: number;
  readonly count: number;
  readonly values: Float64Array;
}

/**
 * A seeded history of gusts that has exactly the covariance of its filter at the steps, stationary from the first on.
 *
 *     xₖ₊₁ = Φ·xₖ + wₖ,  Φ = e^(A·h),  cov(wₖ) = ∫₀^h e^(A·t)·BBᵀ·e^(Aᵀ·t) dt,  cov(x₀) = P            (18)
 *
 * @param filter  from `drydenFilter`
 * @param step    h [s], > 0
 * @param count   number of rows
 * @param seed    of the batch
 * @param index   of the sample; the same (seed, index) gives the same history on every machine and in every order
 * @throws {DomainError} if the step is not above zero or seed or index is no whole number
 * @source Van Loan, IEEE Trans. Automatic Control 23 (1978) 395–404 for the integral; own assembly
 * @verified history.test.ts: variances and spectra within sampling error, step halved, repeatable
 */
export function gustHistory(filter: GustFilter, step: number, count: number, seed: number, index: number): GustHistory {
  requirePositive("time step", step);
  const n = filter.size;
  const { transition, noise } = discrete(filter, step);
  const Q = noiseIntensity(filter);
  const stationary = lyapunov(filter.A, Q, n);
  if (stationary.outcome !== "solved") throw new BugError(`a gust filter is ${stationary.outcome}`);
  const random = new RandomStream(seed, index, 0);
  const draw = Float64Array.from({ length: n }, () => random.normal());
  let x = new Float64Array(n);
  addLower(triangle(stationary.matrix, n), n, draw, x);
  const spread = triangle(noise, n);
  const values = new Float64Array(6 * count);
  for (let k = 0; k < count; k++) {
    for (let i = 0; i < 6; i++) {
      let sum = 0;
      for (let j = 0; j < n; j++) sum += filter.C[i * n + j] * x[j];
      values[6 * k + i] = sum;
    }
    const next = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      draw[i] = random.normal();
      for (let j = 0; j < n; j++) next[i] += transition[i * n + j] * x[j];
    }
    addLower(spread, n, draw, next);
    x = next;
  }
  return { step, count, values };
}

/** Gust at a time, straight lines between the steps; the ends outside. Shape of `out` (6). */
export function gustAt(history: GustHistory, time: number, out: Float64Array): void {
  const place = Math.min(history.count - 1, Math.max(0, time / history.step));
  const k = Math.min(history.count - 2, Math.floor(place));
  const share = place - k;
  for (let i = 0; i < 6; i++) {
    out[i] = (1 - share) * history.values[6 * k + i] + share * history.values[6 * (k + 1) + i];
  }
}

/** BBᵀ, the intensity of the noise in the states. */
export function noiseIntensity(filter: GustFilter): Float64Array {
  const n = filter.size;
  const Q = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      for (let k = 0; k < NOISES; k++) Q[i * n + j] += filter.B[i * NOISES + k] * filter.B[j * NOISES + k];
    }
  }
  return Q;
}

/** Φ and the covariance of one step's noise by the exponential of a matrix of twice the order. */
export function discrete(filter: GustFilter, step: number) {
  const n = filter.size;
  const Q = noiseIntensity(filter);
  const big = new Float64Array(4 * n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      big[2 * n * i + j] = -filter.A[i * n + j] * step;
      big[2 * n * i + n + j] = Q[i * n + j] * step;
      big[2 * n * (n + i) + n + j] = filter.A[j * n + i] * step;
    }
  }
  const e = matrixExponential(big, 2 * n);
  const transition = new Float64Array(n * n);
  const upper = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      transition[i * n + j] = e[2 * n * (n + j) + n + i];
      upper[i * n + j] = e[2 * n * i + n + j];
    }
  }
  const noise = new Float64Array(n * n);
  multiply(transition, upper, noise, n, n, n);
  return { transition, noise };
}

/** Lower triangle L of a covariance, M = L·Lᵀ; a state without variance of its own gets a row of nothing new. */
export function triangle(covariance: Float64Array, n: number): Float64Array {
  const L = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = 0.5 * (covariance[i * n + j] + covariance[j * n + i]);
      for (let k = 0; k < j; k++) sum -= L[i * n + k] * L[j * n + k];
      if (i === j) L[i * n + i] = sum > 1e-14 * Math.abs(covariance[i * n + i]) ? Math.sqrt(sum) : 0;
      else L[i * n + j] = L[j * n + j] > 0 ? sum / L[j * n + j] : 0;
    }
  }
  return L;
}

export function addLower(L: Float64Array, n: number, draw: Float64Array, out: Float64Array): void {
  for (let i = 0; i < n; i++) for (let j = 0; j <= i; j++) out[i] += L[i * n + j] * draw[j];
}
