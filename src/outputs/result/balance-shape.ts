/** Form of the study `balance` inside a result file; mirrors `studies/balance/types.ts`. */
import { findingShape, limitShape } from "./finding-shape.ts";
import { type Check, finite, list, nullable, object, oneOf, sameLength, text } from "./shape.ts";

const numbers = list(finite);
const pointForm = {
  ...{ time_s: finite, leg: text, fuel_kg: finite, mass_kg: finite, FS_m: finite, BL_m: finite },
  cg_percentMac: finite,
};
const point = object(pointForm);

const TRACK = ["mass_kg", "cg_percentMac", "margin_percentMac"];
const track = sameLength(
  object({ time_s: numbers, ...Object.fromEntries(TRACK.map((key) => [key, numbers])) }),
  "time_s",
  TRACK,
);

const branch = object({
  key: text,
  kind: oneOf("planned", "not recovered", "recovered light", "jettisoned", "stuck with aircraft", "stuck empty"),
  ...{ title: text, from_s: finite, track },
  worst: object({
    ...pointForm,
    ...{ margin_percentMac: finite, side: oneOf("forward", "aft"), limit_percentMac: finite },
  }),
  ...{ lateral_m: finite, zeroFuelMass_kg: finite, end: point },
});

const trim = object({
  ...{ loadFactorStep_1: finite, momentStep_Nm: finite, alpha_deg: nullable(finite), elevator_deg: nullable(finite) },
  ...{ handsOffAlpha_deg: nullable(finite), handsOffLoadFactor_1: nullable(finite) },
});

const change = object({
  key: text,
  kind: oneOf("release", "hook-on", "weight taken", "boom lowered", "boom raised", "jettison"),
  ...{ title: text, before: point, after: point, shift_percentMac: finite, trim: nullable(trim) },
});

const ground = object({
  ...{ key: text, title: text, mass_kg: finite, cg_percentMac: finite, FS_m: finite, height_m: finite },
  ...{ noseShare_1: finite, nose_N: finite, mainLeft_N: finite, mainRight_N: finite, tipBack_deg: finite },
});

const item = object({
  name: text,
  kind: oneOf("empty", "kit", "crew", "payload", "carried aircraft", "fuel"),
  ...{ mass_kg: finite, FS_m: finite, BL_m: finite, WL_m: finite, capacity_kg: nullable(finite) },
});

const total = object({
  ...{ key: oneOf("empty", "zero-fuel", "start", "end"), name: text, mass_kg: finite, FS_m: finite },
  ...{ cg_percentMac: finite, forward_percentMac: finite, aft_percentMac: finite, largest_kg: nullable(finite) },
});

const LIMITS = ["forward_percentMac", "aft_percentMac"];

export const balanceShape: Check = object({
  study: oneOf("balance"),
  variant: text,
  chord: object({ leadingEdge_m: finite, length_m: finite }),
  envelope: sameLength(
    object({ mass_kg: numbers, forward_percentMac: numbers, aft_percentMac: numbers }),
    "mass_kg",
    LIMITS,
  ),
  largest: object({ takeOff_kg: finite, landing_kg: finite, zeroFuel_kg: finite }),
  condition: object({ name: text, airspeed_m_s_EAS: finite, altitude_m: finite }),
  ...{ items: list(item), totals: list(total), start: point },
  legs: list(object({ name: text, from_s: finite, to_s: finite, aircraft: text })),
  ...{ branches: list(branch), changes: list(change), ground: nullable(list(ground)) },
  findings: list(findingShape),
  limits: list(limitShape),
  assumptions: list(text),
  notAnalysed: list(text),
});
