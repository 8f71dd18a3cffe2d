/** Pages of the study `hold`: headline numbers, pictures, modes, trim. */
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import type { FigureDom } from "../figures/index.ts";
import { modeSection, trimSection } from "./details.ts";
import type { FigureCounter } from "./figure-counter.ts";
import { holdCard } from "./hold-headlines.ts";
import { holdPartSections } from "./hold-parts-pages.ts";
import { html } from "./html.ts";
import { pictureSection } from "./pictures.ts";
import type { StudyPages } from "./studies.ts";

/**
 * Pages of hooked stability.
 *
 * @param alone whether the report holds no other study; then its titles need not name it
 */
export function holdPages(
  results: readonly HoldDepthResult[],
  alone: boolean,
  counter: FigureCounter,
  dom: FigureDom,
): StudyPages {
  const title = (word: string) => (alone ? word : `Hooked stability: ${word.toLowerCase()}`);
  const [pictures, modes, trim] = [title("Pictures"), title("Modes"), title("Trim")];
  const own = html`${pictureSection(results, pictures, counter, dom)}${modeSection(results, modes)}${trimSection(results, trim)}`;
  const parts = holdPartSections(results, title, counter, dom);
  return {
    about: "Hooked stability of the carried aircraft at one point",
    contents: [
      ["pictures", pictures],
      ["modes", modes],
      ["trim", trim],
      ...parts.map(({ id, title: name }) => [id, name] as const),
    ],
    cards: results.map((result) => holdCard(result, alone ? result.variant : `Hooked stability: ${result.variant}`)),
    sections: html`${own}${parts.map(({ markup }) => markup)}`,
    style: "",
  };
}
