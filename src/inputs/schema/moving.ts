import * as z from "zod";
import { words, yesNo } from "./leaf.ts";
import { name } from "./names.ts";
import { direction, point } from "./point.ts";
import { shapes } from "./shapes.ts";
import { table } from "./table.ts";

const part = z
  .strictObject({
    group: words("What moves together, by one fraction of travel.", ["gear"]),
    hinge: z
      .strictObject({
        at: point("A point of the hinge line."),
        axis: direction("Hinge line. A right-handed turn about it is positive."),
      })
      .meta({ description: "Hinge of the part on the carrier." }),
    travel: table("Angle against the fraction of travel; 0 is as drawn.", "main-gear.csv", {
      fraction: { kind: "number", breakpoints: true },
      angle: { kind: "angle" },
    }),
    shapes: shapes("Shapes of the part by name, as drawn at fraction 0 (retracted or closed)."),
    hangsOn: z
      .array(words("A shape of the carrier.", ["gearFairingRight"]))
      .meta({
        description:
          "Shapes of the carrier that the part hangs on or is stowed in; it is measured against all others. Without the key it is measured against none. The mirrored part takes Left for Right, where there is such a shape.",
      })
      .optional(),
    mirrored: yesNo("Whether the other side has one too; its name has Left for Right, or Right for Left.").optional(),
  })
  .meta({ description: "A part of the carrier that swings: gear leg or door." });

/** A gear leg or door as written; the mirrored one is not written out. */
export type MovingPart = z.output<typeof part>;

export const moving = z.record(name, part).meta({ description: "Gear legs and doors of the carrier by name." });

/** Name of the mirrored part: Right and Left swapped; undefined when the name has neither or both. */
export function mirroredName(of: string): string | undefined {
  const [right, left] = [of.split("Right"), of.split("Left")];
  if (right.length + left.length !== 3) return undefined;
  return right.length === 2 ? right.join("Left") : left.join("Right");
}
