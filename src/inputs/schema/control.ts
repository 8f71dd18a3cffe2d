import * as z from "zod";
import { NOT_NEGATIVE, POSITIVE } from "../quantity/index.ts";
import { yesNo } from "./leaf.ts";
import { quantity } from "./value.ts";

const rollHold = z
  .strictObject({
    engaged: yesNo("Whether the roll hold works in the hooked states."),
    rollGain: quantity("number", "Aileron per roll angle, opposing.", [0.8], NOT_NEGATIVE),
    rateGain: quantity("time", "Aileron per roll rate, opposing.", ["0.25 s"], NOT_NEGATIVE),
    actuatorLag: quantity("time", "Time constant of the aileron actuator.", ["0.06 s"], POSITIVE),
    aileronLimit: quantity("angle", "Largest aileron deflection either way.", ["20 deg"], POSITIVE),
  })
  .meta({ description: "A simple roll hold of the carried aircraft." });

export const control = z
  .strictObject({ rollHold: rollHold.optional() })
  .meta({ description: "Control laws of the carried aircraft while hooked." });
