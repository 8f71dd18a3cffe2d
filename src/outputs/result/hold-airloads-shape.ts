/** Form of the airloads from tables of `hold`; mirrors `studies/hold-airloads/types.ts`. */
import { dictionary, finite, flag, list, object, text } from "./shape.ts";

export const airloadsShape = object({
  points: list(
    object({
      ...{
        pointId: text,
        condition: text,
        mass: text,
        alpha_deg: finite,
        mach_1: finite,
        aft_m: finite,
        below_m: finite,
      },
      inside: flag,
      values: dictionary(finite),
    }),
  ),
});
