/** What a part of `hold` puts into the report. */
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import type { FigureDom } from "../figures/index.ts";
import type { FigureCounter } from "./figure-counter.ts";
import type { Html } from "./html.ts";

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
