import * as z from "zod";
import type { Range } from "../quantity/index.ts";
import { choice, whole, words } from "./leaf.ts";
import { name } from "./names.ts";
import {
  AREA,
  BOOM_ANGLE,
  COORDINATE,
  DELAY,
  FRICTION,
  LATCH_TRAVEL,
  PART_MASS,
  PART_SIZE,
  PLAIN_DERIVATIVE,
  THRUST,
} from "./ranges.ts";
import { type ColumnSpec, table } from "./table.ts";
import { airspeed, quantity } from "./value.ts";

const upTo = (atMost: number, words: string): Range => ({ above: 0, atMost, words });
const TURN: Range = { atLeast: -Math.PI / 3, atMost: Math.PI / 3, words: "-60 to 60 deg" };
const SIGMA: Range = { atLeast: 0, atMost: 100, words: "0 to 100 m/s" };
const FACTOR: Range = { atLeast: -2, atMost: 6, words: "-2 to 6" };
const SPEED: Range = { atLeast: 0, atMost: 100, words: "0 to 100 m/s" };
const RATE: Range = { above: 0, atMost: 100, words: "larger than 0, up to 100 rad/s" };
const WIND: Range = { atLeast: -150, atMost: 150, words: "-150 to 150 m/s" };
const HEIGHT: Range = { atLeast: 0, atMost: 3e4, words: "0 to 30 000 m" };

const time = (describe: string, example: string) => quantity("time", describe, [example], DELAY);

/** What one case changes of the normal release; everything left out stays as in the normal one. */
const change = z
  .strictObject({
    weightShare: quantity("number", "Part of the weight that hangs on the mechanism before anything opens.", ["20 %"], {
      atLeast: -2,
      atMost: 2,
      words: "-200 to 200 %",
    }).optional(),
    attachment: choice("How the aircraft hangs when the command comes.", ["three point", "single point"]).optional(),
    stuckPin: choice("Aft pin that does not open.", ["left", "right"]).optional(),
    latePin: choice("Aft pin that opens late.", ["left", "right"]).optional(),
    lateBy: time("How late.", "0.4 s").optional(),
    nose: choice("How the nose ends: its latch drawn back, the probe cut, or not at all.", [
      "latch",
      "cut",
      "stays",
    ]).optional(),
    thrust: quantity(
      "force",
      "Thrust against that of the condition, from the command on.",
      ["1.5 kN"],
      THRUST,
    ).optional(),
    controls: choice("What the controls do as the nose ends: go to free flight, or stay as they were held.", [
      "free flight",
      "stay",
    ]).optional(),
    elevator: quantity("angle", "Elevator beside that, from the nose's command on.", ["-2 deg"], TURN).optional(),
    aileron: quantity("angle", "Aileron against trim, from the nose's command on.", ["10 deg"], TURN).optional(),
    rudder: quantity("angle", "Rudder against trim, from the nose's command on.", ["10 deg"], TURN).optional(),
    airbrake: quantity("area", "Drag area of an airbrake that comes out at the command.", ["0.3 m^2"], AREA).optional(),
    sideslip: quantity(
      "angle",
      "Sideslip of both aircraft at the command, nose left positive.",
      ["5 deg"],
      TURN,
    ).optional(),
    loadFactor: quantity("number", "Load factor of a steady pull-up in which it happens.", [1.5], FACTOR).optional(),
    gust: quantity("speed", "Upward gust, 1 − cosine, that comes at the worst moment.", ["6 m/s"], WIND).optional(),
    gustLength: quantity("length", "Gradient distance of that gust.", ["40 m"], PART_SIZE).optional(),
    carrierPull: quantity(
      "number",
      "Load factor that the carrier's crew adds from the nose's command on.",
      [0.3],
      FACTOR,
    ).optional(),
    carrierPullFor: time("How long the crew pulls.", "1 s").optional(),
  })
  .meta({ description: "One case: what differs from the normal release." });

