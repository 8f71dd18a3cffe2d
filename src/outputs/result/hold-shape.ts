/** Form of the study `hold` inside a result file; mirrors `studies/hold/types.ts`. */
import type { Issue } from "../../math/errors.ts";
import { findingShape, limitShape } from "./finding-shape.ts";
import { modeShape } from "./hold-mode-shape.ts";
import { holdPartsShape } from "./hold-parts-shape.ts";
import { type Check, finite, list, nullable, object, oneOf, optional, sameLength, text } from "./shape.ts";

const plane = oneOf("longitudinal", "lateral");
const modeClass = oneOf("rigid-body-type", "structural");
const numbers = list(finite);
const gaps = list(nullable(finite));

const trim = object({
  alpha_deg: finite,
  elevator_deg: finite,
  aileron_deg: finite,
  rudder_deg: finite,
  towLoad_N: finite,
  lift_N: finite,
  supportLoad_N: finite,
  tipAxialLoad_N: finite,
  tipTangentialLoad_N: finite,
  jackLoad_N: finite,
  unloadedBoomAngle_deg: finite,
  liftCoefficient: finite,
  stallMargin: finite,
});

const point = object({
  id: text,
  condition: text,
  mass: text,
  airspeed_m_s_EAS: finite,
  airspeed_m_s_TAS: finite,
  altitude_m: finite,
  density_kg_m3: finite,
  boomAngle_deg: finite,
  weightShare_1: finite,
  bendingStiffness_N_m: finite,
  accumulatorStiffness_N_m: finite,
  snubberRate_N_s_m: finite,
  outcome: oneOf("trimmed", "no trim", "stalled"),
  trim: nullable(trim),
  modes: list(modeShape),
});

const track = object({
  name: text,
  class: modeClass,
  plane,
  real_1_s: gaps,
  imag_rad_s: gaps,
  dampingRatio: gaps,
});

const sweepForm = object({
  id: text,
  title: text,
  axis: object({ label: text, unit: text, scale: oneOf("linear", "log") }),
  condition: text,
  mass: text,
  values: numbers,
  at: finite,
  tracks: list(track),
});

/** Every track must be as long as the swept values. */
const sweep: Check = (value, path, issues) => {
  const before = issues.length;
  sweepForm(value, path, issues);
  if (issues.length > before) return;
  const { values, tracks } = value as {
    values: readonly number[];
    tracks: readonly Record<"real_1_s" | "imag_rad_s" | "dampingRatio", readonly unknown[]>[];
  };
  tracks.forEach((one, i) => {
    for (const name of ["real_1_s", "imag_rad_s", "dampingRatio"] as const) {
      if (one[name].length !== values.length) {
        issues.push({
          path: `${path}.tracks[${i}].${name}`,
          message: "has the wrong length",
          value: String(one[name].length),
          allowed: `${values.length}, as in values`,
        });
      }
    }
  });
};

const axis = object({ label: text, unit: text, values: numbers });
const mapForm = object({
  id: text,
  title: text,
  condition: text,
  mass: text,
  x: axis,
  y: axis,
  plane,
  worst: numbers,
  boundaries: list(object({ level: finite, lines: list(list(list(finite, 2))) })),
  marks: list(object({ label: text, x: finite, y: finite })),
});

/** The grid of a map must be full. */
const map: Check = (value, path, issues: Issue[]) => {
  const before = issues.length;
  mapForm(value, path, issues);
  if (issues.length > before) return;
  const { x, y, worst } = value as { x: { values: number[] }; y: { values: number[] }; worst: number[] };
  const cells = x.values.length * y.values.length;
  if (worst.length !== cells) {
    issues.push({
      path: `${path}.worst`,
      message: "has the wrong length",
      value: String(worst.length),
      allowed: `${cells}, the product of its axes`,
    });
  }
};

const snubber = sameLength(
  object({
    mass: text,
    rate_N_s_m: numbers,
    worstDampingRatio: numbers,
    optimum: object({ rate_N_s_m: finite, dampingRatio: finite, atAirspeed_m_s_EAS: finite }),
    at_N_s_m: finite,
  }),
  "rate_N_s_m",
  ["worstDampingRatio"],
);

const interval = object({ from_N_m: finite, to_N_m: nullable(finite) });
const stiffness = object({
  mass: text,
  criterion_1: finite,
  stable: list(interval),
  meetsCriterion: list(interval),
  headline_N_m: nullable(finite),
  classChanges_N_m: list(finite),
  curve: sameLength(object({ stiffness_N_m: numbers, worstDampingRatio: numbers }), "stiffness_N_m", [
    "worstDampingRatio",
  ]),
});

const pilotTime = object({
  pointId: text,
  plane,
  outcome: oneOf("limit reached", "stays inside", "diverged elsewhere"),
  time_s: nullable(finite),
  linearEstimate_s: nullable(finite),
  upset_deg: finite,
  limit_deg: finite,
  history: sameLength(object({ time_s: numbers, angle_deg: numbers }), "time_s", ["angle_deg"]),
});

export const holdShape: Check = object({
  study: oneOf("hold"),
  variant: text,
  points: list(point),
  sweeps: list(sweep),
  maps: list(map),
  snubber: list(snubber),
  stiffness: list(stiffness),
  pilotTime: list(pilotTime),
  findings: list(findingShape),
  limits: list(limitShape),
  assumptions: list(text),
  notAnalysed: list(text),
  parts: optional(holdPartsShape),
  partsAsked: optional(list(text)),
});
