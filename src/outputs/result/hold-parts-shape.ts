/** Form of the parts of `hold` inside a result file; mirrors `studies/hold-depth/types.ts`. */
import type { HoldParts } from "../../studies/hold-depth/types.ts";
import { certaintyShape } from "./certainty-shape.ts";
import { airloadsShape } from "./hold-airloads-shape.ts";
import { attachmentShape } from "./hold-attachment-shape.ts";
import { boundaryShape } from "./hold-boundary-shape.ts";
import { carrierShape } from "./hold-carrier-shape.ts";
import { holdControlShape } from "./hold-control-shape.ts";
import { equilibriumShape } from "./hold-equilibrium-shape.ts";
import { roughAirShape } from "./hold-rough-shape.ts";
import { scalingShape } from "./hold-scaling-shape.ts";
import { holdSnubberShape } from "./hold-snubber-shape.ts";
import { type Check, object, optional } from "./shape.ts";

/** One line a part: `roughAir: optional(roughAirShape)`. */
const parts: Readonly<Record<keyof HoldParts, Check>> = {
  attachment: optional(attachmentShape),
  control: optional(holdControlShape),
  boundary: optional(boundaryShape),
  equilibrium: optional(equilibriumShape),
  snubber: optional(holdSnubberShape),
  airloads: optional(airloadsShape),
  carrier: optional(carrierShape),
  scaling: optional(scalingShape),
  roughAir: optional(roughAirShape),
  certainty: optional(certaintyShape),
};

export const holdPartsShape: Check = object(parts);
