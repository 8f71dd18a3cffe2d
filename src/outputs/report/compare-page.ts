/** Variants beside each other as one self-contained page. */
import { CAUTION_LINE, STANDARD_CAUTIONS } from "../cautions/index.ts";
import { comparisonRows, type VariantComparison } from "../comparison/index.ts";
import { type FigureDom, variantDampingFigure } from "../figures/index.ts";
import { FigureCounter } from "./figure-counter.ts";
import { type Html, html, NOTHING, trusted } from "./html.ts";
import { pageStyle } from "./page-style.ts";
import { dataTable, list, type RowGroup } from "./tables.ts";

/** Variants in one table; more of them stand in further tables. */
const MOST = 5;

function tables(comparison: VariantComparison): Html[] {
  const { variants } = comparison;
  const rows = comparisonRows(comparison, "−");
  const count = Math.ceil(variants.length / MOST);
  const each = Math.ceil(variants.length / count);
  return Array.from({ length: count }, (_, block) => {
    const from = block * each;
    const shown = variants.slice(from, from + each);
    const groups: RowGroup[] = [...new Set(rows.map(({ group }) => group))].map((title) => ({
      title,
      rows: rows
        .filter(({ group }) => group === title)
        .map(({ label, cells }) => [label, ...cells.slice(from, from + each)]),
    }));
    const heads = [{ text: "Number", width: 22 }, ...shown.map(({ variant }) => ({ text: variant }))];
    return dataTable(`Key numbers: ${shown.map(({ variant }) => variant).join(", ")}`, heads, groups);
  });
}

/**
 * The page of a comparison: HTML without any outside reference and without script, the same bytes for the same arguments.
 *
 * @param notice the pair's own notice
 * @throws {DomainError} if the comparison holds a number that is not finite
 */
export function renderComparison(comparison: VariantComparison, dom: FigureDom, notice?: string): string {
  const { pair, davit, variants, overrides } = comparison;
  const figure = variantDampingFigure("variants", comparison, dom);
  const names = variants.map(({ variant }) => variant).join(", ");
  const hash = variants[0]?.inputHash.slice(0, 16) ?? "";
  const pictures =
    figure === null
      ? NOTHING
      : html`<section id="pictures"><h2>Damping</h2>
${new FigureCounter().print(figure)}</section>
`;
  const hashes = variants.map(({ variant, inputHash }) => `${variant}: inputs ${inputHash}`);
  return html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="davit ${davit}">
<title>Variants compared: ${pair}</title>
${trusted(`<style>${pageStyle(`${pair}, variants compared`, hash)}</style>`)}
</head>
<body>
<a class="skip" href="#numbers">Skip to the numbers</a>
<header class="title">
<p class="kind">Variants compared</p>
<h1>${pair}</h1>
<p class="sub">${names}</p>
<dl class="facts"><div><dt>Davit</dt><dd>${davit}</dd></div>${overrides.length === 0 ? NOTHING : html`<div><dt>Overrides</dt><dd>${overrides.join("; ")}</dd></div>`}</dl>
${notice === undefined ? NOTHING : html`<p class="notice"><strong>Notice.</strong> ${notice}</p>`}<p class="caution-line">${CAUTION_LINE}</p>
</header>
<nav aria-label="Contents"><div><h2>Contents</h2><ol><li><a href="#numbers">Key numbers</a></li>${figure === null ? NOTHING : html`<li><a href="#pictures">Damping</a></li>`}<li><a href="#inputs">Inputs</a></li><li><a href="#cautions">Cautions</a></li></ol></div></nav>
<main>
<section id="numbers"><h2>Key numbers</h2>
${tables(comparison)}</section>
${pictures}<section id="inputs"><h2>Inputs</h2>${list(hashes)}</section>
<section id="cautions" class="cautions"><h2>Cautions</h2>
${list([...STANDARD_CAUTIONS])}</section>
</main>
<footer><p>${CAUTION_LINE} Computed by davit ${davit}.</p></footer>
</body>
</html>
`.markup;
}
