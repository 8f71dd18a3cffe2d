/** Style sheet of the report: one for the screen, A4 for print. */
import { CAUTION_LINE } from "../cautions/index.ts";
import { cssString } from "./html.ts";

const SCREEN = `
:root { --ink: #1c2127; --soft: #535b66; --rule: #c9ced6; --wash: #f3f5f8; --head: #16386b; --good: #14573f; --bad: #8f1d22; --open: #6b4a00; }
* { box-sizing: border-box; }
html { background: #fff; color: var(--ink); font: 15px/1.5 "Helvetica Neue", Arial, "Liberation Sans", sans-serif; -webkit-text-size-adjust: 100%; }
body { margin: 0 auto; max-width: 1100px; padding: 0 24px 48px; display: grid; grid-template-columns: 188px minmax(0, 1fr); gap: 0 44px; }
.skip { position: absolute; left: -999px; }
.skip:focus { left: 8px; top: 8px; background: #fff; padding: 6px 10px; outline: 2px solid var(--head); z-index: 2; }
header.title { grid-column: 1 / -1; border-bottom: 3px solid var(--head); padding: 34px 0 18px; margin-bottom: 22px; }
header .kind { margin: 0; color: var(--soft); letter-spacing: .09em; text-transform: uppercase; font-size: 13px; }
h1 { margin: 0; font-size: 34px; line-height: 1.15; color: var(--head); overflow-wrap: anywhere; }
header .sub { margin: 4px 0 16px; font-size: 17px; }
h2 { margin: 40px 0 10px; font-size: 22px; line-height: 1.25; color: var(--head); border-bottom: 1px solid var(--rule); padding-bottom: 5px; }
h3 { margin: 26px 0 8px; font-size: 17px; }
h4 { margin: 12px 0 2px; font-size: 13.5px; color: var(--soft); }
p { margin: 8px 0; max-width: 78ch; }
ul { margin: 6px 0; padding-left: 20px; }
li { margin: 2px 0; overflow-wrap: anywhere; }
code { font: 12px/1.4 "DejaVu Sans Mono", Consolas, "Liberation Mono", monospace; overflow-wrap: anywhere; }
.soft { color: var(--soft); font-size: 12.5px; font-weight: 400; }
.facts { display: grid; grid-template-columns: repeat(auto-fill, minmax(190px, 1fr)); gap: 8px 24px; margin: 0 0 12px; }
.facts dt { font-size: 12.5px; color: var(--soft); }
.facts dd { margin: 0; font-weight: 600; overflow-wrap: anywhere; }
.notice { border: 1px solid var(--rule); border-left: 5px solid var(--open); background: #fdf8ec; padding: 8px 14px; max-width: none; }
.caution-line { font-weight: 600; margin-bottom: 0; }
nav { font-size: 13.5px; }
nav h2 { font-size: 13px; margin: 4px 0 6px; border: 0; padding: 0; color: var(--soft); }
nav ol { position: sticky; top: 14px; list-style: none; margin: 0; padding: 0; }
nav li { margin: 0; border-left: 2px solid var(--rule); padding: 3px 0 3px 10px; }
nav a { color: var(--head); text-decoration: none; }
nav a:hover, nav a:focus { text-decoration: underline; }
nav div { position: sticky; top: 14px; }
main { min-width: 0; }
main > section:first-child h2 { margin-top: 0; }
.scroll { overflow-x: auto; margin: 12px 0 22px; }
table { border-collapse: collapse; width: 100%; min-width: 640px; table-layout: fixed; font-size: 13px; line-height: 1.4; font-variant-numeric: tabular-nums; }
caption { text-align: left; font-weight: 600; padding: 0 0 6px; color: var(--ink); }
th, td { text-align: left; vertical-align: top; padding: 5px 8px 5px 0; border-bottom: 1px solid #e3e6eb; overflow-wrap: anywhere; }
th:last-child, td:last-child { padding-right: 0; }
tbody th { font-weight: 400; }
thead th { border-bottom: 1.5px solid var(--ink); vertical-align: bottom; overflow-wrap: normal; }
th.num, td.num { text-align: right; overflow-wrap: normal; padding-right: 14px; }
th.num:last-child, td.num:last-child { padding-right: 0; }
td.num { white-space: nowrap; }
.limits td.num, .verdicts td.num { white-space: normal; }
.findings .mark, .inputs .mark { white-space: normal; }
tr.group th { background: var(--wash); font-weight: 700; padding: 6px 8px; border-bottom: 1px solid var(--rule); }
.mark { font-weight: 700; white-space: nowrap; }
.mark .icon { width: .95em; height: .95em; margin-right: .35em; vertical-align: -.08em; }
.good { color: var(--good); } .bad { color: var(--bad); } .open { color: var(--open); } .note { color: var(--soft); font-weight: 400; }
tr.group .mark { margin-left: .8em; }
.cards { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(330px, 100%), 1fr)); gap: 16px; }
.card { border: 1px solid var(--rule); border-top: 4px solid var(--head); padding: 4px 16px 12px; font-size: 13.5px; }
.card h3 { margin: 8px 0 4px; overflow-wrap: anywhere; }
figure { margin: 18px 0 30px; }
figure svg.davit-figure { display: block; width: 100%; max-width: 760px; height: auto; }
figcaption { font-size: 13px; line-height: 1.45; margin-top: 8px; max-width: 760px; color: var(--ink); overflow-wrap: anywhere; }
.rests { font-size: 12.5px; display: grid; grid-template-columns: 40px minmax(0, 1fr); gap: 4px 8px; }
.rests dt { font-weight: 700; } .rests dd { margin: 0; overflow-wrap: anywhere; }
.sums { list-style: none; padding: 0; columns: 2; font-size: 12.5px; }
.inputs .mark { font-weight: 400; }
.inputs .open { font-weight: 600; }
.cautions { border: 2px solid var(--ink); padding: 4px 18px 10px; margin-top: 40px; }
.cautions h2 { border: 0; margin: 10px 0 4px; }
footer { grid-column: 1 / -1; border-top: 1px solid var(--rule); margin-top: 34px; padding-top: 10px; color: var(--soft); font-size: 12.5px; overflow-wrap: anywhere; }
@media (max-width: 860px) { body { display: block; } nav { display: none; } .sums { columns: 1; } }
@media (max-width: 480px) { body { padding: 0 16px 40px; } h1 { font-size: 28px; } }
`;

