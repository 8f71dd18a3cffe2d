import * as z from "zod";
import type { Range } from "../quantity/index.ts";
import { hookonClaims } from "./hookon-claims.ts";
import { choice, whole, words } from "./leaf.ts";
import { name } from "./names.ts";
import { CLOSING_SPEED, DELAY, FUNNEL_LENGTH, LEAST_TIME, PART_SIZE } from "./ranges.ts";
import { quantity } from "./value.ts";

const upTo = (atMost: number, words: string): Range => ({ above: 0, atMost, words });
const SIGMA = { atLeast: 0, atMost: 100, words: "0 to 100 m/s" };
const LOAD = upTo(1e9, "larger than 0, up to 1e9 N");
const EXCURSION: Range = { above: 0, below: Math.PI / 2, words: "larger than 0, below 90 deg" };
const SHARE: Range = { above: 0, below: 1, words: "larger than 0, below 100 %" };
const FACTOR = upTo(100, "larger than 0, up to 100");
const PULL: Range = { atLeast: 0, atMost: 200, words: "0 to 200 m/s^2" };
const RATE: Range = { atLeast: 0, atMost: 50, words: "0 to 50 m/s" };
const PER_TIME: Range = { atLeast: 0, atMost: 100, words: "0 to 100 1/s" };
const TILT: Range = { atLeast: 0, below: Math.PI / 3, words: "0 to below 60 deg" };

const limits = z
  .strictObject({
    axialLoad: quantity("force", "Limit load of the probe along its axis, push or pull.", ["20 kN"], LOAD),
    sideLoad: quantity("force", "Limit load of the probe across its axis.", ["8 kN"], LOAD),
    tipTravel: quantity("length", "Way of the boom tip from rest, either way.", ["0.4 m"], PART_SIZE),
    pitch: quantity("angle", "Pitch from trim while hooked, either way.", ["12 deg"], EXCURSION),
    bank: quantity("angle", "Bank while hooked, either way.", ["25 deg"], EXCURSION),
  })
  .meta({ description: "Limit loads (not ultimate) and limits of motion that end a run, each with its source." });

const light = z
  .strictObject({
    sigma: words("Name of the intensity at which the classes are compared.", ["light"]),
    classes: z
      .record(
        name,
        z
          .strictObject({
            navigationNoise: quantity("number", "Factor on the noise of the relative navigation.", [1.5], FACTOR),
            pilotDelay: quantity("time", "Added to the pilot's delay.", ["0.1 s"], DELAY),
            pilotThreshold: quantity("number", "Factor on what a pilot does not act on.", [2], FACTOR),
          })
          .meta({ description: "What this light does to sensors and pilot, against the values of the pair." }),
      )
      .meta({ description: "Classes of light by name; the values of the pair hold without one." }),
  })
  .meta({ description: "Light: each class is run with every controller at one intensity." });

const criteria = z
  .strictObject({
    success: quantity("number", "Least share of approaches that end locked and stable.", ["90 %"], SHARE),
    confidence: quantity("number", "Confidence with which that share must be shown.", ["95 %"], SHARE),
    closure: quantity("speed", "Largest closure of the approach.", ["5 kt"], CLOSING_SPEED),
    windowMargin: quantity(
      "speed",
      "Least distance of the planned closure from either end of the closure window.",
      ["0.2 m/s"],
      CLOSING_SPEED,
    ),
  })
  .meta({ description: "What hook-on must meet, each with its source." });

const map = z
  .strictObject({
    offset: quantity("length", "Largest distance from the axis that is tried.", ["0.4 m"], PART_SIZE),
    closure: quantity("speed", "Largest closure that is tried.", ["2.4 m/s"], CLOSING_SPEED),
    steps: whole("Steps of offset and of closure.", [10], 3, 60),
    angles: z
      .array(quantity("angle", "Angle of the probe's path to the axis of the socket.", ["5 deg"], TILT))
      .min(1)
      .max(4)
      .meta({ description: "Angles of approach, a map for each." }),
  })
  .meta({ description: "Capture map: which offset and closure latch, bounce or damage." });

