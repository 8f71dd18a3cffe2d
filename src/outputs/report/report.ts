/** The clearance report as one self-contained page. */
import { CAUTION_LINE, STANDARD_CAUTIONS } from "../cautions/index.ts";
import type { FigureDom } from "../figures/index.ts";
import type { ResultDocument } from "../result/index.ts";
import { balancePages } from "./balance-pages.ts";
import { boundarySections, findingSection, limitSection } from "./evidence.ts";
import { FigureCounter } from "./figure-counter.ts";
import { fitPages } from "./fit-pages.ts";
import { headlineSection, titleBlock, verdictSection } from "./front.ts";
import { holdPages } from "./hold-pages.ts";
import { hookonPages } from "./hookon-pages.ts";
import { type Html, html, trusted } from "./html.ts";
import { pageStyle } from "./page-style.ts";
import { provenanceSection } from "./provenance.ts";
import { releasePages } from "./release-pages.ts";
import { type StudyPages, variantsOf } from "./studies.ts";
import { list } from "./tables.ts";
import type { ReportMeta } from "./types.ts";

const BEFORE = [
  ["verdicts", "Verdicts"],
  ["headlines", "Headline numbers"],
] as const;
const AFTER = [
  ["findings", "Findings"],
  ["limits", "Limits"],
  ["assumptions", "Assumptions"],
  ["not-analysed", "Not analysed"],
  ["provenance", "Inputs"],
  ["cautions", "Cautions"],
] as const;

function contents(pages: readonly StudyPages[]): Html {
  const entries = [...BEFORE, ...pages.flatMap((page) => page.contents), ...AFTER];
  const items = entries.map(([id, title]) => html`<li><a href="#${id}">${title}</a></li>`);
  return html`<nav aria-label="Contents"><div><h2>Contents</h2><ol>${items}</ol></div></nav>
`;
}

function cautionSection(own: readonly string[]): Html {
  return html`<section id="cautions" class="cautions"><h2>Cautions</h2>
${list([...STANDARD_CAUTIONS, ...own])}</section>
`;
}

/** Pages of the studies that the document holds, in the order of the job: does it fit, then does it fly. */
function pagesOf({ studies }: ResultDocument, dom: FigureDom): StudyPages[] {
  const counter = new FigureCounter();
  const { fit = [], hold = [], hookon = [], release = [], balance = [] } = studies;
  const pages: StudyPages[] = [];
  const there = [fit, hold, hookon, release, balance].filter(({ length }) => length > 0).length;
  const alone = there <= 1;
  if (fit.length > 0) pages.push(fitPages(fit, alone, counter, dom));
  if (hold.length > 0 || there === 0) pages.push(holdPages(hold, alone, counter, dom));
  if (hookon.length > 0) pages.push(hookonPages(hookon, alone, counter, dom));
  if (release.length > 0) pages.push(releasePages(release, alone, counter, dom));
  if (balance.length > 0) pages.push(balancePages(balance, alone, counter, dom));
  return pages;
}

/**
 * The report of a result document: HTML without any outside reference and without script, A4 when printed, the same bytes for
 * the same arguments.
 *
 * @param document result; the figures and tables show every study and variant in it, the selected variant first
 * @param dom      where the figures are drawn: a browser's document or a server-side one
 * @param meta     notice and cautions of the pair, hash of all inputs
 * @throws {DomainError} if the document holds a number that is not finite
 */
export function renderReport(document: ResultDocument, dom: FigureDom, meta: ReportMeta): string {
  const context = { document, meta };
  const results = variantsOf(document);
  const pages = pagesOf(document, dom);
  const { fit = [], hookon = [], release = [], balance = [] } = document.studies;
  const subject = fit.length + hookon.length + release.length + balance.length === 0 ? "plane" : "subject";
  const head = `${document.pair}, ${document.variant}`;
  const own = pages.map(({ style: rules }) => rules).join("");
  const style = trusted(`<style>${pageStyle(head, meta.inputHash.slice(0, 16), own)}</style>`);
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
${titleBlock(context, results, pages)}${contents(pages)}<main>
${verdictSection(results, subject)}${headlineSection(pages)}${pages.map(({ sections }) => sections)}
${findingSection(results, document)}${limitSection(results, document)}${boundarySections(results, context)}${provenanceSection(context)}
${cautionSection(meta.cautions)}</main>
<footer><p>${CAUTION_LINE} Computed by davit ${document.davit} from inputs ${meta.inputHash}.</p></footer>
</body>
</html>
`;
  return page.markup;
}