/** A4 with running head and foot; `left` and `right` are CSS strings. */
function printStyle(left: string, right: string): string {
  const margin = `font: 8pt "Helvetica Neue", Arial, "Liberation Sans", sans-serif; color: #535b66;`;
  return `
@page { size: A4; margin: 20mm 16mm 19mm;
  @top-left { content: ${left}; ${margin} }
  @top-right { content: ${right}; ${margin} }
  @bottom-left { content: ${cssString(CAUTION_LINE)}; ${margin} }
  @bottom-right { content: counter(page) " / " counter(pages); ${margin} } }
@page :first { @top-left { content: ""; } @top-right { content: ""; } }
@media print {
  html { font-size: 9.6pt; line-height: 1.42; }
  body { display: block; max-width: none; padding: 0; }
  nav, .skip, footer { display: none; }
  header.title { padding-top: 0; }
  h1 { font-size: 26pt; } h2 { font-size: 15pt; margin-top: 18pt; } h3 { font-size: 12pt; }
  h2, h3, h4, caption, tr.group { break-after: avoid; }
  figure, .card, .notice, .cautions, tr { break-inside: avoid; }
  #pictures, #modes, #findings { break-before: page; }
  .scroll { overflow: visible; }
  table { font-size: 8.2pt; min-width: 0; } table.trim, table.files, table.modes { break-inside: avoid; } thead { display: table-header-group; }
  code { font-size: 7.4pt; } .soft, .rests, .sums { font-size: 7.8pt; }
  .inputs th, .inputs td { padding-top: 2pt; padding-bottom: 2pt; }
  figure { margin: 8pt 0 14pt; } figcaption { font-size: 8.6pt; max-width: none; }
  figure svg.davit-figure { max-width: 100%; max-height: 205mm; }
  .cards { grid-template-columns: 1fr 1fr; gap: 8pt; } .card { font-size: 8.6pt; padding: 2pt 9pt 6pt; }
  .card h4 { font-size: 8.4pt; }
  p, li { orphans: 3; widows: 3; }
  a { color: inherit; text-decoration: none; }
  * { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
`;
}

/** The whole style sheet; the running head shows the pair and the hash of its inputs, `studies` are rules of their own. */
export function pageStyle(head: string, hash: string, studies = ""): string {
  return SCREEN + printStyle(cssString(head), cssString(`inputs ${hash}`)) + studies;
}
