import * as z from "zod";
import type { Quantity } from "../quantity/index.ts";
import { inertia } from "./carried.ts";
import type { Leaf } from "./leaf.ts";
import { choice } from "./leaf.ts";
import { point } from "./point.ts";
import {
  AIRCRAFT_MASS,
  AREA,
  COORDINATE,
  DERIVATIVE,
  REFERENCE_LENGTH,
  SPAN_EFFICIENCY,
  ZERO_LIFT_DRAG,
} from "./ranges.ts";
import { table } from "./table.ts";
import { quantity } from "./value.ts";

const perAngle = (describe: string, example: string): Leaf<Quantity> =>
  quantity("perAngle", describe, [example], DERIVATIVE);
const rate = (describe: string, example: number): Leaf<Quantity> =>
  quantity("rateDerivative", describe, [example], DERIVATIVE);

const derivatives = z
  .strictObject({
    axes: z
      .strictObject({
        moments: choice("Axes of the moment derivatives.", ["stability", "body"]),
        liftDrag: choice("Axes of lift and drag: wind, drag along the airspeed.", ["wind"]),
        sideForce: choice("Axes of the side force derivatives, as for the carried aircraft.", [
          "wind",
          "stability",
          "body",
        ]),
      })
      .meta({ description: "Axes in which the carrier's derivatives are given. Nothing is assumed." }),
    drag: z
      .strictObject({
        CD0: quantity("number", "Drag coefficient at zero lift, boom extended.", [0.0265], ZERO_LIFT_DRAG),
        spanEfficiency: quantity("number", "Span efficiency e in CL²/(π A e).", [0.8], SPAN_EFFICIENCY),
      })
      .meta({ description: "Drag polar of the carrier." }),
    lift: z
      .strictObject({
        CLalpha: perAngle("Lift with angle of attack.", "5.6 1/rad"),
        CLq: rate("Lift with pitch rate, per q c/2V.", 8),
        CLalphadot: rate("Lift with rate of angle of attack, per α̇ c/2V.", 2),
        CLelevator: perAngle("Lift with elevator.", "0.45 1/rad").optional(),
      })
      .meta({ description: "Lift derivatives; the lift at trim follows from the balance." }),
    pitch: z
      .strictObject({
        Cmalpha: perAngle("Pitching moment with angle of attack.", "-1.2 1/rad"),
        Cmq: rate("Pitching moment with pitch rate, per q c/2V.", -22),
        Cmalphadot: rate("Pitching moment with rate of angle of attack, per α̇ c/2V.", -6),
        Cmelevator: perAngle("Pitching moment with elevator, for the change of trim.", "-1.7 1/rad").optional(),
      })
      .meta({ description: "Pitching moment derivatives about the carrier's c.g." }),
    side: z
      .strictObject({
        CYbeta: perAngle("Side force with sideslip.", "-0.9 1/rad"),
        CYp: rate("Side force with roll rate, per p b/2V.", -0.05),
        CYr: rate("Side force with yaw rate, per r b/2V.", 0.35),
      })
      .meta({ description: "Side force derivatives." }),
    roll: z
      .strictObject({
        Clbeta: perAngle("Rolling moment with sideslip.", "-0.10 1/rad"),
        Clp: rate("Rolling moment with roll rate, per p b/2V.", -0.52),
        Clr: rate("Rolling moment with yaw rate, per r b/2V.", 0.18),
      })
      .meta({ description: "Rolling moment derivatives about the carrier's c.g." }),
    yaw: z
      .strictObject({
        Cnbeta: perAngle("Yawing moment with sideslip.", "0.11 1/rad"),
        Cnp: rate("Yawing moment with roll rate, per p b/2V.", -0.06),
        Cnr: rate("Yawing moment with yaw rate, per r b/2V.", -0.17),
      })
      .meta({ description: "Yawing moment derivatives about the carrier's c.g." }),
  })
  .meta({
    description: "Derivatives of the carrier about its trim, controls fixed; one that is not known is written as 0.",
  });

/** The carrier's own motion. */
export const dynamics = z
  .strictObject({
    mass: quantity("mass", "Mass of the carrier without the carried aircraft.", ["58 t"], AIRCRAFT_MASS),
    cg: point("Centre of gravity of the carrier in its stations, without the carried aircraft."),
    inertia,
    reference: z
      .strictObject({
        area: quantity("area", "Reference wing area.", ["146 m^2"], AREA),
        span: quantity("length", "Reference span.", ["38.6 m"], REFERENCE_LENGTH),
        chord: quantity("length", "Reference chord.", ["4.05 m"], REFERENCE_LENGTH),
      })
      .meta({ description: "Reference area and lengths of the carrier's coefficients." }),
    derivatives,
  })
  .meta({ description: "The carrier as a rigid body: without it, the carrier flies steadily whatever pulls at it." });

const ANGLE = { atLeast: -Math.PI / 6, atMost: Math.PI / 6, words: "-30 to 30 deg" };
const RATIO = { atLeast: 0.1, atMost: 4, words: "0.1 to 4" };

/** Air that the carrier moves. */
export const flow = table(
  "Air under the carrier against the place of the carried aircraft's c.g. below the boom hinge: downwash (air goes down), sidewash (air goes right), local over undisturbed dynamic pressure.",
  "carrier-flow.csv",
  {
    below: { kind: "length", breakpoints: true, range: COORDINATE },
    downwash: { kind: "angle", range: ANGLE },
    sidewash: { kind: "angle", range: ANGLE },
    pressureRatio: { kind: "number", range: RATIO },
  },
);
