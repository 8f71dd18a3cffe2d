import * as z from "zod";
import { ALTITUDE } from "./conditions.ts";
import { choice, words } from "./leaf.ts";
import { name } from "./names.ts";
import { FREQUENCY } from "./ranges.ts";
import { quantity } from "./value.ts";

const SCALE = { atLeast: 0.001, atMost: 1, words: "0.001 to 1" };
const DENSITY_RATIO = { atLeast: 0.01, atMost: 100, words: "0.01 to 100" };
const DAMPING = { above: -1, below: 1, words: "a damping ratio ζ between -1 and 1" };

const measured = z
  .strictObject({
    mass: words("Name of the mass state that the model had.", ["full"]),
    plane: choice("Plane of the oscillation.", ["longitudinal", "lateral"]),
    frequency: quantity("frequency", "Frequency on the model.", ["1.9 Hz"], FREQUENCY),
    dampingRatio: quantity("number", "Damping ratio ζ on the model.", [0.11], DAMPING),
  })
  .meta({ description: "An oscillation measured on the model." });

const model = z
  .strictObject({
    length: quantity("number", "Length of the model per length of the aircraft.", ["20 %"], SCALE),
    altitude: quantity("length", "Pressure altitude of the air the model is tested in.", ["0 m"], ALTITUDE),
    isaOffset: quantity("temperatureDifference", "Temperature of that air above the standard one.", ["0 K"], {
      atLeast: -100,
      atMost: 100,
      words: "-100 K to 100 K",
    }),
    compression: quantity(
      "number",
      "Density of the test air per density of free air there, for a tunnel under pressure; 1 when left out.",
      [1],
      DENSITY_RATIO,
    ).optional(),
    measured: z.array(measured).meta({ description: "Oscillations measured on the model." }).optional(),
  })
  .meta({ description: "A dynamically similar model in a tunnel or dropped." });

export const scaling = z.record(name, model).meta({
  description:
    "Dynamically similar models by name: what they must weigh and how stiff they must be, and what they measured.",
});
