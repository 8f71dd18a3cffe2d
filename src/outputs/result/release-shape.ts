/** Form of the study `release` inside a result file; mirrors `studies/release/types.ts`. */
import { RELEASE_OUTCOMES } from "../../studies/release/types.ts";
import { findingShape, limitShape } from "./finding-shape.ts";
import { type Check, finite, flag, list, nullable, object, oneOf, sameLength, text } from "./shape.ts";

const outcome = oneOf(...RELEASE_OUTCOMES);
const number = nullable(finite);

const COURSE = ["aft_m", "right_m", "below_m", "pitch_deg", "bank_deg", "distance_m"];
const course = sameLength(
  object({
    ...{ time_s: list(finite), aft_m: list(finite), right_m: list(finite), below_m: list(finite) },
    ...{ pitch_deg: list(finite), bank_deg: list(finite), distance_m: list(number) },
  }),
  "time_s",
  COURSE,
);

const oneCase = object({
  ...{ name: text, what: text, mass: text, boomAngle_deg: finite },
  attachment: oneOf("three point", "single point"),
  outcome,
  withdrawal: nullable(oneOf("held", "withdrawn", "cut", "hang-up")),
  ...{ leftAt_s: number, noseAt_s: number, exitSpeed_m_s: number, exitPitchRate_deg_s: number },
  ...{ offered_N: number, needed_N: number, clearance_m: number, clearanceAt_s: number },
  nearest: nullable(object({ carried: text, other: text })),
  ...{ carrierLoadFactor_1: number, carrierPitch_deg: number },
  proximity: oneOf("inside", "left the grid", "no data"),
  course,
});

const edge = object({
  mass: text,
  quantity: oneOf("airspeed", "thrust"),
  limit: number,
  unit: oneOf("m/s EAS", "N"),
  wholeRange: flag,
  because: nullable(outcome),
});

const envelope = sameLength(
  object({
    ...{ mass: text, airspeed_m_s_EAS: list(finite), loadFactor_1: list(finite) },
    outcome: list(list(outcome)),
    clearance_m: list(list(number)),
  }),
  "loadFactor_1",
  ["outcome", "clearance_m"],
);

const three = nullable(object({ p05: finite, p50: finite, p95: finite }));
const batch = object({
  ...{ key: text, sigma: text, sigma_m_s: finite, mass: text, samples: finite },
  outcomes: list(object({ outcome, count: finite })),
  clean: object({ count: finite, of: finite, share_1: finite, lower_1: finite, upper_1: finite }),
  ...{ clearance_m: three, exitSpeed_m_s: three },
  band: sameLength(
    object({ time_s: list(finite), p05_m: list(finite), p50_m: list(finite), p95_m: list(finite) }),
    "time_s",
    ["p05_m", "p50_m", "p95_m"],
  ),
});

const hangUp = object({
  ...{ left: text, mass: text, outcome: oneOf("balanced", "no balance"), bank_deg: number, socketLoad_N: number },
  pins: list(object({ name: text, tension_N: finite, lateral_N: finite })),
  ...{ worstMode: nullable(text), dampingRatio_1: number, timeToDouble_s: number },
  waysOut: list(object({ way: text, outcome })),
});

const landing = object({ along_m: finite, right_m: finite, time_s: finite, speed_m_s: finite });
const fall = object({
  ...{ thing: text, height_m: finite, terminal_m_s: finite, still: landing, inWind: landing },
  footprint: object({ along_m: finite, right_m: finite, halfAlong_m: finite, halfRight_m: finite }),
});

const carrier = sameLength(
  object({
    ...{ mass: text, closedForm_1: number, loadFactor_1: number, pitch_deg: number, trimMoment_N_m: number },
    ...{ time_s: list(finite), loadFactorCourse_1: list(finite), pitchCourse_deg: list(finite) },
  }),
  "time_s",
  ["loadFactorCourse_1", "pitchCourse_deg"],
);

const outlines = list(list(list(finite, 2)));
const strip = object({
  ...{ case: text, mass: text },
  still: object({ side: outlines, rear: outlines }),
  frames: list(object({ time_s: finite, side: outlines, rear: outlines })),
});

export const releaseShape: Check = object({
  study: oneOf("release"),
  variant: text,
  point: object({
    ...{ condition: text, airspeed_m_s_EAS: finite, altitude_m: finite },
    boomAngles_deg: list(finite),
    masses: list(text),
  }),
  ...{ seed: finite, design: text },
  criteria: object({
    ...{ clearance_m: finite, exitSpeed_m_s: finite, exitPitchRate_deg_s: finite, clean_1: finite },
    ...{ confidence_1: finite, carrierLoadFactor_1: finite },
  }),
  cases: list(oneCase),
  edges: list(edge),
  envelopes: list(envelope),
  limiting: nullable(text),
  batches: list(batch),
  hangUps: list(hangUp),
  jettison: list(fall),
  stub: nullable(object({ length_m: finite, clearance_m: number, aboveLowest_m: number })),
  paths: list(object({ path: text, mass: text, command_s: number, free_s: number, clear_s: number, outcome })),
  carrier: list(carrier),
  strips: list(strip),
  findings: list(findingShape),
  limits: list(limitShape),
  assumptions: list(text),
  notAnalysed: list(text),
});
