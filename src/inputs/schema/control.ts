import * as z from "zod";
import { yesNo } from "./leaf.ts";
import { GAIN, LAG, RATE_GAIN } from "./ranges.ts";
import { quantity } from "./value.ts";

const AILERON_LIMIT = { above: 0, below: Math.PI / 2, words: "larger than 0, below 90 deg" };

const rollHold = z
  .strictObject({
    engaged: yesNo("Whether the roll hold works in the hooked states."),
    rollGain: quantity("number", "Aileron per roll angle, opposing.", [0.8], GAIN),
    rateGain: quantity("time", "Aileron per roll rate, opposing.", ["0.25 s"], RATE_GAIN),
    actuatorLag: quantity("time", "Time constant of the aileron actuator.", ["0.06 s"], LAG),
    aileronLimit: quantity("angle", "Largest aileron deflection either way.", ["20 deg"], AILERON_LIMIT),
  })
  .meta({ description: "A simple roll hold of the carried aircraft." });

export const control = z
  .strictObject({ rollHold: rollHold.optional() })
  .meta({ description: "Control laws of the carried aircraft while hooked." });
