import * as z from "zod";
import type { Range } from "../quantity/index.ts";
import { CROSSOVER, DELAY, GAIN, LAG, PILOT_LEAD, RATE_GAIN } from "./ranges.ts";
import { quantity } from "./value.ts";

const PER_TIME: Range = { atLeast: 0, atMost: 100, words: "0 to 100 1/s" };
const SPEED: Range = { above: 0, atMost: 100, words: "larger than 0, up to 100 m/s" };
const ANGLE: Range = { above: 0, below: Math.PI / 2, words: "larger than 0, below 90 deg" };
const WITHIN: Range = { atLeast: 0, atMost: 1000, words: "0 to 1000 m" };
const THRESHOLD: Range = { atLeast: 0, atMost: 100, words: "0 to 100 m" };
const SPEED_THRESHOLD: Range = { atLeast: 0, atMost: 100, words: "0 to 100 m/s" };
const DENSITY: Range = { atLeast: 0, atMost: 10, words: "0 to 10 s/rad" };

const perTime = (describe: string, example: string) => quantity("perTime", describe, [example], PER_TIME);

const outer = z
  .strictObject({
    forward: perTime("Speed demand per distance along the flight.", "0.3 1/s"),
    lateral: perTime("Speed demand per distance across.", "0.35 1/s"),
    vertical: perTime("Speed demand per distance vertically.", "0.65 1/s"),
    forwardSpeed: perTime("Acceleration demand per speed error along the flight, by thrust.", "0.75 1/s"),
    lateralSpeed: perTime("Acceleration demand per speed error across, by bank.", "0.9 1/s"),
    path: quantity("number", "Pitch demand per error of the path angle.", [2.5], GAIN),
    integral: perTime("What of each distance is summed up with time; 0 for none.", "0.08 1/s"),
    integralWithin: quantity("length", "It is summed up nearer to the demanded place than this.", ["0.6 m"], WITHIN),
    largestSpeed: quantity("speed", "Largest speed towards the demanded place, each axis.", ["1.5 m/s"], SPEED),
    largestBank: quantity("angle", "Largest bank demand either way.", ["10 deg"], ANGLE),
    largestPitch: quantity("angle", "Largest pitch demand from trim either way.", ["4 deg"], ANGLE),
  })
  .meta({ description: "From distances to the demanded place to pitch, bank and thrust." });

const dampers = {
  pitchRate: quantity("time", "Elevator per pitch rate, opposing.", ["0.24 s"], RATE_GAIN),
  rollRate: quantity("time", "Aileron per roll rate, opposing.", ["0.12 s"], RATE_GAIN),
  yawRate: quantity("time", "Rudder per yaw rate beyond that of the turn, opposing.", ["0.5 s"], RATE_GAIN),
};

const autopilot = z
  .strictObject({
    kind: z.literal("autopilot").meta({ description: "Attitude loops with constant gains." }),
    delay: quantity("time", "Delay from what is computed to the actuators.", ["40 ms"], DELAY),
    outer,
    inner: z
      .strictObject({
        pitch: quantity("number", "Elevator per pitch error.", [1.0], GAIN),
        pitchIntegral: perTime("Elevator per pitch error and time; 0 for none.", "0.5 1/s"),
        bank: quantity("number", "Aileron per bank error.", [0.6], GAIN),
        ...dampers,
      })
      .meta({ description: "Attitude loops." }),
  })
  .meta({ description: "An autopilot." });

const pilot = z
  .strictObject({
    kind: z.literal("pilot").meta({ description: "A pilot of crossover type tracks pitch and bank." }),
    delay: quantity("time", "Delay from what is seen to the hand; link and display are in it.", ["0.30 s"], DELAY),
    neuromuscularLag: quantity("time", "Lag of arm and stick.", ["0.1 s"], LAG),
    pitchCrossover: quantity("angularRate", "Where the pilot closes the pitch loop.", ["0.8 rad/s"], CROSSOVER),
    bankCrossover: quantity("angularRate", "Where the pilot closes the bank loop.", ["1.2 rad/s"], CROSSOVER),
    largestLead: quantity("time", "Largest lead that the pilot adopts.", ["2.5 s"], PILOT_LEAD),
    largestLag: quantity("time", "Largest lag that the pilot adopts.", ["10 s"], PILOT_LEAD),
    remnant: quantity(
      "perAngularRate",
      "Noise on what the pilot tracks: its two-sided density over the mean square of what is tracked.",
      ["0.005 s/rad"],
      DENSITY,
    ),
    placeThreshold: quantity("length", "Distances below this are not acted on.", ["5 cm"], THRESHOLD),
    speedThreshold: quantity("speed", "Speed errors below this are not acted on.", ["0.03 m/s"], SPEED_THRESHOLD),
    outer,
    dampers: z.strictObject(dampers).meta({ description: "Rate dampers that work on beside the pilot." }),
  })
  .meta({ description: "A pilot." });

/** What may fly the approach. */
export const controller = z
  .discriminatedUnion("kind", [autopilot, pilot])
  .meta({ description: "What flies the carried aircraft to the socket." });
