import * as z from "zod";
import { choice } from "./leaf.ts";
import { COORDINATE, DIRECTION } from "./ranges.ts";
import { quantity } from "./value.ts";

/** A point in the stations of one aircraft: aft, right, up. */
export const point = (describe: string) =>
  z
    .strictObject({
      FS: quantity("length", "Fuselage station, positive aft of the datum.", ["4.30 m", "169.3 in"], COORDINATE),
      BL: quantity("length", "Buttline, positive to the right of the symmetry plane.", ["0 m", "-0.55 m"], COORDINATE),
      WL: quantity("length", "Waterline, positive up from the datum.", ["1.00 m"], COORDINATE),
    })
    .meta({ description: describe });

/** A direction in the stations of one aircraft: aft, right, up; its length does not count. */
export const direction = (describe: string) =>
  z
    .strictObject({
      FS: quantity("number", "Part aft.", [1, 0], DIRECTION),
      BL: quantity("number", "Part to the right.", [0], DIRECTION),
      WL: quantity("number", "Part up.", [0], DIRECTION),
    })
    .meta({ description: describe });

/** Points of the carried aircraft that may be named instead of written out. */
export const NAMED_POINTS = ["probeTip", "aftPinLeft", "aftPinRight", "aftPinCentre"] as const;
export type NamedPoint = (typeof NAMED_POINTS)[number];

/** A point in the carrier's stations as drawn, or the name of a point of the carried aircraft. */
export const pointOrName = (describe: string) =>
  z
    .union([
      choice("A point of the carried aircraft; aftPinCentre is the middle of the two aft pins.", NAMED_POINTS),
      point("A point in the carrier's stations, as drawn at the stowed pose."),
    ])
    .meta({ description: describe });
