import * as z from "zod";
import { words } from "./leaf.ts";
import { name } from "./names.ts";
import { BOOM_ANGLE, THRUST } from "./ranges.ts";
import { airspeed, quantity, wordOr } from "./value.ts";

export const WEIGHT_SHARE = { atLeast: -1, atMost: 1, words: "-100 % to 100 %" };
export const ALTITUDE = { atLeast: -1000, atMost: 20_000, words: "-1000 m to 20 000 m" };

const condition = z
  .strictObject({
    altitude: quantity("length", "Pressure altitude.", ["3000 m", "10 000 ft"], ALTITUDE),
    isaOffset: quantity("temperatureDifference", "Temperature above the standard atmosphere.", ["0 K", "15 degC"], {
      atLeast: -80,
      atMost: 80,
      words: "-80 K to 80 K",
    }),
    airspeed: airspeed("Airspeed of the hooked pair.", ["95 m/s EAS", "185 kt CAS"]),
    boomAngle: quantity("angle", "Boom angle below the horizontal, under load.", ["52 deg"], BOOM_ANGLE),
    weightShare: quantity(
      "number",
      "Share of the carried aircraft's weight that the mechanism holds.",
      ["20 %"],
      WEIGHT_SHARE,
    ),
    thrust: wordOr("idle", "force", "Thrust of the carried aircraft.", ["idle", "1.2 kN"], THRUST),
    masses: z
      .array(words("Name of a loading."))
      .min(1)
      .meta({ description: "Loadings of the carried aircraft that are looked at." }),
  })
  .meta({ description: "One flight condition of the hooked pair." });

export const conditions = z.record(name, condition).meta({ description: "Flight conditions by name." });
