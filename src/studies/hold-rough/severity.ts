import {
  CHART_RANGE,
  exceedanceProbability,
  lowAltitudeIntensity,
  type SeverityName,
  severityIntensities,
} from "../../physics/turbulence/index.ts";
import { type Limited, largestSigma } from "./bands.ts";
import type { RoughAirInputs } from "./settings.ts";
import type { RoughAirAnswer, RoughAirCondition } from "./types.ts";

/** Named severities at the altitude of a condition. */
export interface ChartedAir {
  readonly severities: readonly { readonly name: SeverityName; readonly sigma: number }[];
  readonly source: string;
  /** Probability that σ [m/s] is exceeded; `null` where the chart does not say. */
  readonly exceedance: (sigma: number) => number | null;
}

const FOOT = 0.3048;
const KNOT = 1852 / 3600;
/** Wind at 20 ft of each severity [kt]. */
const WIND = { light: 15, moderate: 30, severe: 45 } as const;
const NAMES: readonly SeverityName[] = ["light", "moderate", "severe"];

/**
 * Severities by the wind at 20 ft below 1000 ft above ground, by the chart above; none above the chart.
 *
 * @param altitude  of the condition [m]
 * @param height    above ground [m]
 */
export function chartedAir(altitude: number, height: number): ChartedAir {
  if (height < 1000 * FOOT) {
    return {
      severities: NAMES.map((name) => ({ name, sigma: lowAltitudeIntensity(WIND[name] * KNOT) })),
      source: "σ = 0.1·W20, W20 15, 30 and 45 kt (MIL-F-8785C, low altitude)",
      exceedance: () => null,
    };
  }
  if (altitude < CHART_RANGE.from || altitude > CHART_RANGE.to) {
    return { severities: [], source: "outside the intensity chart", exceedance: () => null };
  }
  const intensities = severityIntensities(altitude);
  return {
    severities: NAMES.map((name) => ({ name, sigma: intensities[name] })).filter(({ sigma }) => sigma > 0),
    source: "intensity chart of MIL-F-8785C: exceeded with probability 1e-2, 1e-3, 1e-5",
    exceedance: (sigma) => exceedanceProbability(altitude, sigma),
  };
}

export function severitiesOf(chart: ChartedAir): RoughAirCondition["severities"] {
  const of = (name: SeverityName): number => chart.severities.find((one) => one.name === name)?.sigma ?? 0;
  if (chart.severities.length === 0) return null;
  return { light_m_s: of("light"), moderate_m_s: of("moderate"), severe_m_s: of("severe"), source: chart.source };
}

/** The largest σ that all limits together allow, with its name and what gives way first. */
export function answerOf(settings: RoughAirInputs, limited: readonly Limited[], chart: ChartedAir): RoughAirAnswer {
  const { probability, timeHooked } = settings;
  const sigma = largestSigma(limited, probability, timeHooked);
  const alone = limited.map((one) => ({ key: one.key, sigma: largestSigma([one], probability, timeHooked) }));
  const limiting = alone.reduce((least, one) => (one.sigma < least.sigma ? one : least)).key;
  const reached = chart.severities.filter((one) => one.sigma <= sigma).at(-1);
  return {
    sigma_m_s: sigma,
    limiting,
    severity: chart.severities.length === 0 ? null : (reached?.name ?? "below light"),
    exceedance_1: chart.exceedance(sigma),
  };
}
