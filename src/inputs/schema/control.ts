import * as z from "zod";
import { yesNo } from "./leaf.ts";
import {
  ANGLE_PER_LENGTH,
  ANGLE_PER_SPEED,
  CROSSOVER,
  DELAY,
  GAIN,
  LAG,
  PILOT_LEAD,
  RATE_GAIN,
  SURFACE_RATE,
} from "./ranges.ts";
import { quantity } from "./value.ts";

const AILERON_LIMIT = { above: 0, below: Math.PI / 2, words: "larger than 0, below 90 deg" };

const rollHold = z
  .strictObject({
    engaged: yesNo("Whether the roll hold works in the hooked states."),
    rollGain: quantity("number", "Aileron per roll angle, opposing.", [0.8], GAIN),
    rateGain: quantity("time", "Aileron per roll rate, opposing.", ["0.25 s"], RATE_GAIN),
    actuatorLag: quantity("time", "Time constant of the aileron actuator.", ["0.06 s"], LAG),
    aileronLimit: quantity("angle", "Largest aileron deflection either way.", ["20 deg"], AILERON_LIMIT),
  })
  .meta({ description: "A simple roll hold of the carried aircraft." });

const actuator = (surface: string) =>
  z
    .strictObject({
      lag: quantity("time", "Time constant.", ["0.06 s"], LAG),
      rate: quantity("angularRate", "Largest rate.", ["60 deg/s"], SURFACE_RATE),
      travel: quantity("angle", "Largest deflection from trim either way.", ["20 deg"], AILERON_LIMIT),
      delay: quantity("time", "Delay from sensor to actuator.", ["0.05 s"], DELAY),
    })
    .meta({ description: `Actuator of the ${surface}, with the delay of what drives it.` });

const actuators = z
  .strictObject({ elevator: actuator("elevator"), aileron: actuator("aileron"), rudder: actuator("rudder") })
  .meta({ description: "Actuators of the carried aircraft." });

const functions = {
  pitchHold: z
    .strictObject({
      pitchGain: quantity("number", "Elevator per pitch angle, opposing; 0 makes it a pitch damper.", [0.6], GAIN),
      rateGain: quantity("time", "Elevator per pitch rate, opposing.", ["0.3 s"], RATE_GAIN),
    })
    .meta({ description: "Holds pitch with the elevator." }),
  rollHold: z
    .strictObject({
      rollGain: quantity("number", "Aileron per roll angle, opposing.", [0.8], GAIN),
      rateGain: quantity("time", "Aileron per roll rate, opposing.", ["0.25 s"], RATE_GAIN),
    })
    .meta({ description: "Holds bank with the aileron." }),
  yawDamper: z
    .strictObject({
      rateGain: quantity("time", "Rudder per yaw rate, opposing.", ["0.4 s"], RATE_GAIN),
      washout: quantity("time", "Yaw that lasts longer is let pass.", ["2 s"], LAG),
    })
    .meta({ description: "Damps yaw with the rudder." }),
  heightHold: z
    .strictObject({
      heightGain: quantity("anglePerLength", "Pitch demand per height.", ["0.4 deg/m"], ANGLE_PER_LENGTH),
      climbGain: quantity("anglePerSpeed", "Pitch demand per vertical speed.", ["0.6 deg*s/m"], ANGLE_PER_SPEED),
    })
    .meta({ description: "Holds height through the pitch hold, which must be in the same set." }),
};

const gainSet = (state: string) =>
  z
    .strictObject({
      pitchHold: functions.pitchHold.optional(),
      rollHold: functions.rollHold.optional(),
      yawDamper: functions.yawDamper.optional(),
      heightHold: functions.heightHold.optional(),
    })
    .meta({ description: `Functions that work ${state}; one left out is off there.` });

const gains = z
  .strictObject({ free: gainSet("in free flight"), hooked: gainSet("while hooked") })
  .meta({ description: "The two gain sets of the autopilot." });

const pilot = z
  .strictObject({
    delay: quantity("time", "Delay from what is seen to the hand.", ["0.25 s"], DELAY),
    neuromuscularLag: quantity("time", "Lag of arm and stick.", ["0.1 s"], LAG),
    pitchCrossover: quantity("angularRate", "Where the pilot closes the pitch loop.", ["2 rad/s"], CROSSOVER),
    bankCrossover: quantity("angularRate", "Where the pilot closes the bank loop.", ["2 rad/s"], CROSSOVER),
    largestLead: quantity("time", "Largest lead that the pilot adopts.", ["2.5 s"], PILOT_LEAD),
    largestLag: quantity("time", "Largest lag that the pilot adopts.", ["10 s"], PILOT_LEAD),
  })
  .meta({ description: "A pilot of crossover type, in the aircraft or on the ground." });

export const control = z
  .strictObject({
    rollHold: rollHold.optional(),
    actuators: actuators.optional(),
    gains: gains.optional(),
    pilot: pilot.optional(),
  })
  .meta({ description: "Control laws, actuators and pilot of the carried aircraft." });
