import { multiply } from "../../math/dense/index.ts";
import { lyapunov } from "../../math/lyapunov/index.ts";
import { type GustFilter, NOISES } from "../turbulence/index.ts";
import type { GustModel } from "./linear-model.ts";
import { OUTPUT_COUNT } from "./outputs.ts";

/** Spread of every output in stationary turbulence; shape (OUTPUT_COUNT) each. */
export interface StationaryResponse {
  /** "grows without rough air" when the pair itself is not stable: then there is no stationary answer and all is 0. */
  readonly outcome: "stationary" | "grows without rough air";
  /** Standard deviation, in the unit of the output. */
  readonly deviation: Float64Array;
  /** Standard deviation of its rate of change, per second. */
  readonly rateDeviation: Float64Array;
  /** Largest real part of the eigenvalues of the pair [1/s]. */
  readonly largestReal: number;
}

/** Pair and filter as one system: ż = A·z + B·n, y − mean = H·z. */
export interface JoinedSystem {
  readonly size: number;
  readonly A: Float64Array;
  /** (size, NOISES) */
  readonly B: Float64Array;
  /** (OUTPUT_COUNT, size) */
  readonly H: Float64Array;
}

/**
 * Joins the pair with a gust filter.
 *
 *     ż = [A  B·C_g; 0  A_g]·z + [0; B_g]·n,   y − mean = [C  D·C_g]·z                  (README eq. 7)
 */
export function joinFilter(model: GustModel, filter: GustFilter): JoinedSystem {
  const { size: n, A, B, C, D } = model;
  const m = filter.size;
  const size = n + m;
  const joined = new Float64Array(size * size);
  const input = new Float64Array(size * NOISES);
  const H = new Float64Array(OUTPUT_COUNT * size);
  const byGust = (matrix: Float64Array, rows: number): Float64Array => {
    const out = new Float64Array(rows * m);
    multiply(matrix, filter.C, out, rows, 6, m);
    return out;
  };
  const states = byGust(B, n);
  const outputs = byGust(D, OUTPUT_COUNT);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) joined[i * size + j] = A[i * n + j];
    for (let j = 0; j < m; j++) joined[i * size + n + j] = states[i * m + j];
  }
  for (let i = 0; i < m; i++) {
    for (let j = 0; j < m; j++) joined[(n + i) * size + n + j] = filter.A[i * m + j];
    for (let k = 0; k < NOISES; k++) input[(n + i) * NOISES + k] = filter.B[i * NOISES + k];
  }
  for (let i = 0; i < OUTPUT_COUNT; i++) {
    for (let j = 0; j < n; j++) H[i * size + j] = C[i * n + j];
    for (let j = 0; j < m; j++) H[i * size + n + j] = outputs[i * m + j];
  }
  return { size, A: joined, B: input, H };
}

/**
 * Spread of the outputs in Dryden turbulence.
 *
 *     A·P + P·Aᵀ + B·Bᵀ = 0,   σ² = h·P·hᵀ,   σ̇² = (h·A)·P·(h·A)ᵀ                      (README eq. 8)
 *
 * @param filter  with the lags of the lift, without which the rates of the loads have no finite spread
 * @source own derivation, README eq. 8
 * @verified response.test.ts: integration of the spectra, a long simulation of the nonlinear pair
 */
export function stationaryResponse(model: GustModel, filter: GustFilter): StationaryResponse {
  const { size, A, B, H } = joinFilter(model, filter);
  const Q = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      for (let k = 0; k < NOISES; k++) Q[i * size + j] += B[i * NOISES + k] * B[j * NOISES + k];
    }
  }
  const { outcome, matrix: P, largestReal } = lyapunov(A, Q, size);
  const deviation = new Float64Array(OUTPUT_COUNT);
  const rateDeviation = new Float64Array(OUTPUT_COUNT);
  if (outcome !== "solved") return { outcome: "grows without rough air", deviation, rateDeviation, largestReal };
  const HA = new Float64Array(OUTPUT_COUNT * size);
  multiply(H, A, HA, OUTPUT_COUNT, size, size);
  for (let i = 0; i < OUTPUT_COUNT; i++) {
    deviation[i] = spread(H, P, i, size);
    rateDeviation[i] = spread(HA, P, i, size);
  }
  return { outcome: "stationary", deviation, rateDeviation, largestReal };
}

/** √(h·P·hᵀ) of one row; what rounding makes negative is none. */
function spread(H: Float64Array, P: Float64Array, row: number, size: number): number {
  let sum = 0;
  for (let j = 0; j < size; j++) {
    for (let k = 0; k < size; k++) sum += H[row * size + j] * P[j * size + k] * H[row * size + k];
  }
  return Math.sqrt(Math.max(0, sum));
}
