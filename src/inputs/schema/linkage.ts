import * as z from "zod";
import { choice, words } from "./leaf.ts";
import { name } from "./names.ts";
import { direction, point, pointOrName } from "./point.ts";
import { BOOM_ANGLE, CAPACITY, PART_SIZE } from "./ranges.ts";
import { shapes } from "./shapes.ts";
import { quantity } from "./value.ts";

const kind = <const K extends string>(word: K, describe: string) => z.literal(word).meta({ description: describe });

const between = z
  .array(words("A body of the mechanism, or carrier or carried.", ["carrier", "boom"]))
  .length(2)
  .meta({ description: "The two bodies that are joined." });

const joined = {
  between,
  at: pointOrName("Where they are joined."),
  drawnAt: point("Where the drawing shows a named point, carrier stations, stowed pose; checked, not used.").optional(),
};

const hinge = z
  .strictObject({
    kind: kind("hinge", "Both bodies share a point and a line."),
    ...joined,
    axis: direction("Hinge line at the stowed pose; to the right (lateral) when left out.").optional(),
  })
  .meta({ description: "Hinge." });

const ball = z
  .strictObject({ kind: kind("ball", "Both bodies share a point and turn freely."), ...joined })
  .meta({ description: "Ball joint." });

const slider = z
  .strictObject({
    kind: kind("slider", "The second body moves along a line of the first and does not turn."),
    ...joined,
    axis: direction("Line of travel at the stowed pose."),
  })
  .meta({ description: "Slider." });

const rod = z
  .strictObject({
    kind: kind("rod", "A rod with ball ends holds the distance of two points."),
    between,
    from: pointOrName("End on the first body."),
    to: pointOrName("End on the second body."),
  })
  .meta({ description: "Rod of fixed length." });

const joint = z
  .discriminatedUnion("kind", [hinge, ball, slider, rod])
  .meta({ description: "How two bodies are joined." });

/** A joint as written, by its `kind`. */
export type Joint = z.output<typeof joint>;

const PITCH = { above: -Math.PI / 4, below: Math.PI / 4, words: "between -45 and 45 deg" };

const tolerance = (describe: string, example: string) => quantity("length", describe, [example], PART_SIZE);

export const linkage = z
  .strictObject({
    stowed: z
      .strictObject({
        boomAngle: quantity(
          "angle",
          "Boom angle below the horizontal at which the mechanism is drawn.",
          ["14 deg"],
          BOOM_ANGLE,
        ),
        carriedPitch: quantity(
          "angle",
          "Pitch of the carried aircraft to the carrier there, nose up positive.",
          ["0 deg"],
          PITCH,
        ),
      })
      .meta({ description: "The pose in which the mechanism is drawn; the probe tip is in the socket." }),
    bodies: z
      .record(
        name,
        z
          .strictObject({
            shapes: shapes("Shapes of the body by name, as drawn, in the carrier's stations.").optional(),
          })
          .meta({ description: "One body." }),
      )
      .meta({ description: "Moving bodies of the mechanism by name, besides carrier and carried." }),
    joints: z.record(name, joint).meta({ description: "Joints by name." }),
    jack: z
      .strictObject({
        between,
        from: point("End on the first body, carrier stations, as drawn."),
        to: point("End on the second body, carrier stations, as drawn."),
      })
      .meta({ description: "The retract jack, which drives the mechanism." }),
    attached: choice(
      "three point: the carried aircraft is held by every joint and links boom and yoke; single point: it hangs by the probe at the stated pitch.",
      ["three point", "single point"],
    ),
    tolerances: z
      .strictObject({
        points: tolerance(
          "Either way, for each coordinate of each joint point that states no uncertainty itself.",
          "2 mm",
        ),
        each: z
          .record(name, tolerance("Either way, for each coordinate of this joint's points.", "1 mm"))
          .meta({ description: "Joints with a tolerance of their own, by name; jack is the jack." })
          .optional(),
      })
      .meta({ description: "Bounds on the places of the joint points, as built." })
      .optional(),
    jackCapacity: quantity("force", "Force that the jack can hold along the stroke.", ["142 kN"], CAPACITY).optional(),
  })
  .meta({ description: "Bodies, joints and jack of the mechanism, as drawn at the stowed pose." });

export type Linkage = z.output<typeof linkage>;
