import * as z from "zod";
import { CAPACITY, DAMPING_RATE, LATCH_ENERGY, LATCH_TIME, LATCH_TRAVEL, STIFFNESS, TRIP_FORCE } from "./ranges.ts";
import { table } from "./table.ts";
import { quantity } from "./value.ts";

/** Nose latch at the seat of the socket. */
export const latch = z
  .strictObject({
    trip: table("Force against travel while the probe pushes the latch until it trips.", "latch-trip.csv", {
      travel: { kind: "length", breakpoints: true, range: { atLeast: 0, atMost: 1, words: "0 to 1 m" } },
      force: { kind: "force", range: TRIP_FORCE },
    }).optional(),
    tripEnergy: quantity("energy", "Work that trips it, where no curve is known.", ["25 J"], LATCH_ENERGY).optional(),
    tripTravel: quantity("length", "Travel over which that work is done.", ["25 mm"], LATCH_TRAVEL).optional(),
    lockTime: quantity("time", "From tripped until the hooks are home.", ["60 ms"], LATCH_TIME),
    lockWindow: quantity(
      "length",
      "How far the probe may back out while the hooks close before they close on nothing.",
      ["15 mm"],
      LATCH_TRAVEL,
    ),
    stiffness: quantity("stiffness", "Closed hooks and seat, along the axis.", ["3 MN/m"], STIFFNESS),
    damping: quantity("dampingRate", "Closed hooks and seat, along the axis.", ["6 kN*s/m"], DAMPING_RATE),
    sideStiffness: quantity("stiffness", "With which the bore holds the head sideways.", ["2 MN/m"], STIFFNESS),
    holds: quantity("force", "Pull at which locked hooks give way.", ["60 kN"], CAPACITY),
    holdsHalf: quantity("force", "Pull at which half-locked hooks give way.", ["4 kN"], CAPACITY),
  })
  .meta({ description: "The nose latch: trips under the push of the probe, then locks. Tripped is not locked." });
