/** Form of the study `hookon` inside a result file; mirrors `studies/hookon/types.ts`. */
import { HOOKON_OUTCOMES } from "../../studies/hookon/types.ts";
import { findingShape, limitShape } from "./finding-shape.ts";
import { hookonClaimsShape } from "./hookon-claims-shape.ts";
import { type Check, finite, flag, list, nullable, object, oneOf, sameLength, text } from "./shape.ts";

const outcome = oneOf(...HOOKON_OUTCOMES);
const bounds = object({ lower: finite, upper: finite });
const shareForm = { count: finite, of: finite, share_1: finite, exact_1: bounds, score_1: bounds };
const place = list(finite, 3);

const quantity = object({
  ...{ key: text, title: text, unit: text, count: finite },
  ...{ mean: finite, p05: finite, p50: finite, p95: finite, p99: finite, largest: finite, mean3Sigma: finite },
});

const miss = object({
  count: finite,
  ...{ meanRight_m: finite, meanDown_m: finite, sigmaRight_m: finite, sigmaDown_m: finite, correlation_1: finite },
  radius_m: object({ p50: finite, p90: finite, p95: finite, p99: finite }),
  ...{ captureRadius_m: finite, inside_1: finite, normal_1: finite, rayleigh_1: finite },
});

const shown = object({
  index: finite,
  outcome,
  missRight_m: nullable(finite),
  missDown_m: nullable(finite),
  closure_m_s: nullable(finite),
  peakAxial_N: nullable(finite),
});

const oneCase = object({
  ...{ key: text, title: text, sigma: text, sigma_m_s: finite, controller: text, light: nullable(text) },
  ...{ bothAtOnce: flag, samples: finite },
  outcomes: list(object({ ...shareForm, outcome })),
  success: object(shareForm),
  miss: nullable(miss),
  quantities: list(quantity),
  attempts: object({ byShare: nullable(finite), byBound: nullable(finite) }),
  shown: list(shown),
});

const ends = object({ lower_m_s: nullable(finite), upper_m_s: nullable(finite), upperBecause: text });

const window = object({
  closedForm: ends,
  simulated: ends,
  agreement_1: object({ lower: nullable(finite), upper: nullable(finite) }),
  planned_m_s: finite,
  sweep: list(
    object({
      closure_m_s: finite,
      outcome,
      tripped: flag,
      locked: flag,
      peakAxial_N: finite,
      bufferTravel_m: nullable(finite),
    }),
  ),
});

const map = object({
  angle_deg: finite,
  offset_m: list(finite),
  closure_m_s: list(finite),
  outcome: list(list(outcome)),
  captureRadius_m: nullable(finite),
});

const breakaway = object({
  gap_m: finite,
  closing_m_s: finite,
  points: list(object({ reaction_s: finite, alone_m: nullable(finite), both_m: nullable(finite) })),
  planned_m: nullable(finite),
  longestReaction_s: nullable(finite),
});

const HISTORY = ["mouth_m", "head_m", "closure_m_s", "axial_kN", "side_kN", "buffer_mm", "gimbal_deg"];
const replay = sameLength(
  object({
    ...{ case: text, index: finite, outcome, time_s: list(finite), mouth_m: list(place), head_m: list(place) },
    ...{ closure_m_s: list(finite), axial_kN: list(finite), side_kN: list(finite) },
    ...{ buffer_mm: list(finite), gimbal_deg: list(finite) },
    events: list(object({ time_s: finite, what: text })),
  }),
  "time_s",
  HISTORY,
);

export const hookonShape: Check = object({
  study: oneOf("hookon"),
  variant: text,
  point: object({
    ...{ condition: text, mass: text, airspeed_m_s_EAS: finite, altitude_m: finite },
    ...{ boomAngle_deg: finite, mass_kg: finite },
  }),
  ...{ seed: finite, samples: finite, confidence_1: finite, attemptsFor_1: finite, design: text },
  criteria: object({
    ...{ success_1: finite, closure_m_s: finite, windowMargin_m_s: finite, axialLoad_N: finite, sideLoad_N: finite },
    breakawayDistance_m: finite,
  }),
  cases: list(oneCase),
  window,
  maps: list(map),
  breakaway: nullable(breakaway),
  replay: nullable(replay),
  claims: nullable(hookonClaimsShape),
  findings: list(findingShape),
  limits: list(limitShape),
  assumptions: list(text),
  notAnalysed: list(text),
});
