import * as z from "zod";
import { COORDINATE } from "./ranges.ts";
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
