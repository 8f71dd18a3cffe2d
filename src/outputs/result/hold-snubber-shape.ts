/** Form of the part `snubber` of `hold` inside a result file; mirrors `studies/hold-snubber/types.ts`. */
import type { Issue } from "../../math/errors.ts";
import { type Check, finite, flag, list, nullable, object, oneOf, sameLength, text } from "./shape.ts";

const numbers = list(finite);
const temperature = oneOf("cold", "normal", "hot");

const agreement = object({
  quantity: oneOf("C1", "C2", "accumulator"),
  declared: finite,
  hardware: finite,
  unit: text,
  difference_1: finite,
});

const cycle = object({
  frequency_Hz: finite,
  snubberAmplitude_m: finite,
  tipAmplitude_m: finite,
  pitchAmplitude_deg: finite,
  attracts: flag,
  orbit: nullable(
    object({
      frequency_Hz: finite,
      tipAmplitude_m: finite,
      largestMultiplier_1: finite,
      amplitudeDifference_1: finite,
      frequencyDifference_1: finite,
    }),
  ),
});

const linearCycle = object({
  rate_N_s_m: finite,
  frequency_Hz: finite,
  tipAmplitude_m: finite,
  attracts: flag,
  harmonics: nullable(object({ frequency_Hz: finite, tipAmplitude_m: finite })),
});

const growth = sameLength(
  object({ tipAmplitude_m: numbers, growth_1_s: numbers, frequency_Hz: numbers }),
  "tipAmplitude_m",
  ["growth_1_s", "frequency_Hz"],
);

const simulation = object({
  side: oneOf("below", "beyond", "between"),
  startAmplitude_m: finite,
  outcome: oneOf("settles", "dies out", "grows", "does not settle"),
  agrees: flag,
  frequency_Hz: nullable(finite),
  tipAmplitude_m: nullable(finite),
  pitchAmplitude_deg: nullable(finite),
  time_s: finite,
  amplitudeDifference_1: nullable(finite),
  frequencyDifference_1: nullable(finite),
  timeDifference_1: nullable(finite),
});

const point = object({
  condition: text,
  mass: text,
  temperature,
  temperature_degC: finite,
  jackLoad_N: finite,
  pressure_Pa: finite,
  precharge_Pa: finite,
  accumulator: oneOf("gas", "bottomed", "no pressure"),
  gasVolume_m3: finite,
  accumulatorStiffness_N_m: finite,
  slowAccumulatorStiffness_N_m: finite,
  shutInOilStiffness_N_m: finite,
  C1_N_s_m: finite,
  C2_N_s2_m2: finite,
  rate_N_s_m: finite,
  dampingRatio: nullable(finite),
  smallDampingRatio: nullable(finite),
  nodding: object({
    outcome: oneOf("dies out", "nods", "nods after an upset", "grows", "grows after an upset"),
    cycles: list(cycle),
    linear: list(linearCycle),
    growth,
    reach_m: finite,
    reachEnds: oneOf("largest amplitude", "lift", "balance"),
    leastRate_N_s_m: nullable(finite),
    simulations: list(simulation),
  }),
});

const amplitude = sameLength(
  object({
    condition: text,
    mass: text,
    bleed: oneOf("as built", "orifice alone"),
    bleed_N_s_m: finite,
    at_N_s2_m2: finite,
    C2_N_s2_m2: numbers,
    balance_m: list(nullable(finite)),
    simulated: list(object({ C2_N_s2_m2: finite, tipAmplitude_m: finite })),
  }),
  "C2_N_s2_m2",
  ["balance_m"],
);

const slow = object({
  temperature,
  temperature_degC: finite,
  viscosity_m2_s: finite,
  jackTravel_m: finite,
  jackSpeed_m_s: finite,
  tipSpeed_m_s: finite,
  jackForce_N: finite,
  capacityShare_1: nullable(finite),
  reliefOpen: flag,
  strokeTime_s: nullable(finite),
  bleedReynolds_1: finite,
});

const force = sameLength(
  object({ temperature, temperature_degC: finite, jackSpeed_m_s: numbers, jackForce_N: numbers }),
  "jackSpeed_m_s",
  ["jackForce_N"],
);

const failed = object({
  condition: text,
  mass: text,
  state: oneOf("valve closed", "valve open", "gas lost", "no fluid"),
  outcome: oneOf("analysed", "no balance"),
  weightShare_1: finite,
  accumulatorStiffness_N_m: nullable(finite),
  dampingRatio: nullable(finite),
  frequency_Hz: nullable(finite),
  timeToDouble_s: nullable(finite),
});

const mapForm = sameLength(
  object({
    condition: text,
    oil: oneOf("normal", "hot to cold"),
    C1_N_s_m: numbers,
    C2_N_s2_m2: numbers,
    worst: numbers,
    slowLimit_N_s_m: list(nullable(finite)),
    at: object({ C1_N_s_m: finite, C2_N_s2_m2: finite }),
    best: nullable(object({ C1_N_s_m: finite, C2_N_s2_m2: finite, dampingRatio: finite })),
  }),
  "C2_N_s2_m2",
  ["slowLimit_N_s_m"],
);

/** The grid of a map must be full. */
const map: Check = (value, path, issues: Issue[]) => {
  const before = issues.length;
  mapForm(value, path, issues);
  if (issues.length > before) return;
  const { C1_N_s_m, C2_N_s2_m2, worst } = value as Record<"C1_N_s_m" | "C2_N_s2_m2" | "worst", number[]>;
  const cells = C1_N_s_m.length * C2_N_s2_m2.length;
  if (worst.length === cells) return;
  const allowed = `${cells}, the product of its axes`;
  issues.push({ path: `${path}.worst`, message: "has the wrong length", value: String(worst.length), allowed });
};

export const holdSnubberShape: Check = object({
  agreement: list(agreement),
  points: list(point),
  amplitude: list(amplitude),
  slow: list(slow),
  force: list(force),
  failed: list(failed),
  maps: list(map),
});
