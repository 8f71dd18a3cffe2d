/** Form of the parts of `hold` inside a result file; mirrors `studies/hold-depth/types.ts`. */
import { type Check, object } from "./shape.ts";

/** One line a part: `roughAir: optional(roughAirShape)`. */
export const holdPartsShape: Check = object({});
