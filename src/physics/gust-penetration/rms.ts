import { PENETRATION_OUTPUTS, type PenetrationModel } from "./penetration-model.ts";

/** Points of the quadrature over the logarithm of the frequency. */
const POINTS = 401;

/**
 * RMS of each output in a vertical gust of a given spectrum that both aircraft meet, the carried one a lag later.
 *
 *     σ_y² = ∫ |G(iω)|²·Φ(ω) dω over [ω₁, ω₂], trapezoids in ln ω                              (README eq. 5)
 *
 * @param lag      τ [s]
 * @param spectrum Φ, one-sided in ω [(m/s)²/(rad/s)]
 * @param from     ω₁ [rad/s], > 0
 * @param to       ω₂ [rad/s], larger
 * @returns in the order of `PENETRATION_OUTPUTS`, shape (m)
 * @source own derivation, README eq. 5
 * @verified penetration.test.ts (two uncorrelated gusts far apart, refinement)
 * @cost 401 responses
 */
export function penetrationRms(
  model: PenetrationModel,
  lag: number,
  spectrum: (omega: number) => number,
  from: number,
  to: number,
): number[] {
  const m = PENETRATION_OUTPUTS.length;
  const out = new Float64Array(2 * m);
  const sum = new Array<number>(m).fill(0);
  const step = Math.log(to / from) / (POINTS - 1);
  for (let i = 0; i < POINTS; i++) {
    const omega = from * Math.exp(i * step);
    const weight = (i === 0 || i === POINTS - 1 ? 0.5 : 1) * step * omega * spectrum(omega);
    model.response(omega, lag, out);
    for (let k = 0; k < m; k++) sum[k] += weight * (out[2 * k] ** 2 + out[2 * k + 1] ** 2);
  }
  return sum.map(Math.sqrt);
}
