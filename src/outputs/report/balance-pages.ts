/** Pages of the study `balance`: margins by course, c.g. in its limits and over time, changes of state, wheels. */
import type { BalanceResult, StateChange } from "../../studies/balance/types.ts";
import { capitalise, cgEnvelopeFigure, cgTimeFigure, type FigureDom } from "../figures/index.ts";
import { missionTime } from "../names/index.ts";
import { formatFixed } from "../numbers/index.ts";
import { canonicalJson } from "../result/index.ts";
import { limitRange } from "../summary/index.ts";
import type { FigureCounter } from "./figure-counter.ts";
import { type Html, html, NOTHING } from "./html.ts";
import type { StudyPages } from "./studies.ts";
import { dataTable, type Head } from "./tables.ts";

const STYLE = `@media print { section.balance { break-before: page; } section.balance figure svg.davit-figure { max-height: 96mm; } }
`;

/** A result without what tells variants apart although nothing was computed differently. */
function comparable(result: BalanceResult): string {
  const findings = result.findings.map(({ inputHash: _hash, rests: _rests, ...rest }) => rest);
  return canonicalJson({ ...result, variant: "", findings });
}

const BRANCH_HEADS: readonly Head[] = [
  { text: "Course", width: 25 },
  { text: "Least margin (% of chord)", numeric: true, width: 12 },
  { text: "Nearer limit (% MAC)", width: 13 },
  { text: "In leg", width: 20 },
  { text: "Time", numeric: true, width: 9 },
  { text: "Mass (kg)", numeric: true, width: 10 },
  { text: "% MAC", numeric: true, width: 11 },
];

function branchTable({ branches, variant }: BalanceResult): Html {
  const rows = branches.map(({ title, worst }) => [
    capitalise(title),
    formatFixed(worst.margin_percentMac, 2),
    `${worst.side}, ${formatFixed(worst.limit_percentMac, 1)}`,
    worst.leg,
    missionTime(worst.time_s),
    formatFixed(worst.mass_kg, 0),
    formatFixed(worst.cg_percentMac, 2),
  ]);
  return dataTable(`Worst moment of each course, ${variant}`, BRANCH_HEADS, [{ rows }]);
}

const CHANGE_HEADS: readonly Head[] = [
  { text: "Change", width: 27 },
  { text: "Mass before, after (kg)", numeric: true, width: 17 },
  { text: "% MAC before, after", numeric: true, width: 15 },
  { text: "Shift (% of chord)", numeric: true, width: 10 },
  { text: "Load factor, step", numeric: true, width: 10 },
  { text: "Elevator (°)", numeric: true, width: 10 },
  { text: "Hands off α (°), n", numeric: true, width: 11 },
];

/** Changes of the plan, and the two jettisons that shift the c.g. most either way. */
export function shownChanges({ changes }: Pick<BalanceResult, "changes">): StateChange[] {
  const jettisons = changes.filter(({ kind }) => kind === "jettison");
  const most = (sign: number): StateChange[] => {
    const found = [...jettisons].sort((a, b) => sign * (b.shift_percentMac - a.shift_percentMac))[0];
    return found === undefined || sign * found.shift_percentMac <= 0 ? [] : [found];
  };
  return [...changes.filter(({ kind }) => kind !== "jettison"), ...most(1), ...most(-1)];
}

function changeTable(result: BalanceResult): Html {
  const { condition } = result;
  const signed = (value: number | null, decimals: number): string =>
    value === null ? "–" : `${value > 0 ? "+" : ""}${formatFixed(value, decimals)}`;
  const rows = shownChanges(result).map(({ title, before, after, shift_percentMac, trim }) => [
    capitalise(title),
    `${formatFixed(before.mass_kg, 0)}, ${formatFixed(after.mass_kg, 0)}`,
    `${formatFixed(before.cg_percentMac, 2)}, ${formatFixed(after.cg_percentMac, 2)}`,
    signed(shift_percentMac, 2),
    signed(before.mass_kg / after.mass_kg - 1, 3),
    signed(trim?.elevator_deg ?? null, 2),
    trim === null || trim.handsOffAlpha_deg === null || trim.handsOffLoadFactor_1 === null
      ? "–"
      : `${signed(trim.handsOffAlpha_deg, 2)}, ${formatFixed(trim.handsOffLoadFactor_1, 3)}`,
  ]);
  if (rows.length === 0) return NOTHING;
  const caption = `Changes of state, trim at ${formatFixed(condition.airspeed_m_s_EAS, 1)} m/s EAS and ${formatFixed(condition.altitude_m, 0)} m: shift towards the tail, elevator trailing edge down, α nose up positive; of jettisons the greatest shifts`;
  return dataTable(caption, CHANGE_HEADS, [{ rows }]);
}

