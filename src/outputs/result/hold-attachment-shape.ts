/** Form of the states of attachment of `hold`; mirrors `studies/hold-attachment/types.ts`. */
import { ATTACHMENT_STATES } from "../../studies/hold-attachment/types.ts";
import { modeShape } from "./hold-mode-shape.ts";
import { finite, flag, list, nullable, object, oneOf, sameLength, text } from "./shape.ts";

const plane = oneOf("longitudinal", "lateral");
const state = oneOf(...ATTACHMENT_STATES);
const numbers = list(finite);
const gaps = list(nullable(finite));
const where = { condition: text, mass: text };

const inTime = object({
  outcome: oneOf("persists", "dies out", "diverged"),
  frequency_Hz: finite,
  travel_mm: finite,
  pinLoad_N: finite,
  history: sameLength(object({ time_s: numbers, travel_mm: numbers }), "time_s", ["travel_mm"]),
});

export const attachmentShape = object({
  states: list(
    object({
      ...where,
      boomAngle_deg: finite,
      state,
      outcome: oneOf("trimmed", "no trim"),
      pitch_deg: nullable(finite),
      bank_deg: nullable(finite),
      elevator_deg: nullable(finite),
      loads: nullable(
        object({
          socketForward_N: finite,
          socketUp_N: finite,
          pins: list(object({ name: text, tension_N: finite, lateral_N: finite, up_N: finite })),
          weightShare_1: finite,
        }),
      ),
      modes: list(modeShape),
    }),
  ),
  stroke: list(
    object({
      ...where,
      boomAngle_deg: numbers,
      states: list(object({ state, longitudinal: gaps, lateral: gaps })),
    }),
  ),
  maps: list(
    object({
      ...where,
      plane,
      boomAngle_deg: numbers,
      airspeed_m_s_EAS: numbers,
      worst: numbers,
      boundary: list(list(list(finite, 2))),
    }),
  ),
  rules: list(
    object({
      condition: text,
      plane,
      outcome: oneOf("lost", "stable throughout", "unstable extended"),
      nominal_deg: nullable(finite),
      mass: nullable(text),
      airspeed_m_s_EAS: nullable(finite),
      uncertainty_deg: nullable(finite),
      deviations: finite,
      margin_deg: finite,
      rule_deg: nullable(finite),
      drivers: list(object({ path: text, low_deg: nullable(finite), high_deg: nullable(finite), reached_1: finite })),
    }),
  ),
  limitCycles: list(
    object({
      ...where,
      boomAngle_deg: finite,
      plane,
      outcome: oneOf("none", "found", "no trim", "no clearance"),
      stable: nullable(flag),
      frequency_Hz: nullable(finite),
      travelOverClearance_1: nullable(finite),
      travel_mm: nullable(finite),
      pinLoad_N: nullable(finite),
      inTime: nullable(inTime),
      withFriction: nullable(inTime),
    }),
  ),
});
