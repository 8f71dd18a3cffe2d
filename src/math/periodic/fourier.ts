import { requireLength, requirePositive, requireSize } from "../require.ts";
import type { FourierMotion } from "./types.ts";

/** Values of 1, cos τ, sin τ, cos 2τ, sin 2τ … at equally spaced τ, shape (samples, 2H + 1), row-major. */
export function trigonometricTable(harmonics: number, samples: number): Float64Array {
  const terms = 2 * harmonics + 1;
  const table = new Float64Array(samples * terms);
  for (let j = 0; j < samples; j++) {
    table[j * terms] = 1;
    for (let k = 1; k <= harmonics; k++) {
      const angle = (2 * Math.PI * ((k * j) % samples)) / samples;
      table[j * terms + 2 * k - 1] = Math.cos(angle);
      table[j * terms + 2 * k] = Math.sin(angle);
    }
  }
  return table;
}

/**
 * State of a Fourier motion at a time.
 *
 *     y(t) = C₀ + Σ C_k·cos kωt + S_k·sin kωt                                                (README eq. 1)
 *
 * @param out shape (n), written
 * @throws {DomainError} if the coefficients are no whole number of states
 * @source definition
 * @verified periodic.test.ts
 */
export function motionAt({ omega, coefficients }: FourierMotion, time: number, out: Float64Array): void {
  const n = out.length;
  const terms = coefficients.length / n;
  requireSize("terms of the Fourier sum", terms, 1);
  for (let i = 0; i < n; i++) out[i] = coefficients[i]!;
  for (let k = 1; 2 * k < terms; k++) {
    const [c, s] = [Math.cos(k * omega * time), Math.sin(k * omega * time)];
    for (let i = 0; i < n; i++) {
      out[i] += c * coefficients[(2 * k - 1) * n + i]! + s * coefficients[2 * k * n + i]!;
    }
  }
}

/**
 * A Fourier motion of one harmonic about a mean: the start of a balance.
 *
 * @param mean      shape (n)
 * @param cosine    C₁, shape (n)
 * @param sine      S₁, shape (n)
 * @param of        frequency, parameter, number of harmonics that the balance shall have, ≥ 1
 * @throws {DomainError} if an array is short or the frequency not above zero
 * @source definition
 * @verified periodic.test.ts
 */
export function fourierStart(
  mean: ArrayLike<number>,
  cosine: ArrayLike<number>,
  sine: ArrayLike<number>,
  of: { readonly omega: number; readonly parameter: number; readonly harmonics: number },
): FourierMotion {
  const n = mean.length;
  requireLength("cosine part", cosine.length, n);
  requireLength("sine part", sine.length, n);
  requirePositive("frequency", of.omega);
  requireSize("harmonics", of.harmonics, 1);
  const coefficients = new Float64Array((2 * of.harmonics + 1) * n);
  for (let i = 0; i < n; i++) {
    coefficients[i] = mean[i]!;
    coefficients[n + i] = cosine[i]!;
    coefficients[2 * n + i] = sine[i]!;
  }
  return { omega: of.omega, parameter: of.parameter, coefficients };
}