const PLACE: ColumnSpec = { kind: "length", range: COORDINATE };
const COEFFICIENT: ColumnSpec = { kind: "number", range: PLAIN_DERIVATIVE };

const dropped = z
  .strictObject({
    mass: quantity("mass", "Mass of what falls.", ["250 kg"], PART_MASS),
    dragArea: quantity("area", "Its drag area.", ["0.8 m^2"], AREA),
  })
  .meta({ description: "One thing that falls to the ground." });

const criteria = z
  .strictObject({
    clearance: quantity(
      "length",
      "Least distance of the aircraft from everything once it is free.",
      ["0.3 m"],
      PART_SIZE,
    ),
    exitSpeed: quantity("speed", "Least speed of the probe out of the socket as it leaves.", ["0.3 m/s"], SPEED),
    exitPitchRate: quantity("angularRate", "Largest pitch rate as it leaves, either way.", ["6 deg/s"], RATE),
    clean: quantity("number", "Least share of releases in rough air that are clean.", ["99 %"], {
      above: 0,
      below: 1,
      words: "larger than 0, below 100 %",
    }),
    confidence: quantity("number", "Confidence with which that share must be shown.", ["90 %"], {
      above: 0,
      below: 1,
      words: "larger than 0, below 100 %",
    }),
    carrierLoadFactor: quantity(
      "number",
      "Largest change of the carrier's load factor.",
      [0.2],
      upTo(5, "larger than 0, up to 5"),
    ),
  })
  .meta({ description: "What a release must meet, each with its source." });

