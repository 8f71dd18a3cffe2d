import { luFactor, luSolve } from "../../math/dense/index.ts";
import { BugError } from "../../math/errors.ts";
import { integrate, resonanceBreaks } from "../../math/quadrature/index.ts";
import { blockEigenvalues, realSchur } from "../../math/schur/index.ts";
import {
  acrossSpectrum,
  alongSpectrum,
  type GustFlight,
  liftLag,
  liftLagResponse,
  rollSpectrum,
  spanLags,
} from "../turbulence/index.ts";
import type { GustModel } from "./linear-model.ts";
import { OUTPUT_COUNT } from "./outputs.ts";
import type { StationaryResponse } from "./stationary.ts";

/** Spectra of all outputs at any frequency; works in arrays of its own. */
export class ResponseSpectra {
  private readonly model: GustModel;
  private readonly flight: GustFlight;
  private readonly lag: ReturnType<typeof liftLag>;
  private readonly matrix: Float64Array;
  private readonly right: Float64Array;
  private readonly pivots: Int32Array;
  private readonly re = new Float64Array(OUTPUT_COUNT * 6);
  private readonly im = new Float64Array(OUTPUT_COUNT * 6);

  /**
   * @param model   of the pair
   * @param flight  scales of either form, σ_w, airspeed and span
   * @param chord   c̄ for the lags of the lift [m]
   */
  constructor(model: GustModel, flight: GustFlight, chord: number) {
    this.model = model;
    this.flight = flight;
    this.lag = liftLag(flight.speed, chord);
    this.matrix = new Float64Array(4 * model.size ** 2);
    this.right = new Float64Array(2 * model.size * 6);
    this.pivots = new Int32Array(2 * model.size);
  }

  /**
   * One-sided spectra of the outputs.
   *
   *     Φ = |K|²·(|Hu|²Φu + |Hv + Hr·iω/V/(1 + iωτr)|²Φv + |Hw − Hq·iω/V/(1 + iωτq)|²Φw + |Hp|²Φp)   (README eq. 9)
   *
   * @param omega ω [rad/s], > 0
   * @param out   shape (OUTPUT_COUNT), written, [unit²/(rad/s)]
   * @source own derivation, README eq. 9
   * @verified response.test.ts: integral against Lyapunov's equation
   */
  at(omega: number, out: Float64Array): void {
    this.respond(omega);
    const { re, im, flight } = this;
    const lags = spanLags(flight);
    const [kr, ki] = liftLagResponse(this.lag, omega);
    const passed = kr * kr + ki * ki;
    const u = alongSpectrum(flight, omega);
    const v = acrossSpectrum(flight, "v", omega);
    const w = acrossSpectrum(flight, "w", omega);
    const p = rollSpectrum(flight, omega);
    const [qr, qi] = slope(omega, flight.speed, lags.pitch);
    const [rr, ri] = slope(omega, flight.speed, lags.yaw);
    for (let i = 0; i < OUTPUT_COUNT; i++) {
      const at = 6 * i;
      const size = (k: number): number => re[at + k] ** 2 + im[at + k] ** 2;
      const both = (k: number, rate: number, sr: number, si: number, sign: number): number =>
        (re[at + k] + sign * (re[at + rate] * sr - im[at + rate] * si)) ** 2 +
        (im[at + k] + sign * (re[at + rate] * si + im[at + rate] * sr)) ** 2;
      out[i] = passed * (size(0) * u + both(1, 5, rr, ri, 1) * v + both(2, 4, qr, qi, -1) * w + size(3) * p);
    }
  }

