import * as z from "zod";
import type { Range } from "../quantity/index.ts";
import { choice, whole, words } from "./leaf.ts";
import { name } from "./names.ts";
import { quantity } from "./value.ts";

const upTo = (atMost: number, words: string): Range => ({ above: 0, atMost, words });
const SIGMA = upTo(100, "larger than 0, up to 100 m/s");
const LOAD = upTo(1e9, "larger than 0, up to 1e9 N");
const TRAVEL = upTo(100, "larger than 0, up to 100 m");
const EXCURSION: Range = { above: 0, below: Math.PI / 2, words: "larger than 0, below 90 deg" };
const FACTOR: Range = { atLeast: -100, atMost: 100, words: "-100 to 100" };
const PROBABILITY: Range = { above: 0, below: 1, words: "larger than 0, below 100 %" };

const load = (describe: string, example: string) => quantity("force", describe, [example], LOAD).optional();
const travel = (describe: string, example: string) => quantity("length", describe, [example], TRAVEL).optional();
const excursion = (describe: string, example: string) => quantity("angle", describe, [example], EXCURSION).optional();

const limits = z
  .strictObject({
    socketTension: load("Limit load of the socket along the boom, pull or push, trim load included.", "40 kN"),
    socketShear: load(
      "Limit load of the socket across the boom in the swing plane, either way, trim load included.",
      "20 kN",
    ),
    socketSideLoad: load("Limit load of the socket to either side.", "10 kN"),
    latchLoad: load("Limit load of the nose latch: the pull along the flight path that holds the aircraft.", "15 kN"),
    jackTravel: travel("Jack travel from trim that is free, either way.", "60 mm"),
    tipTravel: travel("Way of the boom tip in the swing plane from trim, either way.", "0.25 m"),
    pitch: excursion("Pitch excursion from trim, either way.", "5 deg"),
    bank: excursion("Bank excursion, either way.", "15 deg"),
    loadFactor: z
      .strictObject({
        from: quantity("number", "Least load factor at the c.g., up positive.", [-0.5], FACTOR),
        to: quantity("number", "Largest load factor at the c.g., up positive.", [2.5], FACTOR),
      })
      .meta({ description: "Load factors that the hooked aircraft may see." })
      .optional(),
  })
  .meta({
    description: "Limit loads (not ultimate) and limits of motion that must hold in rough air, each with its source.",
  });

export const roughAir = z
  .strictObject({
    document: choice("Whose scale lengths and spectra.", ["MIL-F-8785C", "MIL-HDBK-1797"]),
    spectrum: choice("Form of the spectra.", ["Dryden", "von Karman"]),
    heightAboveGround: quantity(
      "length",
      "Height above ground, which sets the scale lengths below 2000 ft; the altitude of the condition when left out.",
      ["800 m"],
      {
        atLeast: 3.048,
        atMost: 1e5,
        words: "3.048 m to 100 000 m",
      },
    ).optional(),
    timeHooked: quantity(
      "time",
      "Time hooked at one point that the probability is asked for.",
      ["10 min"],
      upTo(1e6, "larger than 0, up to 1 000 000 s"),
    ),
    probability: quantity(
      "number",
      "Probability of passing any limit in that time that is accepted.",
      ["1 %"],
      PROBABILITY,
    ),
    sigmas: z
      .record(name, quantity("speed", "Intensity σ of the vertical gusts.", ["3.0 m/s"], SIGMA))
      .meta({ description: "Intensities of this project by name, in addition to the severities of the chart." }),
    design: words("Name of the intensity in which every limit must hold.", ["moderate"]),
    discreteGust: z
      .strictObject({
        reference: quantity(
          "speed",
          "Reference gust velocity, as equivalent airspeed, of a gradient of 350 ft.",
          ["7.5 m/s"],
          SIGMA,
        ),
        alleviation: quantity("number", "Flight profile alleviation factor.", [1], upTo(1, "larger than 0, up to 1")),
      })
      .meta({ description: "1-cosine gusts of 30 to 350 ft gradient; not searched when left out." })
      .optional(),
    simulation: z
      .strictObject({
        seeds: whole("Number of histories.", [3], 1, 1000),
        time: quantity(
          "time",
          "Length of each history that counts.",
          ["60 s"],
          upTo(1e5, "larger than 0, up to 100 000 s"),
        ),
        sigma: quantity("speed", "Intensity of the simulated gusts.", ["1 m/s"], SIGMA),
      })
      .meta({
        description: "Check of the linear answer by seeded simulation of the nonlinear pair; left out: no check.",
      })
      .optional(),
    limits,
  })
  .meta({ description: "How rough may the air be while the aircraft is hooked at one point?" });

export type RoughAirSettings = z.output<typeof roughAir>;
