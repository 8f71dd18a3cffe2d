/** Form of the parts of `hold` inside a result file; mirrors `studies/hold-depth/types.ts`. */
import { airloadsShape } from "./hold-airloads-shape.ts";
import { carrierShape } from "./hold-carrier-shape.ts";
import { scalingShape } from "./hold-scaling-shape.ts";
import { type Check, object, optional } from "./shape.ts";

/** One line a part: `roughAir: optional(roughAirShape)`. */
export const holdPartsShape: Check = object({
  airloads: optional(airloadsShape),
  carrier: optional(carrierShape),
  scaling: optional(scalingShape),
});
