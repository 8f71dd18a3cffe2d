import * as z from "zod";
import { WEIGHT_SHARE } from "./conditions.ts";
import { choice, words } from "./leaf.ts";
import { name } from "./names.ts";
import { BOOM_ANGLE, LEG_TIME, LOAD_MASS, PART_OFFSET } from "./ranges.ts";
import { quantity } from "./value.ts";

/** Where the carried aircraft is during a leg. */
export const AIRCRAFT_STATES = ["stowed", "lowering", "extended", "raising", "away"] as const;

const leg = z
  .strictObject({
    name: words("What the leg is called.", ["climb"]),
    time: quantity("time", "How long it lasts.", ["35 min"], LEG_TIME),
    fuel: quantity("mass", "Fuel that the carrier burns in it.", ["1900 kg"], LOAD_MASS),
    aircraft: choice(
      "Where the carried aircraft is: stowed, lowering (the boom swings out with it), extended, raising, or away. From extended to away it is released, from away to extended it hooks on.",
      AIRCRAFT_STATES,
    ),
    held: choice(
      "How the extended boom holds it: at three points its weight acts at its own c.g., at a single point at the socket. Three point when left out.",
      ["three point", "single point"],
    ).optional(),
    weightShare: quantity(
      "number",
      "Share of its weight that the extended boom carries; the rest is on its own wing. All of it when left out.",
      ["20 %"],
      WEIGHT_SHARE,
    ).optional(),
    boom: choice("Where the empty boom is while the aircraft is away; stowed when left out.", [
      "stowed",
      "extended",
    ]).optional(),
  })
  .meta({ description: "One leg of the mission." });

const FRACTION = { atLeast: 0, atMost: 1, words: "0 to 100 %" };
const TIP_BACK = { above: 0, below: Math.PI / 3, words: "larger than 0, below 60 deg" };

const criteria = z
  .strictObject({
    margin: quantity("number", "Least margin to the c.g. limits, in parts of the chord.", ["0.5 %"], {
      atLeast: 0,
      atMost: 0.5,
      words: "0 to 50 %",
    }),
    lateral: quantity("length", "Largest distance of the c.g. from the symmetry plane.", ["60 mm"], PART_OFFSET),
    loadFactorStep: quantity("number", "Largest step of the load factor at a planned release or hook-on.", [0.05], {
      above: 0,
      atMost: 10,
      words: "larger than 0, up to 10",
    }),
    tipBack: quantity("angle", "Least tip-back angle on the ground.", ["15 deg"], TIP_BACK),
    noseShare: z
      .strictObject({
        from: quantity("number", "Least share of the weight on the nose wheel.", ["6 %"], FRACTION),
        to: quantity("number", "Largest share of the weight on the nose wheel.", ["16 %"], FRACTION),
      })
      .meta({ description: "Share of the weight on the nose wheel at rest." }),
    elevatorStep: quantity("angle", "Largest change of elevator at a planned release or hook-on.", ["2 deg"], {
      above: 0,
      below: Math.PI / 3,
      words: "larger than 0, below 60 deg",
    }).optional(),
  })
  .meta({ description: "What the carrier's balance must meet, each with its source." });

/** Where the carrier's c.g. and trim are in every state. */
export const balance = z
  .strictObject({
    condition: words("Condition whose airspeed and altitude hold for release, hook-on and jettison.", ["hook"]),
    carried: z
      .strictObject({
        out: words("Loading of the carried aircraft at take-off.", ["full"]),
        back: words("Loading with which it is planned to come back.", ["return"]),
        light: words("Lightest loading with which it may come back.", ["empty"]),
      })
      .meta({ description: "Loadings of the carried aircraft over the mission." }),
    fuel: z
      .record(name, quantity("mass", "Usable fuel in this tank at the start.", ["4000 kg"], LOAD_MASS))
      .meta({ description: "Fuel of the carrier at the start by tank; a tank that is left out is empty." }),
    mission: z.array(leg).min(1).meta({ description: "The mission leg by leg, start to shutdown." }),
    stuck: z
      .array(quantity("angle", "Boom angle at which it sticks.", ["52 deg"], BOOM_ANGLE))
      .meta({ description: "Boom angles at which the boom may stick; fully extended when left out." })
      .optional(),
    criteria,
  })
  .meta({ description: "Where are the carrier's c.g. and trim in every state, including every release?" });