  /** Frequency response of the outputs to the six gusts: C·(iω − A)⁻¹·B + D into `re` and `im`. */
  private respond(omega: number): void {
    const { size: n, A, B, C, D } = this.model;
    const { matrix: M, right, pivots, re, im } = this;
    const N = 2 * n;
    M.fill(0);
    right.fill(0);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        M[N * i + j] = -A[i * n + j];
        M[N * (n + i) + n + j] = -A[i * n + j];
      }
      M[N * i + n + i] = -omega;
      M[N * (n + i) + i] = omega;
      for (let g = 0; g < 6; g++) right[6 * i + g] = B[6 * i + g];
    }
    if (!luFactor(M, N, pivots)) throw new BugError("a stable pair has a root on the frequency axis");
    luSolve(M, N, pivots, right, 6);
    for (let i = 0; i < OUTPUT_COUNT; i++) {
      for (let g = 0; g < 6; g++) {
        let real = D[6 * i + g];
        let imaginary = 0;
        for (let j = 0; j < n; j++) {
          real += C[i * n + j] * right[6 * j + g];
          imaginary += C[i * n + j] * right[6 * (n + j) + g];
        }
        re[6 * i + g] = real;
        im[6 * i + g] = imaginary;
      }
    }
  }

  /** Roots of the pair as [real, imaginary] [1/s, rad/s]. */
  roots(): [number, number][] {
    return blockEigenvalues(realSchur(this.model.A, this.model.size), this.model.size);
  }
}

/** (iω/V)/(1 + iωτ) as [real, imaginary]. */
function slope(omega: number, speed: number, time: number): [number, number] {
  const x = omega * time;
  const scale = omega / speed / (1 + x * x);
  return [scale * x, scale];
}

/** Range of the integration, far beside what the pair and the turbulence do [rad/s]; the ends beyond it are added (eq. 11). */
const LOWEST = 1e-5;
const HIGHEST = 1e5;
/** ω²·Φ falls as ω⁻² behind the lags of the lift in Dryden turbulence, as ω^(−5/3) in von Kármán's. */
const TAIL = { Dryden: 1, "von Karman": 1.5 } as const;

/**
 * Spread of the outputs by integration of their spectra, for either form of turbulence.
 *
 *     σ² = ∫₀^∞ Φ dω,   σ̇² = ∫₀^∞ ω²·Φ dω                                              (README eq. 10)
 *     ends: Φ(0)·ω_low below, the power laws of the filters above                       (README eq. 11)
 *
 * @param rtol  wanted error of each integral [1]
 * @returns as `stationaryResponse`; also ∫₀^∞ Φ² dω, which the sampling error of a simulation needs
 * @throws {BugError} if an integral does not converge
 * @source own derivation, README eq. 10
 * @verified response.test.ts against Lyapunov's equation (Dryden, 1e-6)
 */
export function spectralResponse(
  model: GustModel,
  flight: GustFlight,
  chord: number,
  rtol = 1e-7,
): StationaryResponse & { readonly squareIntegral: Float64Array } {
  const spectra = new ResponseSpectra(model, flight, chord);
  const roots = spectra.roots();
  const largestReal = Math.max(...roots.map(([real]) => real));
  const deviation = new Float64Array(OUTPUT_COUNT);
  const rateDeviation = new Float64Array(OUTPUT_COUNT);
  const squareIntegral = new Float64Array(OUTPUT_COUNT);
  if (!(largestReal < 0)) {
    return { outcome: "grows without rough air", deviation, rateDeviation, largestReal, squareIntegral };
  }
  const out = new Float64Array(OUTPUT_COUNT);
  const { outcome, values } = integrate(
    (x, results) => {
      const omega = Math.exp(x);
      spectra.at(omega, out);
      for (let i = 0; i < OUTPUT_COUNT; i++) {
        results[i] = omega * out[i];
        results[OUTPUT_COUNT + i] = omega ** 3 * out[i];
        results[2 * OUTPUT_COUNT + i] = omega * out[i] ** 2;
      }
    },
    3 * OUTPUT_COUNT,
    resonanceBreaks(LOWEST, HIGHEST, roots),
    rtol,
  );
  if (outcome !== "converged") throw new BugError(`the integral of a response spectrum is ${outcome}`);
  const beyond = TAIL[flight.scales.form] * HIGHEST ** 3;
  const below = new Float64Array(OUTPUT_COUNT);
  spectra.at(LOWEST, below);
  spectra.at(HIGHEST, out);
  for (let i = 0; i < OUTPUT_COUNT; i++) {
    deviation[i] = Math.sqrt(values[i] + LOWEST * below[i]);
    rateDeviation[i] = Math.sqrt(values[OUTPUT_COUNT + i] + beyond * out[i]);
    squareIntegral[i] = values[2 * OUTPUT_COUNT + i];
  }
  return { outcome: "stationary", deviation, rateDeviation, largestReal, squareIntegral };
}