const GROUND_HEADS: readonly Head[] = [
  { text: "On the ground", width: 32 },
  { text: "Mass (kg)", numeric: true },
  { text: "% MAC", numeric: true },
  { text: "Nose (kN)", numeric: true },
  { text: "Nose share (%)", numeric: true },
  { text: "Main left, right (kN)", numeric: true, width: 16 },
  { text: "Tip-back (°)", numeric: true },
];

function groundTable({ ground, variant }: BalanceResult): Html {
  if (ground === null) return NOTHING;
  const kilo = (force: number): string => formatFixed(force / 1000, 1);
  const rows = ground.map((state) => [
    capitalise(state.title),
    formatFixed(state.mass_kg, 0),
    formatFixed(state.cg_percentMac, 2),
    kilo(state.nose_N),
    formatFixed(100 * state.noseShare_1, 1),
    `${kilo(state.mainLeft_N)}, ${kilo(state.mainRight_N)}`,
    formatFixed(state.tipBack_deg, 1),
  ]);
  return dataTable(`Loads on the wheels at rest and tipping back, ${variant}`, GROUND_HEADS, [{ rows }]);
}

function variantSection(result: BalanceResult, index: number, title: string, counter: FigureCounter, dom: FigureDom) {
  const id = (what: string) => `fig-balance${index + 1}-${what}`;
  return html`<section id="balance${index === 0 ? "" : `-v${index + 1}`}" class="balance"><h2>${title}</h2>
${branchTable(result)}${counter.print(cgEnvelopeFigure(id("envelope"), result, dom))}${changeTable(result)}
${counter.print(cgTimeFigure(id("time"), result, dom))}${groundTable(result)}</section>
`;
}

function card(result: BalanceResult, title: string): Html {
  const worst = [...result.branches].sort((a, b) => a.worst.margin_percentMac - b.worst.margin_percentMac).slice(0, 3);
  const margins = worst.map(
    ({ title: course, worst: at }) =>
      html`<li>${course}: <strong>${formatFixed(at.margin_percentMac, 2)} %</strong> of the chord to the ${at.side} limit (${at.leg})</li>`,
  );
  const fuel = result.limits
    .filter(({ id, lower, status }) => id.startsWith("balance.fuel.") && (lower !== null || status === "prohibited"))
    .map(
      (limit) =>
        html`<li>${limit.title}: <strong>${limit.status === "prohibited" ? "prohibited" : limitRange(limit)}</strong></li>`,
    );
  const changes = shownChanges(result)
    .filter(({ kind }) => kind === "release" || kind === "jettison")
    .map(
      ({ title: what, shift_percentMac, before, after }) =>
        html`<li>${what}: c.g. <strong>${formatFixed(shift_percentMac, 2)} %</strong>, load factor ${formatFixed(before.mass_kg / after.mass_kg, 3)}</li>`,
    );
  const block = (name: string, items: readonly Html[]) =>
    items.length === 0 ? NOTHING : html`<h4>${name}</h4><ul>${items}</ul>`;
  return html`<article class="card"><h3>${title}</h3>
${block("Least margins of the c.g.", margins)}${block("Limits on fuel", fuel)}${block("When the aircraft goes", changes)}</article>
`;
}

/**
 * Pages of the carrier's balance; a variant that came out like one before it is not drawn again.
 *
 * @param alone whether the report holds no other study
 */
export function balancePages(
  results: readonly BalanceResult[],
  alone: boolean,
  counter: FigureCounter,
  dom: FigureDom,
): StudyPages {
  const name = ({ variant }: BalanceResult) =>
    results.length === 1 ? "Carrier balance" : `Carrier balance: ${variant}`;
  const forms = results.map(comparable);
  const idOf = (i: number): string => `balance${i === 0 ? "" : `-v${i + 1}`}`;
  const sections = results.map((result, i) => {
    const like = forms.indexOf(forms[i]!);
    if (like === i) return variantSection(result, i, name(result), counter, dom);
    return html`<section id="${idOf(i)}"><h2>${name(result)}</h2>
<p>The same as ${results[like]!.variant} in every number.</p></section>
`;
  });
  return {
    about: "Balance and trim of the carrier over the mission",
    contents: results.map((result, i) => [idOf(i), name(result)] as const),
    cards: results.map((result) => card(result, alone ? result.variant : `Carrier balance: ${result.variant}`)),
    sections: html`${sections}`,
    style: STYLE,
  };
}
