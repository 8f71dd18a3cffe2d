/** Rough air: spectra, filters and histories of turbulence, intensities by altitude, discrete gusts. */
export {
  CHART_RANGE,
  exceedanceProbability,
  exceededIntensity,
  type SeverityName,
  severityIntensities,
} from "./chart.ts";
export {
  designGust,
  GRADIENTS,
  gustAlleviation,
  gustLoadFactor,
  massRatio,
  oneMinusCosine,
  oneMinusCosineSlope,
  referenceGust,
} from "./discrete-gust.ts";
export { type GustHistory, gustAt, gustHistory, noiseIntensity } from "./history.ts";
export { liftLag, liftLagResponse } from "./lift-lag.ts";
export { GustSampler } from "./sampler.ts";
export { lowAltitudeIntensity, turbulenceScales } from "./scales.ts";
export { drydenFilter, type GustFilter, NOISES } from "./shaping.ts";
export { acrossSpectrum, alongSpectrum, pitchSpectrum, rollSpectrum, spanLags, yawSpectrum } from "./spectra.ts";
export type { GustFlight, SpectrumForm, TurbulenceDocument, TurbulenceScales } from "./types.ts";
