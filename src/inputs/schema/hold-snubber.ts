import * as z from "zod";
import { AMPLITUDE, CAPACITY, LEAST_TIME, OIL_TEMPERATURE } from "./ranges.ts";
import { quantity } from "./value.ts";

const temperature = (describe: string, example: string) =>
  quantity("temperature", describe, [example], OIL_TEMPERATURE);

const SHARE = { above: 0, atMost: 1, words: "larger than 0, up to 100 %" };

/** What `hold` asks of the snubber as hardware. */
export const holdSnubber = z
  .strictObject({
    temperatures: z
      .strictObject({
        cold: temperature("Coldest oil.", "-40 degC"),
        normal: temperature("Oil at which the declared values hold.", "15 degC"),
        hot: temperature("Hottest oil.", "60 degC"),
      })
      .meta({ description: "Oil temperatures that are looked at." }),
    stroke: z
      .strictObject({
        time: quantity("time", "Commanded time of the whole stroke, stowed to extended.", ["35 s"], LEAST_TIME),
        load: quantity("force", "Largest jack load along the stroke.", ["101 kN"], CAPACITY).optional(),
      })
      .meta({ description: "Slow motion that the snubber must let pass." }),
    largestAmplitude: quantity(
      "length",
      "Amplitude at the tip beyond which no bounded oscillation is looked for.",
      ["0.4 m"],
      AMPLITUDE,
    ),
    criteria: z
      .strictObject({
        nodding: quantity("length", "Largest amplitude of lasting nodding, at the tip.", ["5 mm"], AMPLITUDE),
        slowForce: quantity("number", "Largest share of the jack's capacity in slow motion.", ["10 %"], SHARE),
        agreement: quantity("number", "Largest difference of hardware and declared values.", ["10 %"], SHARE),
      })
      .meta({ description: "What the snubber must meet, each with its source." }),
  })
  .meta({ description: "The snubber as hardware; needs mechanism.hydraulics." });
