/** Pages of the parts of `hold`: each adds its sections after the modes. */
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
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
import type { Html } from "./html.ts";
import { roughAirPages } from "./rough-air-pages.ts";

/** A section of a part: its id and title for the contents, and its markup. */
export interface PartSection {
  readonly id: string;
  readonly title: string;
  readonly markup: Html;
}

/**
 * Section of one part over all variants, or nothing when it ran for none.
 *
 * @param title turns the title of the part into that of the section, which names the study where the report has several
 */
export type PartPages = (
  results: readonly HoldDepthResult[],
  title: (word: string) => string,
  counter: FigureCounter,
  dom: FigureDom,
) => PartSection | null;

/** Every part, in the order of the report. One line a part. */
const PARTS: readonly PartPages[] = [
  attachmentPages,
  airloadsPages,
  scalingPages,
  roughAirPages,
  holdControlPages,
  certaintyPages,
  boundaryPages,
  equilibriumPages,
  holdSnubberPages,
  carrierPages,
];

export function holdPartSections(
  results: readonly HoldDepthResult[],
  title: (word: string) => string,
  counter: FigureCounter,
  dom: FigureDom,
): PartSection[] {
  return PARTS.map((part) => part(results, title, counter, dom)).filter((section) => section !== null);
}
