/** Findings, limits, inputs: what the verdicts rest on. */
import type { Finding } from "../../studies/finding/types.ts";
import { limitMeaning, limitRange } from "../summary/index.ts";
import { dotted, type Html, html, NOTHING } from "./html.ts";
import { statusMark, verdictMark } from "./marks.ts";
import { RestSets, restSection } from "./rests.ts";
import type { VariantResults } from "./studies.ts";
import { dataTable, type Head, list, type RowGroup } from "./tables.ts";
import type { ReportContext } from "./types.ts";
import { limitText, valueText } from "./values.ts";

const FINDING_HEADS: readonly Head[] = [
  { text: "Finding", width: 45 },
  { text: "Value", numeric: true, width: 12 },
  { text: "Criterion, source", width: 15 },
  { text: "Verdict", width: 14 },
  { text: "Rests, input hash", width: 14 },
];

function findingRow(finding: Finding, sets: RestSets): (string | Html)[] {
  const note = finding.note === undefined ? NOTHING : html`<br><span class="soft">${finding.note}</span>`;
  const source =
    finding.criterion === undefined ? NOTHING : html`<br><span class="soft">${finding.criterion.source}</span>`;
  return [
    html`${dotted(finding.id)}<br>${finding.title}${note}`,
    valueText(finding),
    html`${limitText(finding)}${source}`,
    verdictMark(finding.verdict),
    html`${sets.nameOf(finding.rests)}<br><code>${finding.inputHash.slice(0, 12)}</code>`,
  ];
}

/** Every finding of every variant, and the sets of inputs they rest on. */
export function findingSection(results: readonly VariantResults[], document: ReportContext["document"]): Html {
  const sets = new RestSets();
  const groups: RowGroup[] =
    results.length === 0
      ? [{ title: document.variant, rows: document.findings.map((finding) => findingRow(finding, sets)) }]
      : results.map((result) => ({
          title: result.variant,
          rows: result.findings.map((finding) => findingRow(finding, sets)),
        }));
  const caption = "All findings; the last column names the set of inputs below and the first digits of their hash";
  return html`<section id="findings"><h2>Findings</h2>
${dataTable(caption, FINDING_HEADS, groups, "findings")}${restSection(sets)}</section>
`;
}

const LIMIT_HEADS: readonly Head[] = [
  { text: "Limit", width: 36 },
  { text: "Status", width: 15 },
  { text: "Range, and what holds in it", width: 24 },
  { text: "Because of", width: 25 },
];

/** Limits of operation with their status. */
export function limitSection(results: readonly VariantResults[], document: ReportContext["document"]): Html {
  const sources = results.length === 0 ? [{ variant: document.variant, limits: document.limits }] : results;
  const groups = sources.map(({ variant, limits }) => ({
    title: variant,
    rows: limits.map((limit) => [
      html`${dotted(limit.id)}<br>${limit.title}, ${limit.quantity}${limit.note === undefined ? NOTHING : html`<br><span class="soft">${limit.note}</span>`}`,
      statusMark(limit.status),
      html`${limitRange(limit)}<br><span class="soft">${limitMeaning(limit)}</span>`,
      html`${limit.because.map((id, i) => html`${i === 0 ? NOTHING : html`<br>`}${dotted(id)}`)}`,
    ]),
  }));
  return html`<section id="limits"><h2>Limits</h2>
<p>Analysed means computed, not flown. Nothing here is demonstrated until a test has shown it.</p>
${dataTable("Limits of operation that follow from the findings", LIMIT_HEADS, groups, "limits")}</section>
`;
}

/** Assumptions, then what was not analysed; each sentence once, also when several variants state it. */
export function boundarySections(results: readonly VariantResults[], { meta }: ReportContext): Html {
  const assumptions = [...new Set(results.flatMap((result) => result.assumptions))];
  const missing = [...new Set([...results.flatMap((result) => result.notAnalysed), ...(meta.notAnalysed ?? [])])];
  return html`<section id="assumptions"><h2>Assumptions</h2>
${list(assumptions)}</section>
<section id="not-analysed"><h2>Not analysed</h2>
${list(missing)}</section>
`;
}