/** Settings of the study `hookon`. */
export const hookon = z
  .strictObject({
    condition: words("Condition in which the carrier flies.", ["hook"]),
    mass: words("Loading of the carried aircraft.", ["return"]),
    document: choice("Whose scale lengths; the spectra are Dryden's.", ["MIL-F-8785C", "MIL-HDBK-1797"]),
    heightAboveGround: quantity(
      "length",
      "Height above ground, which sets the scale lengths below 2000 ft; the altitude of the condition when left out.",
      ["800 m"],
      { atLeast: 3.048, atMost: 1e5, words: "3.048 m to 100 000 m" },
    ).optional(),
    sigmas: z
      .record(name, quantity("speed", "Intensity σ of the vertical gusts.", ["1.5 m/s"], SIGMA))
      .meta({ description: "Intensities of turbulence that are run, by name." }),
    design: words("Name of the intensity in which the criteria must hold.", ["light"]),
    controllers: z
      .array(words("Name of one of approach.controllers.", ["autopilot"]))
      .min(1)
      .meta({ description: "Who flies: each runs in every intensity." }),
    light: light.optional(),
    bothAtOnce: z
      .strictObject({
        sigma: words("Name of an intensity.", ["light"]),
        controller: words("Name of a controller.", ["autopilot"]),
        operator: z
          .strictObject({
            gain: quantity("perTime", "Tip rate per height of the mouth over the probe.", ["0.4 1/s"], PER_TIME),
            delay: quantity("time", "From what is seen to the jack.", ["0.5 s"], DELAY),
            threshold: quantity("length", "Heights below this are not acted on.", ["0.1 m"], FUNNEL_LENGTH),
            rateLimit: quantity("speed", "Largest rate of the tip.", ["0.1 m/s"], CLOSING_SPEED),
            within: quantity("length", "Steers while the probe is nearer than this.", ["4 m"], PART_SIZE),
          })
          .meta({ description: "How the operator steers the boom in this case." }),
      })
      .meta({ description: "A case in which the operator steers the boom while a controller flies: two on one error." })
      .optional(),
    samples: whole("Approaches drawn for each case.", [200], 1, 10_000_000),
    seed: whole("Seed of every random stream of the study; 1 when left out.", [1], 0, 2 ** 32).optional(),
    approachTime: quantity("time", "Longest approach.", ["60 s"], LEAST_TIME),
    ringTime: quantity("time", "How long the motion is followed after lock.", ["8 s"], LEAST_TIME),
    limits,
    criteria,
    attempts: z
      .strictObject({
        probability: quantity("number", "Probability of at least one success that is asked for.", ["99 %"], SHARE),
      })
      .meta({ description: "How many approaches to carry fuel for." }),
    map,
    breakaway: z
      .strictObject({
        reactions: z
          .array(quantity("time", "From the call to the controls.", ["0.5 s"], DELAY))
          .min(1)
          .max(12)
          .meta({ description: "Reaction times that are tried." }),
        gap: quantity("length", "Vertical distance of the two aircraft at the call.", ["2 m"], PART_SIZE),
        closing: quantity("speed", "Rate at which it shrinks at the call.", ["0.5 m/s"], RATE),
        goesOn: quantity(
          "acceleration",
          "How much faster it shrinks each second until the carried aircraft reacts.",
          ["0.3 m/s^2"],
          PULL,
        ),
      })
      .meta({
        description:
          "Breakaway: least vertical distance of the two aircraft against the time of reaction; how they leave says approach.breakaway.",
      })
      .optional(),
    claims: hookonClaims.optional(),
  })
  .meta({ description: "What fraction of approaches captures, with which contact loads, in which closure window?" });

export type HookonPairSettings = z.output<typeof hookon>;
