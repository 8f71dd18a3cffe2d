/** Form of the part `equilibrium` inside a result file; mirrors `studies/hold-equilibrium/types.ts`. */
import { type Check, finite, flag, list, nullable, object, oneOf, sameLength, text } from "./shape.ts";

const numbers = list(finite);
const gaps = list(nullable(finite));

const balance = object({
  airspeed_m_s_EAS: finite,
  alpha_deg: finite,
  elevator_deg: finite,
  boomAngle_deg: finite,
  weightShare_1: finite,
  hookLoad_N: finite,
  stallMargin: finite,
  growing: nullable(finite),
  diverging: nullable(flag),
});

const family = object({
  ...{ condition: text, mass: text },
  elevator: oneOf("fixed", "holds weight share"),
  ...{ unloadedBoomAngle_deg: finite, elevatorAtTrim_deg: finite },
  branches: list(object({ points: list(balance), complete: flag })),
  folds_m_s_EAS: numbers,
  counts: list(object({ airspeed_m_s_EAS: finite, balances: finite })),
  atCondition: finite,
});

const LOADS = [
  "towLoad_N",
  "supportLoad_N",
  "hookLoad_N",
  "axialLoad_N",
  "tangentialLoad_N",
  "jackLoad_N",
  "alpha_deg",
  "stallMargin",
] as const;

const loads = sameLength(
  object({
    ...{ condition: text, mass: text },
    along: oneOf("airspeed", "boomAngle", "weightShare", "thrust"),
    axis: object({ label: text, unit: text }),
    ...{ values: numbers, at: finite },
    ...Object.fromEntries(LOADS.map((key) => [key, gaps])),
  }),
  "values",
  LOADS,
);

const divergence = object({
  ...{ condition: text, mass: text },
  along: oneOf("airspeed", "boomAngle", "weightShare"),
  ...{ unit: text, from: finite, to: finite },
  at: list(object({ value: finite, plane: oneOf("longitudinal", "lateral") })),
  ...{ growingBelow: finite, withoutTrim: finite, places: finite },
});

export const equilibriumShape: Check = object({
  families: list(family),
  loads: list(loads),
  divergence: list(divergence),
  stiffness: list(
    object({ condition: text, mass: text, trims: flag, needed_N_m: nullable(finite), present_N_m: finite }),
  ),
  hookLoadLimit_N: nullable(finite),
});
