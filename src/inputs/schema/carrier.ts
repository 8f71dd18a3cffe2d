import * as z from "zod";
import { dynamics, flow } from "./carrier-motion.ts";
import { weights } from "./carrier-weights.ts";
import { ground } from "./ground.ts";
import { words } from "./leaf.ts";
import { moving } from "./moving.ts";
import { shapes } from "./shapes.ts";

export const carrier = z
  .strictObject({
    name: words("Name of the carrier.", ["Hallin 4T"]),
    datum: words("Where the carrier's stations, buttlines and waterlines start and which way they run.", [
      "FS aft of the nose datum plane, BL right of the symmetry plane, WL up from the belly line",
    ]),
    shapes: shapes("Shapes fixed to the carrier by name, in its stations.").optional(),
    moving: moving.optional(),
    ground: ground.optional(),
    dynamics: dynamics.optional(),
    flow: flow.optional(),
    weights: weights.optional(),
  })
  .meta({ description: "The aircraft that carries. Mechanism geometry is given in its stations." });
