import * as z from "zod";
import type { Airspeed, KindName, Quantity, Range } from "../quantity/index.ts";
import { attachment } from "./attachment.ts";
import { balance } from "./balance.ts";
import { certainty } from "./certainty.ts";
import { ALTITUDE, WEIGHT_SHARE } from "./conditions.ts";
import { fit } from "./fit.ts";
import { boundary } from "./hold-boundary.ts";
import { holdControl } from "./hold-control.ts";
import { equilibrium } from "./hold-equilibrium.ts";
import { holdSnubber } from "./hold-snubber.ts";
import { hookon } from "./hookon.ts";
import type { Leaf } from "./leaf.ts";
import { whole, words } from "./leaf.ts";
import { BOOM_ANGLE, LEAST_DAMPING, LEAST_TIME, STIFFNESS, SWEPT_DAMPING_RATE } from "./ranges.ts";
import { release } from "./release.ts";
import { roughAir } from "./rough-air.ts";
import { scaling } from "./scaling.ts";
import { airspeed, quantity } from "./value.ts";

/** Ends of something that is gone through. */
const span = <T extends Quantity | Airspeed>(describe: string, end: () => Leaf<T>) =>
  z.strictObject({ from: end(), to: end() }).meta({ description: describe });

const range = (describe: string, kind: KindName, example: string, limits?: Range) =>
  span(describe, () => quantity(kind, "One end.", [example], limits)).optional();

const speeds = (describe: string) => span(describe, () => airspeed("One end.", ["85 m/s EAS"]));

const sweeps = z
  .strictObject({
    airspeed: speeds("Airspeeds gone through.").optional(),
    boomAngle: range("Boom angles gone through.", "angle", "14 deg", BOOM_ANGLE),
    altitude: range("Pressure altitudes gone through.", "length", "6000 m", ALTITUDE),
    weightShare: range("Weight shares gone through.", "number", "40 %", WEIGHT_SHARE),
    snubber: range("Tip-referred snubber rates gone through.", "dampingRate", "100 kN*s/m", SWEPT_DAMPING_RATE),
    bending: range("Bending stiffnesses gone through.", "stiffness", "5 MN/m", STIFFNESS),
    accumulator: range("Tip-referred accumulator stiffnesses gone through.", "stiffness", "1 MN/m", STIFFNESS),
  })
  .meta({ description: "What is gone through; the study decides on what is left out." });

const ANGLE = { above: 0, below: Math.PI / 2, words: "larger than 0, below 90 deg" };

const upset = z
  .strictObject({
    pitch: quantity("angle", "Pitch upset at the start.", ["1 deg"], ANGLE),
    pitchLimit: quantity("angle", "Pitch excursion at which the pilot's time ends.", ["10 deg"], ANGLE),
    roll: quantity("angle", "Roll upset at the start.", ["2 deg"], ANGLE),
    rollLimit: quantity("angle", "Roll excursion at which the pilot's time ends.", ["30 deg"], ANGLE),
  })
  .meta({ description: "How long a pilot has: from a stated upset to a stated limit." });

const criteria = z
  .strictObject({
    rigidBodyDamping: quantity(
      "number",
      "Least damping ratio ζ of rigid-body-type oscillations.",
      [0.03],
      LEAST_DAMPING,
    ),
    structuralDamping: quantity("number", "Least damping ratio ζ of structural oscillations.", [0.01], LEAST_DAMPING),
    timeToDouble: quantity("time", "Least time to double of a real root that grows.", ["20 s"], LEAST_TIME),
  })
  .meta({ description: "What the hooked pair must meet, each with its source." });

const hold = z
  .strictObject({
    conditions: z.array(words("Name of a condition.")).min(1).meta({ description: "Conditions that are looked at." }),
    speedBand: speeds("Airspeeds at which the hooked pair may be flown."),
    sweeps: sweeps.optional(),
    upset,
    criteria,
    attachment: attachment.optional(),
    roughAir: roughAir.optional(),
    control: holdControl.optional(),
    boundary: boundary.optional(),
    equilibrium: equilibrium.optional(),
    snubber: holdSnubber.optional(),
    scaling: scaling.optional(),
    seed: whole("Seed of every random stream of the study; 1 when left out.", [1], 0, 2 ** 32).optional(),
    certainty: certainty.optional(),
  })
  .meta({ description: "Is the hooked pair stable?" });

export const studies = z
  .strictObject({
    hold: hold.optional(),
    fit: fit.optional(),
    hookon: hookon.optional(),
    release: release.optional(),
    balance: balance.optional(),
  })
  .meta({ description: "What each study looks at." });
