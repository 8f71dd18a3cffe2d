import * as z from "zod";
import { words } from "./leaf.ts";
import { name } from "./names.ts";
import { point } from "./point.ts";
import { AIRCRAFT_MASS, CHORD_SHARE, COORDINATE, LOAD_MASS, PART_MASS, PART_SIZE, REFERENCE_LENGTH } from "./ranges.ts";
import { table } from "./table.ts";
import { quantity } from "./value.ts";

const PLACE = "Its centre of mass, in the carrier's stations.";

/** Something aboard the carrier. */
const item = (describe: string) =>
  z
    .strictObject({ mass: quantity("mass", "Its mass.", ["450 kg"], LOAD_MASS), at: point(PLACE) })
    .meta({ description: describe });

const items = (describe: string) => z.record(name, item("One item.")).meta({ description: describe });

const kit = z
  .strictObject({
    mass: quantity("mass", "Mass of everything that is fitted for the mechanism.", ["1450 kg"], PART_MASS),
    at: point("Its centre of mass with the boom stowed, in the carrier's stations."),
    boom: z
      .strictObject({
        mass: quantity("mass", "The part of it that swings with the boom.", ["520 kg"], PART_MASS),
        centreFromHinge: quantity("length", "From the root hinge to the centre of that part.", ["2.9 m"], PART_SIZE),
      })
      .meta({ description: "What of it swings with the boom; without it the kit stays where it is stowed." })
      .optional(),
  })
  .meta({ description: "Kit of the mechanism on the carrier." });

const tank = z
  .strictObject({
    capacity: quantity("mass", "Most usable fuel.", ["4200 kg"], PART_MASS),
    at: point("Centre of the fuel at every contents; or `stations` instead.").optional(),
    stations: table("Centre of the fuel against contents; or `at` instead.", "tank-inner.csv", {
      contents: { kind: "mass", breakpoints: true, range: LOAD_MASS },
      FS: { kind: "length", range: COORDINATE },
      BL: { kind: "length", range: COORDINATE },
      WL: { kind: "length", range: COORDINATE },
    }).optional(),
  })
  .meta({ description: "A tank of the carrier." });

const largest = (describe: string, example: string) => quantity("mass", describe, [example], AIRCRAFT_MASS);

/** Weights of the carrier and where they lie. */
export const weights = z
  .strictObject({
    empty: z
      .strictObject({
        mass: largest("Empty mass as weighed, with unusable fuel and oil, without the mechanism's kit.", "32 350 kg"),
        at: point("Centre of gravity as weighed, in the carrier's stations."),
      })
      .meta({ description: "The empty carrier; the weighing record is its source." }),
    kit: kit.optional(),
    crew: items("Crew by name, with what they bring.").optional(),
    payload: items("Everything else aboard by name.").optional(),
    mac: z
      .strictObject({
        leadingEdge: quantity("length", "Fuselage station of its leading edge (LEMAC).", ["16.10 m"], COORDINATE),
        length: quantity("length", "Its length.", ["4.05 m"], REFERENCE_LENGTH),
      })
      .meta({ description: "Mean aerodynamic chord, on which the c.g. is given." }),
    tanks: z.record(name, tank).meta({ description: "Fuel tanks by name." }),
    burnOrder: z
      .array(
        z
          .array(words("Name of a tank.", ["innerLeft"]))
          .min(1)
          .meta({ description: "Tanks that run empty together, each in proportion to what it holds." }),
      )
      .min(1)
      .meta({ description: "Order in which the tanks are used." }),
    envelope: table("Limits of the c.g. against mass, in flight and on the ground, straight between rows.", "cg.csv", {
      mass: { kind: "mass", breakpoints: true, range: AIRCRAFT_MASS },
      forward: { kind: "number", range: CHORD_SHARE },
      aft: { kind: "number", range: CHORD_SHARE },
    }),
    largest: z
      .strictObject({
        takeOff: largest("Largest mass at take-off.", "58 t"),
        landing: largest("Largest mass at landing.", "55 t"),
        zeroFuel: largest("Largest mass without fuel, the carried aircraft aboard counted.", "45 t"),
      })
      .meta({ description: "Largest masses of the carrier." }),
  })
  .meta({ description: "Weights of the carrier, where they lie and where the c.g. may be." });
