import type { ComplexOfFrequency, TangentialRates } from "../../physics/snubber/index.ts";
import type { PointModel } from "../hold/index.ts";

/**
 * What the linear pair puts against a motion of the snubber: the force on it over minus its speed, Z(iω) [N·s/m].
 *
 * The matrix A of the pair depends on the rate c of the snubber in one rank over (c + c_b), so that
 *
 *     D(s, c) = (c + c_b)·det(s − A(c)) = α(s) + c·β(s),   Z = α/β                             (README eq. 7)
 *
 * and two rates give Z exactly. A neutral rate c at ω is Z(iω) = −c.
 *
 * @param rates path; its snubber rate is not used
 * @param rate  a rate of the size that matters [N·s/m], > 0
 * @source own derivation, README eq. 7
 * @verified hold-snubber.test.ts (zero of Z + c at every neutral rate)
 */
export function impedanceOf(model: PointModel, rates: TangentialRates, rate: number): ComplexOfFrequency {
  const [low, high] = [0.5 * rate, 2 * rate];
  const { matrix: a, size } = model.matrix({ ...rates, snubber: low });
  const { matrix: b } = model.matrix({ ...rates, snubber: high });
  const work = new Float64Array(2 * size * size);
  const one = new Float64Array(3);
  const two = new Float64Array(3);
  return (omega, out) => {
    shiftedDeterminant(a, size, omega, work, one);
    shiftedDeterminant(b, size, omega, work, two);
    // both share the scale of the first
    const share = 2 ** (two[2] - one[2]);
    const d1 = [(low + rates.bendingDamping) * one[0], (low + rates.bendingDamping) * one[1]];
    const d2 = [(high + rates.bendingDamping) * share * two[0], (high + rates.bendingDamping) * share * two[1]];
    const beta = [(d2[0] - d1[0]) / (high - low), (d2[1] - d1[1]) / (high - low)];
    const alpha = [d1[0] - low * beta[0], d1[1] - low * beta[1]];
    const square = beta[0] ** 2 + beta[1] ** 2;
    out[0] = (alpha[0] * beta[0] + alpha[1] * beta[1]) / square;
    out[1] = (alpha[1] * beta[0] - alpha[0] * beta[1]) / square;
  };
}

/** det(iω − A) as mantissa [re, im] and power of two, by elimination with row exchange. */
function shiftedDeterminant(a: Float64Array, n: number, omega: number, m: Float64Array, out: Float64Array): void {
  for (let i = 0; i < n * n; i++) {
    m[2 * i] = -a[i];
    m[2 * i + 1] = 0;
  }
  for (let i = 0; i < n; i++) m[2 * (i * n + i) + 1] = omega;
  let re = 1;
  let im = 0;
  let power = 0;
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) if (sizeAt(m, i * n + k) > sizeAt(m, pivot * n + k)) pivot = i;
    if (pivot !== k) {
      [re, im] = [-re, -im];
      for (let j = 2 * k; j < 2 * n; j++) {
        const kept = m[2 * k * n + j];
        m[2 * k * n + j] = m[2 * pivot * n + j];
        m[2 * pivot * n + j] = kept;
      }
    }
    const pr = m[2 * (k * n + k)];
    const pi = m[2 * (k * n + k) + 1];
    [re, im] = [re * pr - im * pi, re * pi + im * pr];
    const exponent = Math.floor(Math.log2(Math.max(Math.abs(re), Math.abs(im), Number.MIN_VALUE)));
    re /= 2 ** exponent;
    im /= 2 ** exponent;
    power += exponent;
    const square = pr * pr + pi * pi;
    if (square === 0) break;
    for (let i = k + 1; i < n; i++) {
      const at = 2 * (i * n + k);
      const fr = (m[at] * pr + m[at + 1] * pi) / square;
      const fi = (m[at + 1] * pr - m[at] * pi) / square;
      if (fr === 0 && fi === 0) continue;
      for (let j = k + 1; j < n; j++) {
        const to = 2 * (i * n + j);
        const from = 2 * (k * n + j);
        m[to] -= fr * m[from] - fi * m[from + 1];
        m[to + 1] -= fr * m[from + 1] + fi * m[from];
      }
    }
  }
  out[0] = re;
  out[1] = im;
  out[2] = power;
}

function sizeAt(m: Float64Array, i: number): number {
  return Math.abs(m[2 * i]) + Math.abs(m[2 * i + 1]);
}
