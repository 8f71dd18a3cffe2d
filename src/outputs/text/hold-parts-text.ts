/** Terminal text of the parts of `hold`, between the modes and the findings. */
import type { HoldDepthResult, HoldParts } from "../../studies/hold-depth/types.ts";
import { holdCertaintyText } from "./certainty-text.ts";
import { holdAirloadsText } from "./hold-airloads-text.ts";
import { holdAttachmentText } from "./hold-attachment-text.ts";
import { holdBoundaryText } from "./hold-boundary-text.ts";
import { holdCarrierText } from "./hold-carrier-text.ts";
import { holdControlText } from "./hold-control-text.ts";
import { holdEquilibriumText } from "./hold-equilibrium-text.ts";
import { holdScalingText } from "./hold-scaling-text.ts";
import { holdSnubberText } from "./hold-snubber-text.ts";
import { roughAirText } from "./rough-air-text.ts";
import type { Look } from "./study-text.ts";

/** Lines of one part: a heading in capitals, what it found, an empty line; nothing when the part did not run. */
type PartText = (result: HoldDepthResult, look: Look) => string[];

/** Every part, in the order of the report. One line a part. */
const PARTS: Readonly<Record<keyof HoldParts, PartText>> = {
  attachment: holdAttachmentText,
  boundary: holdBoundaryText,
  equilibrium: holdEquilibriumText,
  snubber: holdSnubberText,
  airloads: holdAirloadsText,
  carrier: holdCarrierText,
  control: holdControlText,
  scaling: holdScalingText,
  roughAir: roughAirText,
  certainty: holdCertaintyText,
};

export function holdPartsText(result: HoldDepthResult, look: Look): string[] {
  return Object.values(PARTS).flatMap((part) => part(result, look));
}
