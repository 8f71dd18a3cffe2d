/** The frame that every sheet to take along shares: head, title, the pair's notice, and the cautions at its foot. */
import { CAUTION_LINE, STANDARD_CAUTIONS } from "../cautions/index.ts";
import { type Html, html, NOTHING, trusted } from "./html.ts";
import type { ReportMeta } from "./types.ts";

/**
 * One document of its own, without any outside reference; the same bytes for the same arguments.
 *
 * @param head  names of pair and version
 * @param sheet title, variant, style rules; `about` follows the variant, `below` stands under the notice
 */
export function sheetFrame(
  head: { readonly pair: string; readonly davit: string },
  sheet: {
    readonly title: string;
    readonly variant: string;
    readonly style: string;
    readonly about?: Html;
    readonly below?: Html;
    readonly main: Html;
  },
  meta: ReportMeta,
): string {
  const { title, variant, about = NOTHING, below = NOTHING } = sheet;
  const notice = meta.notice === undefined ? NOTHING : html`<p class="notice">${meta.notice}</p>`;
  const page = html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="davit ${head.davit}">
<title>${title}: ${head.pair}, ${variant}</title>
${trusted(`<style>${sheet.style}</style>`)}
</head>
<body>
<header><h1>${title}</h1>
<p class="sub">${head.pair}, ${variant}${about}</p>${notice}${below}</header>
<main>${sheet.main}</main>
<footer><p><strong>${CAUTION_LINE}</strong> ${STANDARD_CAUTIONS[2]} ${STANDARD_CAUTIONS[1]}</p>
<p>Computed by davit ${head.davit} from inputs ${meta.inputHash.slice(0, 16)}. Everything it rests on stands in the report of the same inputs.</p></footer>
</body>
</html>
`;
  return page.markup;
}