/** Settings of the study `release`. */
export const release = z
  .strictObject({
    condition: words("Condition in which the carrier flies.", ["hook"]),
    masses: z
      .array(words("Loading of the carried aircraft.", ["full"]))
      .min(1)
      .meta({ description: "Loadings that are looked at, the heavy and the light." }),
    weightShare: quantity("number", "Part of the weight that hangs on the mechanism before anything opens.", ["15 %"], {
      atLeast: -2,
      atMost: 2,
      words: "-200 to 200 %",
    }),
    attachment: choice("How the aircraft hangs when the command comes.", ["three point", "single point"]),
    sequence: z
      .strictObject({
        aftPins: time("From the command until the aft pins are open.", "0.1 s"),
        nose: time("From the command until the nose latch is drawn back.", "0.6 s"),
        cut: time("From the emergency command until the probe is cut.", "0.15 s"),
        preset: quantity(
          "angle",
          "Elevator against that of free flight, set with the nose's command or the cut.",
          ["1 deg"],
          TURN,
        ),
        swungAway: z
          .array(words("Name of a body of the linkage.", ["aftYoke"]))
          .meta({ description: "Bodies of the linkage that have been moved out of the way before the nose opens." })
          .optional(),
      })
      .meta({ description: "Times of a normal and of an emergency release." }),
    bore: z
      .strictObject({
        friction: quantity("number", "Coefficient of friction of the probe in the bore.", [0.12], {
          atLeast: 0,
          atMost: 2,
          words: "0 to 2",
        }),
        sealFriction: quantity("force", "Friction of seals and wipers.", ["80 N"], FRICTION),
        startWithin: time("Time within which the withdrawal must have begun.", "0.5 s"),
        startTravel: quantity("length", "Travel that counts as begun.", ["10 mm"], LATCH_TRAVEL),
      })
      .meta({ description: "How the probe slides out of the socket." }),
    duration: quantity("time", "How long a separation is followed.", ["5 s"], upTo(60, "larger than 0, up to 60 s")),
    boomAngles: z
      .array(quantity("angle", "Boom angle below the horizontal.", ["52 deg"], BOOM_ANGLE))
      .min(1)
      .max(12)
      .meta({ description: "Poses from which a release is looked at." }),
    groups: z
      .record(
        name,
        quantity("number", "Fraction of its travel at which a group of gear or doors stands.", [1], {
          atLeast: 0,
          atMost: 1,
          words: "0 to 100 %",
        }),
      )
      .meta({ description: "Gear and doors of the carrier that do not stand at the beginning of their travel." })
      .optional(),
    proximity: table(
      "Increments of the coefficients near the carrier. A row for each combination of place of the c.g. aft of, right of and below the boom hinge, and angle of attack. Nothing holds beyond it: a run that leaves it counts as not analysed.",
      "release-proximity.csv",
      {
        aft: PLACE,
        right: PLACE,
        below: PLACE,
        alpha: { kind: "angle", range: TURN },
        ...{ CL: COEFFICIENT, CD: COEFFICIENT, CY: COEFFICIENT },
        ...{ Cl: COEFFICIENT, Cm: COEFFICIENT, Cn: COEFFICIENT },
      },
    ).optional(),
    cases: z.record(name, change).meta({ description: "Failures and departures from the normal release, by name." }),
    dispersion: z
      .strictObject({
        samples: whole("Separations drawn for each intensity.", [200], 1, 10_000_000),
        seed: whole("Seed of every random stream of the study; 1 when left out.", [1], 0, 2 ** 32).optional(),
        document: choice("Whose scale lengths; the spectra are Dryden's.", ["MIL-F-8785C", "MIL-HDBK-1797"]),
        sigmas: z
          .record(name, quantity("speed", "Intensity σ of the vertical gusts.", ["1.5 m/s"], SIGMA))
          .meta({ description: "Intensities of turbulence by name." }),
        design: words("Name of the intensity in which the criteria must hold.", ["light"]),
        pitch: quantity("angle", "Scatter of the pitch angle at the command (1σ).", ["0.3 deg"], TURN),
        bank: quantity("angle", "Scatter of the bank angle at the command (1σ).", ["1 deg"], TURN),
        timing: quantity("time", "Scatter of each opening time (1σ).", ["20 ms"], DELAY),
        friction: quantity("number", "Scatter of the friction, share of its value (1σ).", ["20 %"], {
          atLeast: 0,
          atMost: 1,
          words: "0 to 100 %",
        }),
      })
      .meta({ description: "What scatters from release to release." }),
    envelope: z
      .strictObject({
        airspeed: z
          .strictObject({
            from: airspeed("Lowest airspeed.", ["85 m/s EAS"]),
            to: airspeed("Highest airspeed.", ["125 m/s EAS"]),
          })
          .meta({ description: "Airspeeds of the envelope." }),
        loadFactors: z
          .array(quantity("number", "Load factor.", [1], FACTOR))
          .min(2)
          .max(12)
          .meta({ description: "Load factors of the envelope, rising." }),
        thrusts: z
          .array(quantity("force", "Thrust of the carried aircraft.", ["0 N"], THRUST))
          .min(2)
          .max(12)
          .meta({ description: "Thrusts that are tried for the largest one that still lets it go, rising." }),
      })
      .meta({ description: "Where a normal release is clean." }),
    jettison: z
      .strictObject({
        things: z.record(name, dropped).meta({ description: "What falls, by name." }),
        heights: z
          .array(quantity("length", "Height above the ground.", ["3000 m"], HEIGHT))
          .min(1)
          .max(6)
          .meta({ description: "Heights from which it falls." }),
        wind: quantity(
          "speed",
          "Wind at the flight height, against the track positive; it falls linearly to nothing at the ground.",
          ["15 m/s"],
          WIND,
        ),
        crosswind: quantity("speed", "Wind from the left at the flight height.", ["10 m/s"], WIND),
      })
      .meta({ description: "Footprint of what is jettisoned." })
      .optional(),
    severance: z
      .strictObject({
        stub: quantity("length", "Length of the probe that stays on the aircraft.", ["0.25 m"], PART_SIZE),
      })
      .meta({ description: "What a cut leaves." })
      .optional(),
    criteria,
  })
  .meta({ description: "Does it leave cleanly, in normal, emergency and jettison cases, from every pose?" });

export type ReleasePairSettings = z.output<typeof release>;
