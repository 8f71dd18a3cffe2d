/** Form of the part `control` of `hold` inside a result file; mirrors `studies/hold-control/types.ts`. */
import {
  ACTIONS,
  ATTACHMENT_STATES,
  FAILURE_KINDS,
  GAIN_SETS,
  LIMIT_NAMES,
  LOOP_NAMES,
  RECOVERY_OUTCOMES,
  SURFACES,
} from "../../studies/hold-control/types.ts";
import { type Check, finite, flag, list, nullable, object, oneOf, sameLength, text } from "./shape.ts";

const number = nullable(finite);
const place = { condition: text, mass: text, state: oneOf(...ATTACHMENT_STATES), gains: oneOf(...GAIN_SETS) };
const limit = nullable(oneOf(...LIMIT_NAMES));
const plane = oneOf("longitudinal", "lateral");

const curve = sameLength(
  object({ omega_rad_s: list(finite), gain_dB: list(finite), phase_deg: list(finite) }),
  "omega_rad_s",
  ["gain_dB", "phase_deg"],
);

const loop = object({
  ...place,
  ...{ loop: oneOf(...LOOP_NAMES), functions: list(text), stable: flag },
  ...{
    growingRootsOpen: finite,
    growingRoots: finite,
    growingRootsExact: number,
    gainIncrease_1: number,
    gainDecrease_1: number,
  },
  ...{ phaseMargin_deg: number, delayMargin_s: number, crossover_rad_s: number, closest_1: finite },
  curve: nullable(curve),
});

const pilot = object({
  ...place,
  ...{ axis: oneOf("pitch", "bank"), tunedFor: oneOf(...ATTACHMENT_STATES), stable: flag, growsWithout: flag },
  ...{ gain_1: finite, lead_s: finite, lag_s: finite, slope_1: finite },
  ...{ resonance_1: number, resonanceAt_rad_s: number, phaseDelay_s: number, phase180_rad_s: number },
});

const mode = object({
  ...{ ...place, gains: oneOf("none", ...GAIN_SETS), plane, meetsCriteria: flag },
  ...{ worstDampingRatio: number, frequency_Hz: number, timeToDouble_s: number },
});

const worst = nullable(object({ value: finite, airspeed_m_s_EAS: finite, mass: text }));
const lateral = object({ dampingRatio: list(number), worst });
const rollHold = object({
  ...{ condition: text, airspeed_m_s_EAS: list(finite), none: lateral, alone: nullable(lateral), others: lateral },
});

const history = sameLength(
  object({
    ...{ action: oneOf("none", ...ACTIONS), time_s: list(finite), pitch_deg: list(finite), bank_deg: list(finite) },
    ...{ load_kN: list(finite), surface_deg: list(finite) },
  }),
  "time_s",
  ["pitch_deg", "bank_deg", "load_kN", "surface_deg"],
);
const recovery = object({
  ...{ action: oneOf(...ACTIONS), from_s: finite, outcome: oneOf(...RECOVERY_OUTCOMES) },
  ...{ limitAt_s: number, limit },
});
const failure = object({
  ...{ condition: text, mass: text, state: oneOf(...ATTACHMENT_STATES), function: text, needed: flag },
  ...{
    kind: oneOf(...FAILURE_KINDS),
    detail: text,
    upset_1: number,
    timeToLimit_s: number,
    limit,
    largestShare_1: finite,
  },
  ...{ recoveries: list(recovery), releaseInTime: nullable(flag), histories: list(history) },
});

const authority = object({
  ...{ condition: text, mass: text, state: oneOf(...ATTACHMENT_STATES), surface: oneOf(...SURFACES) },
  ...{ angle_deg: finite, load_kN: finite, movesNothing: flag },
});

export const holdControlShape: Check = object({
  padeOrder: finite,
  criteria: object({
    ...{ gainMargin_1: finite, phaseMargin_deg: finite, delayMargin_s: finite },
    ...{ resonance_1: finite, phaseDelay_s: finite },
  }),
  failureSettings: object({
    ...{ recognition_s: finite, release_s: finite, duration_s: finite },
    ...{ pitchLimit_deg: finite, bankLimit_deg: finite, loadLimit_kN: finite },
  }),
  ...{
    loops: list(loop),
    pilots: list(pilot),
    modes: list(mode),
    authority: list(authority),
    rollHold: list(rollHold),
    failures: list(failure),
  },
  noTrim: list(object({ condition: text, mass: text, state: oneOf(...ATTACHMENT_STATES) })),
});
