import * as z from "zod";
import type { Airspeed } from "../quantity/index.ts";
import type { Leaf } from "./leaf.ts";
import { CLEARANCE, MISFIT, STIFFNESS } from "./ranges.ts";
import { airspeed, quantity } from "./value.ts";

const RATIO = { atLeast: 0, below: 1, words: "a damping ratio ζ from 0 to below 1" };

/** Two directions of a pin: along the leg of the yoke and sideways. */
const directions = <A, B>(describe: string, along: Leaf<A>, lateral: Leaf<B>) =>
  z.strictObject({ along, lateral }).meta({ description: describe });

export const aftPins = z
  .strictObject({
    stiffness: directions(
      "Stiffness at one pin, with its half of the yoke.",
      quantity("stiffness", "Along the leg of the yoke.", ["12 MN/m ± 20 % (1σ)"], STIFFNESS),
      quantity("stiffness", "Sideways.", ["0.5 MN/m ± 20 % (1σ)"], STIFFNESS),
    ),
    structuralDamping: quantity(
      "number",
      "Damping ratio ζ that each of these springs gives the aircraft on it alone.",
      [0.02],
      RATIO,
    ),
    clearance: directions(
      "Free travel of a latched pin either way from the middle.",
      quantity("length", "Along the leg of the yoke.", ["0.15 mm"], CLEARANCE),
      quantity("length", "Sideways.", ["1 mm"], CLEARANCE),
    ),
    misfit: directions(
      "How the left leg differs from the right as built: it makes the load that is there without any other.",
      quantity("length", "Left leg longer than the right.", ["0.5 mm"], MISFIT),
      quantity("length", "Ends of the legs further apart than the pins.", ["0.5 mm"], MISFIT),
    ).optional(),
  })
  .meta({
    description: "Aft pins in the latches of the yoke; without it the states with latched pins are not looked at.",
  });

const ELEVATOR = { above: -Math.PI / 3, below: Math.PI / 3, words: "between -60 and 60 deg" };
const MARGIN = { atLeast: 0, below: Math.PI / 2, words: "0 to below 90 deg" };
const DEVIATIONS = { atLeast: 0, atMost: 6, words: "0 to 6" };

const end = (): Leaf<Airspeed> => airspeed("One end.", ["85 m/s EAS"]);

export const attachment = z
  .strictObject({
    elevator: quantity(
      "angle",
      "Elevator while the aft pins are latched, trailing edge down positive.",
      ["0 deg"],
      ELEVATOR,
    ),
    margin: quantity("angle", "Added to the boom angle at which single-point stability is lost.", ["2 deg"], MARGIN),
    deviations: quantity(
      "number",
      "Standard deviations either way by which uncertain values may be off; 2 when left out.",
      [2],
      DEVIATIONS,
    ).optional(),
    speedBand: z
      .strictObject({ from: end(), to: end() })
      .meta({ description: "Airspeeds at which the boom may move; the speed band of the study when left out." })
      .optional(),
  })
  .meta({
    description: "States of attachment: from which boom angle on the aft pins must be latched, and what they do.",
  });
