import * as z from "zod";
import { whole } from "./leaf.ts";
import { CAPACITY, DELAY, GAIN_MARGIN, LEAST_TIME, PHASE_MARGIN, SURFACE_RATE } from "./ranges.ts";
import { quantity } from "./value.ts";

const ANGLE = { above: 0, below: Math.PI / 2, words: "larger than 0, below 90 deg" };
const FACTOR = GAIN_MARGIN;

const criteria = z
  .strictObject({
    gainMargin: quantity("number", "Factor by which each loop's gain may rise or fall.", [2], FACTOR),
    phaseMargin: quantity("angle", "Least phase margin of each loop.", ["45 deg"], PHASE_MARGIN),
    delayMargin: quantity("time", "Least further delay that each loop bears.", ["0.1 s"], LEAST_TIME),
    resonance: quantity("number", "Largest peak of the loop that the pilot closes.", [2.5], FACTOR),
    phaseDelay: quantity("time", "Largest phase delay of the aircraft that the pilot flies.", ["0.2 s"], LEAST_TIME),
  })
  .meta({ description: "What the loops must meet, each with its source." });

const failures = z
  .strictObject({
    pitchLimit: quantity("angle", "Pitch change that ends a case.", ["10 deg"], ANGLE),
    bankLimit: quantity("angle", "Bank that ends a case.", ["30 deg"], ANGLE),
    loadLimit: quantity(
      "force",
      "Change of the socket load, or of a latched pin's, that ends a case.",
      ["15 kN"],
      CAPACITY,
    ),
    recognition: quantity("time", "From the failure to the action against it.", ["2 s"], DELAY),
    release: quantity("time", "From the action to the aircraft being free.", ["0.5 s"], DELAY),
    duration: quantity("time", "How long each case is followed.", ["15 s"], {
      above: 0,
      atMost: 120,
      words: "larger than 0, up to 120 s",
    }),
    oscillation: quantity("angle", "Amplitude of an oscillatory failure.", ["3 deg"], ANGLE),
    slowest: quantity("angularRate", "Lowest frequency of an oscillatory failure.", ["0.3 rad/s"], SURFACE_RATE),
    fastest: quantity("angularRate", "Highest frequency of an oscillatory failure.", ["20 rad/s"], SURFACE_RATE),
  })
  .meta({ description: "Failures of each function: limits, times and the oscillation that is assumed." });

export const holdControl = z
  .strictObject({
    padeOrder: whole("Order of the Padé approximation of delays in roots and time.", [3], 1, 6).optional(),
    criteria,
    failures,
  })
  .meta({ description: "Pilot and autopilot in the loop, free, hooked and latched." });
