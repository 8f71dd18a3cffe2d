import * as z from "zod";
import { CAPACITY, THRUST } from "./ranges.ts";
import { airspeed, quantity } from "./value.ts";

/** Balance of the hooked pair against airspeed, static divergence, loads on the hook. */
export const equilibrium = z
  .strictObject({
    airspeed: z
      .strictObject({ from: airspeed("One end.", ["40 m/s EAS"]), to: airspeed("One end.", ["140 m/s EAS"]) })
      .meta({ description: "Airspeeds over which balances are followed; those of `sweeps` when left out." })
      .optional(),
    thrust: z
      .strictObject({
        from: quantity("force", "One end.", ["0 N"], THRUST),
        to: quantity("force", "One end.", ["5 kN"], THRUST),
      })
      .meta({ description: "Thrusts over which the loads on the hook are given; no such table when left out." })
      .optional(),
    hookLoadLimit: quantity(
      "force",
      "Largest load on the hook that the speed band may bring in trim, any direction.",
      ["15 kN"],
      CAPACITY,
    ).optional(),
  })
  .meta({
    description: "Every balance with the jack at its length, which of them are stable, and what the hook carries.",
  });
