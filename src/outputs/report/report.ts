/** The clearance report as one self-contained page. */
import { CAUTION_LINE, STANDARD_CAUTIONS } from "../cautions/index.ts";
import type { FigureDom } from "../figures/index.ts";
import type { ResultDocument } from "../result/index.ts";
import { modeSection, trimSection } from "./details.ts";
import { boundarySections, findingSection, limitSection } from "./evidence.ts";
import { headlineSection, titleBlock, verdictSection } from "./front.ts";
import { type Html, html, trusted } from "./html.ts";
import { pageStyle } from "./page-style.ts";
import { pictureSection } from "./pictures.ts";
import { provenanceSection } from "./provenance.ts";
import { list } from "./tables.ts";
import type { ReportMeta } from "./types.ts";

const CONTENTS = [
  ["verdicts", "Verdicts"],
  ["headlines", "Headline numbers"],
  ["pictures", "Pictures"],
  ["modes", "Modes"],
  ["trim", "Trim"],
  ["findings", "Findings"],
  ["limits", "Limits"],
  ["assumptions", "Assumptions"],
  ["not-analysed", "Not analysed"],
  ["provenance", "Inputs"],
  ["cautions", "Cautions"],
] as const;

function contents(): Html {
  const items = CONTENTS.map(([id, title]) => html`<li><a href="#${id}">${title}</a></li>`);
  return html`<nav aria-label="Contents"><div><h2>Contents</h2><ol>${items}</ol></div></nav>
`;
}

function cautionSection(own: readonly string[]): Html {
  return html`<section id="cautions" class="cautions"><h2>Cautions</h2>
${list([...STANDARD_CAUTIONS, ...own])}</section>
`;
}

/**
 * The report of a result document: HTML without any outside reference and without script, A4 when printed, the same bytes for
 * the same arguments.
 *
 * @param document result; the figures and tables show every variant in it, the selected one first
 * @param dom      where the figures are drawn: a browser's document or a server-side one
 * @param meta     notice and cautions of the pair, hash of all inputs
 * @throws {DomainError} if the document holds a number that is not finite
 */
export function renderReport(document: ResultDocument, dom: FigureDom, meta: ReportMeta): string {
  const context = { document, meta };
  const results = document.studies.hold ?? [];
  const head = `${document.pair}, ${document.variant}`;
  const style = trusted(`<style>${pageStyle(head, meta.inputHash.slice(0, 16))}</style>`);
  const page = html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="davit ${document.davit}">
<title>Clearance report: ${head}</title>
${style}
</head>
<body>
<a class="skip" href="#verdicts">Skip to the verdicts</a>
${titleBlock(context)}${contents()}<main>
${verdictSection(results)}${headlineSection(results)}${pictureSection(results, dom)}${modeSection(results)}${trimSection(results)}
${findingSection(results, document)}${limitSection(results, document)}${boundarySections(results, context)}${provenanceSection(context)}
${cautionSection(meta.cautions)}</main>
<footer><p>${CAUTION_LINE} Computed by davit ${document.davit} from inputs ${meta.inputHash}.</p></footer>
</body>
</html>
`;
  return page.markup;
}
