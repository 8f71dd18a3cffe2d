import * as z from "zod";
import { aftPins } from "./attachment.ts";
import { boomStructure } from "./boom-structure.ts";
import { hydraulics } from "./hydraulics.ts";
import { latch } from "./latch.ts";
import { words } from "./leaf.ts";
import { linkage } from "./linkage.ts";
import { point } from "./point.ts";
import {
  AMPLITUDE,
  BOOM_ANGLE,
  BOOM_LENGTH,
  DAMPING_RATE,
  FREQUENCY,
  PART_MASS,
  QUADRATIC_RATE,
  STIFFNESS,
  TIP_PER_JACK,
} from "./ranges.ts";
import { socket } from "./socket.ts";
import { table } from "./table.ts";
import { quantity } from "./value.ts";

const CENTRE = { above: 0, atMost: 100, words: "larger than 0, up to the length of the boom" };

const boom = z
  .strictObject({
    hinge: point("Root hinge of the boom, in the carrier's stations."),
    length: quantity("length", "From the root hinge to the socket.", ["5.600 m"], BOOM_LENGTH),
    angle: z
      .strictObject({
        stowed: quantity("angle", "Angle below the horizontal when stowed.", ["14 deg"], BOOM_ANGLE),
        extended: quantity("angle", "Angle below the horizontal when fully extended.", ["52 deg"], BOOM_ANGLE),
      })
      .meta({ description: "Ends of the boom's travel, measured below the horizontal." }),
    bending: quantity(
      "stiffness",
      "Bending stiffness at the tip in the swing plane.",
      ["90 kN/m ± 8 % (1σ)"],
      STIFFNESS,
    ).optional(),
    axial: quantity("stiffness", "Stiffness at the tip along the boom.", ["6 MN/m"], STIFFNESS).optional(),
    lateral: quantity("stiffness", "Stiffness at the tip sideways.", ["0.6 MN/m"], STIFFNESS).optional(),
    structuralDamping: quantity("number", "Damping ratio ζ of the boom's own springs in the hooked mode.", [0.015], {
      atLeast: 0,
      below: 1,
      words: "a damping ratio ζ from 0 to below 1",
    }),
    effectiveTipMass: quantity(
      "mass",
      "Mass of the mechanism that moves with the tip.",
      ["135 kg"],
      PART_MASS,
    ).optional(),
    structure: boomStructure.optional(),
    ownWeight: z
      .strictObject({
        mass: quantity("mass", "Mass of the boom.", ["310 kg"], PART_MASS),
        centreFromHinge: quantity("length", "From the root hinge to the boom's centre of mass.", ["2.6 m"], CENTRE),
      })
      .meta({ description: "Weight of the boom itself; left out of the jack load when absent." })
      .optional(),
  })
  .meta({ description: "The swinging boom that carries the socket." });

const jack = z
  .strictObject({
    ratio: table(
      "Tip travel per jack travel along the stroke; taken from mechanism.linkage where that is drawn.",
      "tip-per-jack.csv",
      {
        boomAngle: { kind: "angle", breakpoints: true, range: BOOM_ANGLE },
        tipPerJack: { kind: "number", range: TIP_PER_JACK },
      },
    ).optional(),
  })
  .meta({ description: "The retract jack." });

const REFERRED = "Whether the values hold at the jack, or were referred to the tip at the stated boom angle.";
const AT_TIP = "Values referred to the tip, with the boom angle at which they hold.";
const AT_JACK = "Values at the jack itself.";
const atTip = z.literal("tip").meta({ description: REFERRED });
const atJack = z.literal("jack").meta({ description: REFERRED });
const referenceAngle = quantity("angle", "Boom angle at which the tip-referred values hold.", ["52 deg"], BOOM_ANGLE);

const accumulatorValues = {
  stiffness: quantity("stiffness", "Spring rate of the accumulator.", ["20 kN/m ± 10 % (1σ)"], STIFFNESS),
};

const snubberValues = {
  C1: quantity("dampingRate", "Bleed coefficient: force per speed.", ["3.0 kN*s/m"], DAMPING_RATE),
  C2: quantity("quadraticRate", "Orifice coefficient: force per speed squared.", ["5 kN*s^2/m^2"], QUADRATIC_RATE),
  amplitude: quantity("length", "Amplitude across the snubber for the equivalent rate.", ["22.5 mm"], AMPLITUDE),
  frequency: quantity("frequency", "Frequency for the equivalent rate.", ["0.83 Hz"], FREQUENCY),
  equivalent: quantity(
    "dampingRate",
    "Overrides the equivalent rate that C1, C2, amplitude and frequency give.",
    ["3.5 kN*s/m ± 10 % (1σ)"],
    DAMPING_RATE,
  ).optional(),
};

export const mechanism = z
  .strictObject({
    name: words("Name of the mechanism.", ["Trapeze Rig 3"]),
    boom,
    jack: jack.optional(),
    accumulator: z
      .discriminatedUnion("referredTo", [
        z
          .strictObject({ ...accumulatorValues, referredTo: atTip, atBoomAngle: referenceAngle })
          .meta({ description: AT_TIP }),
        z.strictObject({ ...accumulatorValues, referredTo: atJack }).meta({ description: AT_JACK }),
      ])
      .meta({ description: "Accumulator of the retract jack, a spring beside the snubber." }),
    snubber: z
      .discriminatedUnion("referredTo", [
        z
          .strictObject({ referredTo: atTip, atBoomAngle: referenceAngle, ...snubberValues })
          .meta({ description: AT_TIP }),
        z.strictObject({ referredTo: atJack, ...snubberValues }).meta({ description: AT_JACK }),
      ])
      .meta({ description: "Snubber: force = C1·v + C2·v|v|." }),
    hydraulics: hydraulics.optional(),
    linkage: linkage.optional(),
    socket: socket.optional(),
    latch: latch.optional(),
    aftPins: aftPins.optional(),
  })
  .meta({ description: "The mechanism that holds the carried aircraft." });
