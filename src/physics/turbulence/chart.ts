import { DomainError } from "../../math/errors.ts";
import { linear } from "../../math/interpolate/index.ts";
import { EXCEEDANCE, SEVERITY } from "./chart.table.ts";

const FOOT = 0.3048;

export type SeverityName = keyof typeof SEVERITY;

/** Range of altitude of the chart [m]. */
export const CHART_RANGE = {
  from: EXCEEDANCE.altitudes[0] * FOOT,
  to: EXCEEDANCE.altitudes[EXCEEDANCE.altitudes.length - 1] * FOOT,
} as const;

/** σ [m/s] at an altitude for each probability of the chart. */
function column(altitude: number): number[] {
  if (!(altitude >= CHART_RANGE.from && altitude <= CHART_RANGE.to)) {
    throw new DomainError("altitude of the intensity chart", altitude, `${CHART_RANGE.from} to ${CHART_RANGE.to} m`);
  }
  // the ends of the range survive a conversion that rounds
  const feet = Math.min(EXCEEDANCE.altitudes.at(-1)!, Math.max(EXCEEDANCE.altitudes[0], altitude / FOOT));
  return EXCEEDANCE.probabilities.map(
    (_, k) =>
      FOOT *
      linear(
        EXCEEDANCE.altitudes,
        EXCEEDANCE.sigma.map((row) => row[k]),
        feet,
      ),
  );
}

/**
 * Intensity that is exceeded with a probability: straight lines in altitude and in the logarithm of the probability.
 *
 * @param altitude     [m], within the chart (500 to 80 000 ft)
 * @param probability  0.2 down to 1e-6 [1]
 * @returns σ [m/s]
 * @throws {DomainError} outside the chart
 * @source published/mil-turbulence-exceedance; interpolation: README eq. 12
 * @verified chart.test.ts: every row of the chart, the other digitisation at 37 000 ft
 */
export function exceededIntensity(altitude: number, probability: number): number {
  const { probabilities } = EXCEEDANCE;
  if (!(probability <= probabilities[0] && probability >= probabilities[probabilities.length - 1])) {
    throw new DomainError("probability of exceedance", probability, "0.2 down to 1e-6");
  }
  const exponents = probabilities.map((p) => -Math.log10(p));
  return linear(
    exponents,
    column(altitude),
    Math.min(exponents.at(-1)!, Math.max(exponents[0], -Math.log10(probability))),
  );
}

/** σ [m/s] of the named severities at an altitude; arguments and errors as of `exceededIntensity`. */
export function severityIntensities(altitude: number): Readonly<Record<SeverityName, number>> {
  return {
    light: exceededIntensity(altitude, SEVERITY.light),
    moderate: exceededIntensity(altitude, SEVERITY.moderate),
    severe: exceededIntensity(altitude, SEVERITY.severe),
  };
}

/**
 * Probability that the turbulence at an altitude is stronger than σ, inverse of `exceededIntensity`.
 *
 * @param sigma [m/s], ≥ 0
 * @returns between 1e-6 and 0.2; the ends also for what lies beyond them
 * @throws {DomainError} outside the altitudes of the chart
 * @source published/mil-turbulence-exceedance
 * @verified chart.test.ts: inverse
 */
export function exceedanceProbability(altitude: number, sigma: number): number {
  const sigmas = column(altitude);
  const { probabilities } = EXCEEDANCE;
  for (let k = 0; k + 1 < sigmas.length; k++) {
    if (sigma >= sigmas[k + 1] || sigmas[k + 1] === sigmas[k]) continue;
    if (sigma < sigmas[k]) return probabilities[0];
    const share = (sigma - sigmas[k]) / (sigmas[k + 1] - sigmas[k]);
    return probabilities[k] * (probabilities[k + 1] / probabilities[k]) ** share;
  }
  return probabilities[probabilities.length - 1];
}
