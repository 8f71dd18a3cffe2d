/** The "hold here" card on one printed page. */

import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { type HoldHereCard, holdHereCards } from "./hold-here.ts";
import { type Html, html } from "./html.ts";
import { statusMark } from "./marks.ts";
import { sheetFrame } from "./sheet-frame.ts";
import type { ReportMeta } from "./types.ts";

const STYLE = `
@page { size: A4; margin: 14mm 15mm; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 18px 22px; max-width: 800px; color: #1c2127; background: #fff; font: 15px/1.42 "Helvetica Neue", Arial, "Liberation Sans", sans-serif; }
h1 { margin: 0; font-size: 32px; color: #16386b; }
h2 { margin: 20px 0 6px; font-size: 19px; }
.sub { margin: 2px 0 14px; font-size: 16px; }
.state { display: flex; gap: 12px; align-items: center; margin: 8px 0 12px; padding: 10px 14px; border: 3px solid #1c2127; font-size: 21px; font-weight: 700; }
.state .mark { white-space: nowrap; } .state svg { width: 22px; height: 22px; vertical-align: -3px; margin-right: 6px; }
table { width: 100%; border-collapse: collapse; }
th, td { text-align: left; vertical-align: top; padding: 7px 10px 7px 0; border-bottom: 1px solid #c9ced6; }
th { width: 30%; font-weight: 400; }
td strong { display: block; font-size: 19px; }
td span { color: #535b66; font-size: 13px; }
ol { margin: 6px 0 0; padding-left: 24px; }
li { margin: 5px 0; }
.notice { border-left: 5px solid #6b4a00; background: #fdf8ec; padding: 7px 12px; font-size: 13px; }
footer { margin-top: 18px; border-top: 2px solid #16386b; padding-top: 8px; font-size: 12.5px; }
section + section { break-before: page; }
`;

function cardSection(card: HoldHereCard): Html {
  const rows = card.lines.map(
    ({ what, value, because }) =>
      html`<tr><th scope="row">${what}</th><td><strong>${value}</strong><span>${because}</span></td></tr>
`,
  );
  return html`<section>
<p class="sub">Condition ${card.condition}; mass states ${card.masses.join(", ")}; hooked at one point</p>
<p class="state">${statusMark(card.analysed ? "analysed" : "prohibited")} ${card.headline}</p>
<table aria-label="Where to hold"><tbody>
${rows}</tbody></table>
<h2>If an oscillation grows</h2>
<ol>${card.actions.map((action) => html`<li>${action}</li>`)}</ol>
</section>
`;
}

/**
 * One page a condition, to print and take along: airspeed, boom angle, rough air, time, and what to do when it moves. HTML
 * without any outside reference, the same bytes for the same arguments.
 */
export function renderHoldHere(
  head: { readonly pair: string; readonly davit: string },
  result: HoldDepthResult,
  meta: ReportMeta,
): string {
  const main = html`${holdHereCards(result).map(cardSection)}`;
  return sheetFrame(head, { title: "Hold here", variant: result.variant, style: STYLE, main }, meta);
}
