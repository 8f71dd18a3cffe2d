import * as z from "zod";
import { COORDINATE, PART_OFFSET, PART_SIZE } from "./ranges.ts";
import { quantity } from "./value.ts";

const FS = quantity("length", "Fuselage station.", ["18.6 m"], COORDINATE);

export const ground = z
  .strictObject({
    line: quantity("length", "Waterline of the ground, static, gear extended.", ["-1.60 m"], COORDINATE),
    flatTyre: quantity("length", "How far the ground line rises with the tyres flat.", ["0.20 m"], PART_OFFSET),
    bottomedStrut: quantity("length", "How far it rises with the struts bottomed.", ["0.18 m"], PART_OFFSET),
    mainWheels: z
      .strictObject({
        FS,
        BL: quantity(
          "length",
          "Buttline of the right main wheel; the left one is its mirror image.",
          ["4.5 m"],
          PART_SIZE,
        ),
      })
      .meta({ description: "Where the main wheels stand; the carrier rotates about them." }),
    noseWheel: z.strictObject({ FS }).meta({ description: "Where the nose wheel stands." }),
    aftCg: z
      .strictObject({ FS, WL: quantity("length", "Waterline.", ["1.9 m"], COORDINATE) })
      .meta({ description: "Aftmost centre of gravity on the ground, for tipping back." })
      .optional(),
    rotation: quantity("angle", "Rotation wanted at take-off and landing.", ["8 deg"], {
      above: 0,
      below: Math.PI / 4,
      words: "larger than 0, below 45 deg",
    }).optional(),
  })
  .meta({ description: "The carrier on the ground, gear extended." });

export type Ground = z.output<typeof ground>;
