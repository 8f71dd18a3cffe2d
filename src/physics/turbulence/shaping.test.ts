import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { luFactor, luSolve } from "../../math/dense/index.ts";
import { DomainError } from "../../math/errors.ts";
import { lyapunov } from "../../math/lyapunov/index.ts";
import {
  acrossSpectrum,
  alongSpectrum,
  drydenFilter,
  type GustFilter,
  type GustFlight,
  liftLag,
  liftLagResponse,
  NOISES,
  noiseIntensity,
  pitchSpectrum,
  rollSpectrum,
  turbulenceScales,
  yawSpectrum,
} from "./index.ts";

const flight = (document: "MIL-F-8785C" | "MIL-HDBK-1797", height = 3000): GustFlight => ({
  scales: turbulenceScales(document, "Dryden", height),
  sigma: 1.3,
  speed: 122,
  span: 7.4,
});

/** One-sided spectra of the six outputs at ω, Σ|C(iω − A)⁻¹B|²/π, and the phase of q and r against w and v. */
function spectraOf(filter: GustFilter, omega: number) {
  const n = filter.size;
  const M = new Float64Array(4 * n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      M[2 * n * i + j] = -filter.A[i * n + j]!;
      M[2 * n * (n + i) + n + j] = -filter.A[i * n + j]!;
    }
    M[2 * n * i + n + i] = -omega;
    M[2 * n * (n + i) + i] = omega;
  }
  const pivots = new Int32Array(2 * n);
  expect(luFactor(M, 2 * n, pivots)).toBe(true);
  const power = new Float64Array(6);
  const cross = { q: 0, r: 0 };
  for (let k = 0; k < NOISES; k++) {
    const x = new Float64Array(2 * n);
    for (let i = 0; i < n; i++) x[i] = filter.B[i * NOISES + k]!;
    luSolve(M, 2 * n, pivots, x);
    const out = Array.from({ length: 6 }, (_, i) => {
      let re = 0;
      let im = 0;
      for (let j = 0; j < n; j++) {
        re += filter.C[i * n + j]! * x[j]!;
        im += filter.C[i * n + j]! * x[n + j]!;
      }
      return [re, im] as const;
    });
    out.forEach(([re, im], i) => {
      power[i]! += (re * re + im * im) / Math.PI;
    });
    // imaginary part of q·w* and r·v*
    cross.q += out[4]![1] * out[2]![0] - out[4]![0] * out[2]![1];
    cross.r += out[5]![1] * out[1]![0] - out[5]![0] * out[1]![1];
  }
  return { power, cross };
}

describe("Dryden filters", () => {
  it.each(["MIL-F-8785C", "MIL-HDBK-1797"] as const)(
    "%s: spectra of all six components at three heights",
    (document) => {
      for (const height of [120, 450, 3000]) {
        const at = flight(document, height);
        const filter = drydenFilter(at);
        for (const omega of [0.003, 0.1, 1, 12, 90]) {
          const { power } = spectraOf(filter, omega);
          const wanted = [
            alongSpectrum(at, omega),
            acrossSpectrum(at, "v", omega),
            acrossSpectrum(at, "w", omega),
            rollSpectrum(at, omega),
            pitchSpectrum(at, omega),
            yawSpectrum(at, omega),
          ];
          wanted.forEach((value, i) => {
            expectClose(power[i]!, value, { rtol: 1e-9, why: "same function" }, `component ${i} at ${omega}`);
          });
        }
      }
    },
  );

  it("variance of each velocity by Lyapunov is σ²", () => {
    const at = flight("MIL-HDBK-1797", 200);
    const filter = drydenFilter(at);
    const { outcome, matrix } = lyapunov(filter.A, noiseIntensity(filter), filter.size);
    expect(outcome).toBe("solved");
    const n = filter.size;
    const variance = (i: number): number => {
      let sum = 0;
      for (let j = 0; j < n; j++)
        for (let k = 0; k < n; k++) sum += filter.C[i * n + j]! * matrix[j * n + k]! * filter.C[i * n + k]!;
      return sum;
    };
    const close = { rtol: 1e-10, why: "closed form" };
    expectClose(variance(0), (1.3 * at.scales.uOverW) ** 2, close);
    expectClose(variance(1), (1.3 * at.scales.vOverW) ** 2, close);
    expectClose(variance(2), 1.3 ** 2, close);
  });

  it("signs: the air pitches by q = −∂w/∂x and yaws by r = ∂v/∂x along a frozen field", () => {
    const { cross } = spectraOf(drydenFilter(flight("MIL-F-8785C")), 0.5);
    expect(cross.q).toBeLessThan(0);
    expect(cross.r).toBeGreaterThan(0);
  });

  it("with a chord every component passes the lags of the lift", () => {
    const at = flight("MIL-F-8785C");
    for (const omega of [0.1, 5, 60]) {
      const [re, im] = liftLagResponse(liftLag(at.speed, 1.2), omega);
      const bare = spectraOf(drydenFilter(at), omega).power;
      spectraOf(drydenFilter(at, 1.2), omega).power.forEach((value, i) => {
        expectClose(value, bare[i]! * (re * re + im * im), { rtol: 1e-9, why: "series of two filters" });
      });
    }
  });

  it("has no linear filter for von Kármán", () => {
    const scales = turbulenceScales("MIL-F-8785C", "von Karman", 3000);
    expect(() => drydenFilter({ ...flight("MIL-F-8785C"), scales })).toThrow(DomainError);
  });
});
