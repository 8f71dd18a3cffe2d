import * as z from "zod";
import type { Quantity } from "../quantity/index.ts";
import { tables } from "./airload-tables.ts";
import type { Leaf } from "./leaf.ts";
import { choice } from "./leaf.ts";
import { point } from "./point.ts";
import { DERIVATIVE, PLAIN_DERIVATIVE, SPAN_EFFICIENCY, ZERO_LIFT_DRAG } from "./ranges.ts";
import { quantity } from "./value.ts";

const number = (describe: string, example: number): Leaf<Quantity> =>
  quantity("number", describe, [example], PLAIN_DERIVATIVE);
const perAngle = (describe: string, example: string): Leaf<Quantity> =>
  quantity("perAngle", describe, [example], DERIVATIVE);
const rate = (describe: string, example: number): Leaf<Quantity> =>
  quantity("rateDerivative", describe, [example], DERIVATIVE);

const axes = z
  .strictObject({
    moments: choice("Axes of the rolling, pitching and yawing moment derivatives.", ["stability", "body"]),
    liftDrag: choice("Axes of lift and drag: wind, drag along the airspeed.", ["wind"]),
    sideForce: choice(
      "Axes of the side force derivatives. wind: normal to the airspeed, drag adds its own sideways part; stability or body: the whole side force along body y, the drag's part included.",
      ["wind", "stability", "body"],
    ),
  })
  .meta({ description: "Axes in which the derivatives are given. Nothing is assumed." });

const drag = z
  .strictObject({
    CD0: quantity("number", "Drag coefficient at zero lift.", [0.026], ZERO_LIFT_DRAG),
    spanEfficiency: quantity("number", "Span efficiency e in CL²/(π A e).", [0.8], SPAN_EFFICIENCY),
  })
  .meta({ description: "Drag polar CD0 + CL²/(π A e)." });

const lift = z
  .strictObject({
    CL0: number("Lift coefficient at zero angle of attack.", 0.18),
    CLalpha: perAngle("Lift with angle of attack.", "5.0 1/rad"),
    CLq: rate("Lift with pitch rate, per q c/2V.", 6.0),
    CLalphadot: rate("Lift with rate of angle of attack, per α̇ c/2V.", 1.8),
    CLelevator: perAngle("Lift with elevator, trailing edge down positive.", "0.40 1/rad"),
  })
  .meta({ description: "Lift derivatives." });

const pitch = z
  .strictObject({
    Cm0: number("Pitching moment coefficient at zero angle of attack.", 0.02),
    Cmalpha: perAngle("Pitching moment with angle of attack.", "-0.65 1/rad ± 10 % (1σ)"),
    Cmq: rate("Pitching moment with pitch rate, per q c/2V.", -12),
    Cmalphadot: rate("Pitching moment with rate of angle of attack, per α̇ c/2V.", -3.5),
    Cmelevator: perAngle("Pitching moment with elevator, trailing edge down positive.", "-1.05 1/rad"),
  })
  .meta({ description: "Pitching moment derivatives about the moment reference, nose up positive." });

const side = z
  .strictObject({
    CYbeta: perAngle("Side force with sideslip.", "-0.66 1/rad"),
    CYp: rate("Side force with roll rate, per p b/2V.", -0.03),
    CYr: rate("Side force with yaw rate, per r b/2V.", 0.25),
    CYaileron: perAngle("Side force with aileron.", "0 1/rad"),
    CYrudder: perAngle("Side force with rudder, trailing edge left positive.", "0.16 1/rad"),
  })
  .meta({ description: "Side force derivatives, force to the right positive." });

const roll = z
  .strictObject({
    Clbeta: perAngle("Rolling moment with sideslip.", "-0.022 1/rad ± 35 % (1σ)"),
    Clp: rate("Rolling moment with roll rate, per p b/2V.", -0.5),
    Clr: rate("Rolling moment with yaw rate, per r b/2V.", 0.14),
    Claileron: perAngle("Rolling moment with aileron, right wing down positive.", "0.12 1/rad"),
    Clrudder: perAngle("Rolling moment with rudder.", "0.012 1/rad"),
  })
  .meta({ description: "Rolling moment derivatives, right wing down positive." });

const yaw = z
  .strictObject({
    Cnbeta: perAngle("Yawing moment with sideslip.", "0.085 1/rad ± 10 % (1σ)"),
    Cnp: rate("Yawing moment with roll rate, per p b/2V.", -0.04),
    Cnr: rate("Yawing moment with yaw rate, per r b/2V.", -0.2),
    Cnaileron: perAngle("Yawing moment with aileron.", "-0.006 1/rad"),
    Cnrudder: perAngle("Yawing moment with rudder.", "-0.075 1/rad"),
  })
  .meta({ description: "Yawing moment derivatives, nose right positive." });

const derivatives = z
  .strictObject({
    kind: z.literal("derivatives").meta({ description: "Nondimensional derivatives." }),
    axes,
    momentReference: point("Point about which the moments are given; they are transferred to each c.g."),
    drag,
    lift,
    pitch,
    side,
    roll,
    yaw,
  })
  .meta({ description: "Airloads from nondimensional derivatives. One that is not known is written as 0." });

export const airloads = z
  .discriminatedUnion("kind", [derivatives, tables(axes)])
  .meta({ description: "Airloads of the carried aircraft." });
