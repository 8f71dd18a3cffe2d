/** Fixture: states of attachment of the made-up pair. Not physics. */
import type {
  AttachmentResult,
  AttachmentState,
  LimitCycle,
  PoseMap,
  RetractRule,
} from "../../studies/hold-attachment/types.ts";
import { fixtureModes } from "./fixture-modes.ts";
import { fixtureState } from "./fixture-result.ts";

const STATES: readonly AttachmentState[] = ["free", "single point", "left aft pin", "three point"];
const ANGLES = [14, 24, 34, 44, 52];
const SPEEDS = [95, 105, 115, 125];

const map = (plane: PoseMap["plane"]): PoseMap => ({
  ...{ condition: "hook", mass: "full", plane, boomAngle_deg: ANGLES, airspeed_m_s_EAS: SPEEDS },
  worst: SPEEDS.flatMap((speed) => ANGLES.map((angle) => (angle - 40) / 100 + (speed - 105) / 500)),
  boundary: [[[45, 95] as const, [40, 105] as const, [32, 125] as const]],
});

const rule: RetractRule = {
  ...{ condition: "hook", plane: "longitudinal", outcome: "lost", nominal_deg: 45.2, mass: "full" },
  ...{ airspeed_m_s_EAS: 95, uncertainty_deg: 2.5, deviations: 2, margin_deg: 2, rule_deg: 50 },
  drivers: [{ path: "mechanism.accumulator.stiffness", low_deg: 43.9, high_deg: 47.5, reached_1: 1 }],
};
const run = {
  ...{ outcome: "persists" as const, frequency_Hz: 0.9, travel_mm: 0.17, pinLoad_N: 222 },
  history: { time_s: [0, 0.5], travel_mm: [0.1, -0.1] },
};
const cycle: LimitCycle = {
  ...{ condition: "hook", mass: "full", boomAngle_deg: 14, plane: "longitudinal", outcome: "found", stable: true },
  ...{ frequency_Hz: 0.93, travelOverClearance_1: 1.1, travel_mm: 0.165, pinLoad_N: 67, inTime: run },
  withFriction: { ...run, outcome: "dies out" },
};

export function fixtureAttachment(): AttachmentResult {
  const modes = fixtureModes(fixtureState("Rev B"));
  return {
    states: STATES.map((state) => ({
      ...{ condition: "hook", mass: "full", boomAngle_deg: 52, state },
      outcome: state === "left aft pin" ? "no trim" : "trimmed",
      ...(state === "left aft pin"
        ? { pitch_deg: null, bank_deg: null, elevator_deg: null }
        : { pitch_deg: 1, bank_deg: 0, elevator_deg: 0 }),
      loads:
        state === "three point"
          ? {
              ...{ socketForward_N: -4900, socketUp_N: 2446, weightShare_1: 0.42 },
              pins: [{ name: "left", tension_N: 5272, lateral_N: 0, up_N: 4126 }],
            }
          : null,
      modes: state === "left aft pin" ? [] : modes,
    })),
    stroke: [
      {
        ...{ condition: "hook", mass: "full", boomAngle_deg: ANGLES },
        states: STATES.slice(1).map((state, i) => ({
          state,
          longitudinal: ANGLES.map((angle) => (i === 1 && angle < 20 ? null : (angle - 40) / 100 + 0.1 * i)),
          lateral: ANGLES.map(() => 0.02 + 0.01 * i),
        })),
      },
    ],
    maps: [map("longitudinal"), map("lateral")],
    rules: [
      rule,
      {
        ...{ ...rule, plane: "lateral", outcome: "stable throughout", nominal_deg: null, mass: null, rule_deg: null },
        ...{ airspeed_m_s_EAS: null, uncertainty_deg: null },
        drivers: [{ path: "carried.airloads.roll.Clbeta", low_deg: null, high_deg: 14, reached_1: 1 }],
      },
    ],
    limitCycles: [
      cycle,
      {
        ...cycle,
        plane: "lateral",
        outcome: "none",
        stable: null,
        frequency_Hz: null,
        travelOverClearance_1: null,
        travel_mm: null,
        pinLoad_N: null,
        inTime: null,
        withFriction: null,
      },
    ],
  };
}
