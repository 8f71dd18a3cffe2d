/** Pages of the parts of `hold`: each adds its sections after the modes. */
import type { HoldDepthResult, HoldParts } from "../../studies/hold-depth/types.ts";
import type { FigureDom } from "../figures/index.ts";
import { certaintyPages } from "./certainty-pages.ts";
import type { FigureCounter } from "./figure-counter.ts";
import { airloadsPages } from "./hold-airloads-pages.ts";
import { attachmentPages } from "./hold-attachment-pages.ts";
import { boundaryPages } from "./hold-boundary-pages.ts";
import { carrierPages } from "./hold-carrier-pages.ts";
import { holdControlPages } from "./hold-control-pages.ts";
import { equilibriumPages } from "./hold-equilibrium-pages.ts";
import { scalingPages } from "./hold-scaling-pages.ts";
import { holdSnubberPages } from "./hold-snubber-pages.ts";
import type { PartPages, PartSection } from "./part-section.ts";
import { roughAirPages } from "./rough-air-pages.ts";

/** Every part, in the order of the report. One line a part. */
const PARTS: Readonly<Record<keyof HoldParts, PartPages>> = {
  attachment: attachmentPages,
  boundary: boundaryPages,
  equilibrium: equilibriumPages,
  snubber: holdSnubberPages,
  airloads: airloadsPages,
  carrier: carrierPages,
  control: holdControlPages,
  scaling: scalingPages,
  roughAir: roughAirPages,
  certainty: certaintyPages,
};

export function holdPartSections(
  results: readonly HoldDepthResult[],
  title: (word: string) => string,
  counter: FigureCounter,
  dom: FigureDom,
): PartSection[] {
  return Object.values(PARTS)
    .map((part) => part(results, title, counter, dom))
    .filter((section) => section !== null);
}
