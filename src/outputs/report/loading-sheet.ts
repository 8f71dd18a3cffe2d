/** The loading sheet of the carrier on one printed page. */
import type { BalanceResult, LoadingItem, LoadingTotal } from "../../studies/balance/types.ts";
import { capitalise } from "../figures/index.ts";
import { missionTime, wordsOf } from "../names/index.ts";
import { formatFixed } from "../numbers/index.ts";
import { limitRange } from "../summary/index.ts";
import { type Html, html } from "./html.ts";
import { verdictMark } from "./marks.ts";
import { sheetFrame } from "./sheet-frame.ts";
import type { ReportMeta } from "./types.ts";

const STYLE = `
@page { size: A4; margin: 11mm 13mm; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 14px 18px; max-width: 800px; color: #1c2127; background: #fff; font: 12.5px/1.36 "Helvetica Neue", Arial, "Liberation Sans", sans-serif; }
h1 { margin: 0; font-size: 25px; color: #16386b; }
h2 { margin: 12px 0 3px; font-size: 14.5px; }
.sub { margin: 1px 0 6px; font-size: 13.5px; }
.notice, .defer { border-left: 5px solid #6b4a00; background: #fdf8ec; padding: 5px 10px; margin: 6px 0; font-size: 11.5px; }
.defer { border: 2px solid #1c2127; font-size: 12px; font-weight: 600; }
table { width: 100%; border-collapse: collapse; font-variant-numeric: tabular-nums; }
caption { text-align: left; font-weight: 700; padding: 8px 0 2px; font-size: 14px; }
th, td { text-align: left; vertical-align: top; padding: 2.6px 8px 2.6px 0; border-bottom: 1px solid #d5d9df; font-weight: 400; }
thead th { border-bottom: 1.5px solid #1c2127; font-size: 11.5px; vertical-align: bottom; }
.num { text-align: right; white-space: nowrap; }
td + td:not(.num), th + th:not(.num) { padding-left: 14px; }
tr.total th, tr.total td { font-weight: 700; background: #f3f5f8; border-bottom: 1.5px solid #1c2127; }
.blank { border-bottom: 1px solid #1c2127; min-width: 70px; }
.mark { font-weight: 700; white-space: nowrap; } .mark svg { width: 11px; height: 11px; margin-right: 4px; }
ul { margin: 3px 0; padding-left: 18px; }
.sign { display: grid; grid-template-columns: repeat(3, 1fr); gap: 18px; margin-top: 16px; }
.sign div { border-top: 1px solid #1c2127; padding-top: 3px; font-size: 11px; }
footer { margin-top: 10px; border-top: 2px solid #16386b; padding-top: 5px; font-size: 10.5px; }
footer p { margin: 2px 0; }
@media print {
  body { padding: 0; max-width: none; font-size: 10.3px; line-height: 1.28; }
  h1 { font-size: 21px; } h2 { font-size: 12px; margin: 6px 0 1px; } .sub { font-size: 11.5px; margin: 0 0 4px; }
  caption { font-size: 12px; padding: 5px 0 1px; } thead th { font-size: 9.8px; } th, td { padding: 1.5px 8px 1.5px 0; }
  .notice, .defer { font-size: 9.8px; margin: 4px 0; padding: 3px 8px; } .limits { columns: 2; column-gap: 22px; font-size: 9.6px; }
  .sign { margin-top: 22px; } footer { font-size: 8.8px; margin-top: 6px; padding-top: 3px; }
}
`;

/** Mass moment in kg·m, as loading sheets carry it. */
const moment = (mass: number, arm: number): string => formatFixed(mass * arm, 0);

function itemRow({ name, kind, mass_kg, FS_m, capacity_kg }: LoadingItem): Html {
  const words = kind === "fuel" ? `fuel, ${wordsOf(name)} (holds ${formatFixed(capacity_kg ?? 0, 0)})` : name;
  return html`<tr><th scope="row">${capitalise(words)}</th><td class="num">${formatFixed(mass_kg, 0)}</td><td class="num">${formatFixed(FS_m, 3)}</td><td class="num">${moment(mass_kg, FS_m)}</td><td class="blank"></td></tr>
`;
}

function totalRow(total: LoadingTotal): Html {
  return html`<tr class="total"><th scope="row">${capitalise(total.name)}</th><td class="num">${formatFixed(total.mass_kg, 0)}</td><td class="num">${formatFixed(total.FS_m, 3)}</td><td class="num">${moment(total.mass_kg, total.FS_m)}</td><td class="blank"></td></tr>
`;
}

