/** Form of the part "rough air" inside a result file; mirrors `studies/hold-rough/types.ts`. */
import { type Check, dictionary, finite, list, nullable, object, oneOf, sameLength, text } from "./shape.ts";

const numbers = list(finite);
const gap = nullable(finite);

const quantity = object({
  key: text,
  title: text,
  unit: text,
  mean: finite,
  deviationPerSigma: finite,
  crossings_1_s: finite,
  limit: nullable(object({ lower: gap, upper: gap, source: text })),
  largestSigma_m_s: gap,
});

const level = object({
  name: text,
  origin: oneOf("project", "chart"),
  sigma_m_s: finite,
  probability_1: finite,
  rows: list(object({ key: text, deviation: finite, lower: finite, upper: finite, exits_1_h: gap })),
});

const gusts = object({
  reference_m_s_EAS: finite,
  alleviation_1: finite,
  gradients_m: numbers,
  rows: list(
    object({
      key: text,
      direction: oneOf("vertical", "lateral"),
      gradient_m: finite,
      time_s: finite,
      distance: finite,
      share_1: gap,
      byGradient: numbers,
    }),
  ),
});

const check = object({
  outcome: oneOf("completed", "left", "too stiff to simulate"),
  sigma_m_s: finite,
  seeds: finite,
  time_s: finite,
  rows: list(object({ key: text, computed: finite, simulated: finite, linear: finite, samplingError_1: finite })),
  integralDifference_1: finite,
});

const point = object({
  id: text,
  condition: text,
  mass: text,
  outcome: oneOf("stationary", "grows without rough air", "no trim"),
  timeToDouble_s: gap,
  quantities: list(quantity),
  levels: list(level),
  answer: nullable(object({ sigma_m_s: finite, limiting: text, severity: nullable(text), exceedance_1: gap })),
  probability: sameLength(object({ sigma_m_s: numbers, any_1: numbers, alone_1: dictionary(numbers) }), "sigma_m_s", [
    "any_1",
  ]),
  exceedance: object({ share_1: numbers, perHour: dictionary(numbers) }),
  spectra: sameLength(
    object({ frequency_Hz: numbers, pitch_deg2_Hz: numbers, bank_deg2_Hz: numbers, tip_mm2_Hz: numbers }),
    "frequency_Hz",
    ["pitch_deg2_Hz", "bank_deg2_Hz", "tip_mm2_Hz"],
  ),
  gusts: nullable(gusts),
  check: nullable(check),
});

const severities = object({ light_m_s: finite, moderate_m_s: finite, severe_m_s: finite, source: text });

export const roughAirShape: Check = object({
  document: oneOf("MIL-F-8785C", "MIL-HDBK-1797"),
  spectrum: oneOf("Dryden", "von Karman"),
  timeHooked_s: finite,
  probability_1: finite,
  design: object({ name: text, sigma_m_s: finite }),
  conditions: list(
    object({
      condition: text,
      height_m: finite,
      Lu_m: finite,
      Lv_m: finite,
      Lw_m: finite,
      severities: nullable(severities),
    }),
  ),
  points: list(point),
});
