import * as z from "zod";
import { choice, words } from "./leaf.ts";
import { name } from "./names.ts";
import { COORDINATE, PART_OFFSET, PART_SIZE } from "./ranges.ts";
import { quantity } from "./value.ts";

const length = (describe: string, example: string) => quantity("length", describe, [example], PART_OFFSET);

const criteria = z
  .strictObject({
    staticClearance: length("Least clearance at rest, surfaces at their nearest.", "25.4 mm"),
    movingClearance: length("Least clearance while something moves.", "75 mm"),
    transmissionAngle: quantity("angle", "Least transmission angle along the stroke.", ["30 deg"], {
      atLeast: 0,
      below: Math.PI / 2,
      words: "0 deg to below 90 deg",
    }),
  })
  .meta({ description: "What the fit must meet, each with its source." });

const loading = z
  .strictObject({
    dollyHeight: quantity(
      "length",
      "Waterline 0 of the carried aircraft above the ground, on the dolly.",
      ["0.55 m"],
      COORDINATE,
    ),
    from: choice("From where the dolly rolls under the carrier.", ["aft", "forward"]),
    margin: length("Clearance wanted on the way in.", "50 mm"),
  })
  .meta({ description: "Loading the carried aircraft on the ground." });

export const fit = z
  .strictObject({
    criteria,
    near: quantity("length", "Clearance below which the map shows near.", ["150 mm"], PART_SIZE),
    apart: z
      .array(
        z
          .array(
            words(
              "A body (carrier, carried, a body of the mechanism or a moving part), or one of its shapes as body.shape.",
              ["boom", "carrier.bay"],
            ),
          )
          .length(2)
          .meta({ description: "Two bodies, or shapes of two bodies." }),
      )
      .meta({
        description:
          "Pairs that touch by design and are left out: of two bodies every shape, of a body.shape that one alone. Bodies that a joint joins are left out anyway where they are near as drawn.",
      })
      .optional(),
    stack: z
      .record(name, length("Taken off every clearance.", "12 mm"))
      .meta({
        description: "Allowances taken off the clearances, by name: build, deflection, thermal. Worst case is the sum.",
      })
      .optional(),
    loading: loading.optional(),
  })
  .meta({ description: "Does every pose clear?" });

export type FitSettings = z.output<typeof fit>;