function itemTable({ items, totals }: BalanceResult): Html {
  const of = (...kinds: readonly LoadingItem["kind"][]) =>
    items.filter(({ kind }) => kinds.includes(kind)).map(itemRow);
  const sum = (key: LoadingTotal["key"]) => totals.filter((total) => total.key === key).map(totalRow);
  return html`<table><caption>Loading</caption><thead><tr><th scope="col">Item</th><th scope="col" class="num">Mass (kg)</th><th scope="col" class="num">Station FS (m)</th><th scope="col" class="num">Moment (kg·m)</th><th scope="col">As loaded (kg)</th></tr></thead><tbody>
${of("empty", "kit")}${sum("empty")}${of("crew", "payload", "carried aircraft")}${sum("zero-fuel")}${of("fuel")}${sum("start")}</tbody></table>
`;
}

function checkTable({ totals }: BalanceResult): Html {
  const rows = totals.map(
    ({ name, mass_kg, largest_kg, cg_percentMac: cg, forward_percentMac: f, aft_percentMac: a }) => {
      const inside = cg >= f && cg <= a && (largest_kg === null || mass_kg <= largest_kg);
      return html`<tr><th scope="row">${capitalise(name)}</th><td class="num">${formatFixed(mass_kg, 0)}</td><td class="num">${largest_kg === null ? "–" : formatFixed(largest_kg, 0)}</td><td class="num">${formatFixed(cg, 2)}</td><td class="num">${formatFixed(f, 1)} to ${formatFixed(a, 1)}</td><td>${verdictMark(inside ? "met" : "not met")}</td></tr>
`;
    },
  );
  return html`<table><caption>Mass and centre of gravity</caption><thead><tr><th scope="col">State</th><th scope="col" class="num">Mass (kg)</th><th scope="col" class="num">Largest (kg)</th><th scope="col" class="num">c.g. (% MAC)</th><th scope="col" class="num">Limits (% MAC)</th><th scope="col">Inside</th></tr></thead><tbody>
${rows}</tbody></table>
`;
}

function courseTable({ branches, findings }: BalanceResult): Html {
  const rows = branches.map(({ key, title, worst }) => {
    const verdict = findings.find(({ id }) => id === `balance.cg.margin.${key}`)?.verdict ?? "information";
    return html`<tr><th scope="row">${capitalise(title)}</th><td class="num">${formatFixed(worst.margin_percentMac, 2)}</td><td>${worst.side}, in ${worst.leg}, ${missionTime(worst.time_s)}</td><td>${verdictMark(verdict)}</td></tr>
`;
  });
  return html`<table><caption>Least margin of the c.g. over the mission</caption><thead><tr><th scope="col">Course</th><th scope="col" class="num">% of chord</th><th scope="col">Towards, when</th><th scope="col">Criterion</th></tr></thead><tbody>
${rows}</tbody></table>
`;
}

function limitItems({ limits, findings }: BalanceResult): Html {
  const items = limits.map(
    (limit) =>
      html`<li>${limit.title}: <strong>${limit.status === "prohibited" ? "prohibited" : limitRange(limit)}</strong></li>`,
  );
  const open = findings
    .filter(({ verdict, id }) => verdict === "not met" && !id.startsWith("balance.cg.margin."))
    .map(({ title, verdict }) => html`<li>${verdictMark(verdict)} ${title}</li>`);
  return html`<h2>Limits that follow</h2>
<ul class="limits">${items}${open}</ul>
`;
}

const DEFER =
  "Before flight the approved loading data of the carrier and the weighing record decide, and the accountable person signs. What is loaded is weighed " +
  "or counted on the day and entered in the last column; where it differs, this sheet is made anew.";

/**
 * One A4 page to print: what is loaded where, sums with their limits, least margins over the mission, limits on fuel. HTML without any
 * outside reference, the same bytes for the same arguments.
 */
export function renderLoadingSheet(
  head: { readonly pair: string; readonly davit: string },
  result: BalanceResult,
  meta: ReportMeta,
): string {
  const { chord } = result;
  const about = html`; carrier with the aircraft as planned for the mission; MAC ${formatFixed(chord.length_m, 3)} m from FS ${formatFixed(chord.leadingEdge_m, 3)}`;
  const below = html`
<p class="defer">${DEFER}</p>`;
  const main = html`${itemTable(result)}${checkTable(result)}${courseTable(result)}${limitItems(result)}
<div class="sign"><div>Loaded by, date</div><div>Checked by, date</div><div>Accountable person, date</div></div>`;
  return sheetFrame(head, { title: "Loading sheet", variant: result.variant, style: STYLE, about, below, main }, meta);
}
