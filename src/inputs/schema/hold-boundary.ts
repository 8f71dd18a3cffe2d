import * as z from "zod";
import { LEAST_DAMPING } from "./ranges.ts";
import { quantity } from "./value.ts";

/** Exact boundaries of hooked stability over two parameters; ranges are those of `sweeps`. */
export const boundary = z
  .strictObject({
    levels: z
      .array(quantity("number", "A damping ratio ζ.", [0.05], LEAST_DAMPING))
      .max(8)
      .meta({
        description:
          "Damping ratios whose curves are drawn beside the limit of stability and the criterion; 0.05 and 0.10 when left out.",
      })
      .optional(),
  })
  .meta({
    description: "Exact curves over stiffness, snubber rate, airspeed and boom angle, over the ranges of `sweeps`.",
  });
