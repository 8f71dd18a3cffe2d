/** First page: title block, verdicts, headline numbers. */
import { CAUTION_LINE } from "../cautions/index.ts";
import { isMeasured, isQuantity, overallVerdict, summariseVerdicts } from "../summary/index.ts";
import { type Html, html, NOTHING } from "./html.ts";
import { verdictMark } from "./marks.ts";
import type { StudyPages, VariantResults } from "./studies.ts";
import { dataTable, type RowGroup } from "./tables.ts";
import type { ReportContext } from "./types.ts";
import { limitText, valueText } from "./values.ts";

function fact(name: string, value: string | Html): Html {
  return html`<div><dt>${name}</dt><dd>${value}</dd></div>`;
}

/** Pair, variant, version, input hash; the pair's notice; the caution in one line. */
export function titleBlock(
  { document, meta }: ReportContext,
  variants: readonly VariantResults[],
  pages: readonly StudyPages[],
): Html {
  const others = variants.map(({ variant }) => variant).filter((name) => name !== document.variant);
  const about = pages
    .map(({ about: text }, i) => (i === 0 ? text : text.charAt(0).toLowerCase() + text.slice(1)))
    .join("; ");
  const inputs = Object.values(document.inputs).filter(isQuantity);
  const unmeasured = inputs.filter(({ maturity }) => !isMeasured(maturity)).length;
  const notice =
    meta.notice === undefined ? NOTHING : html`<p class="notice"><strong>Notice.</strong> ${meta.notice}</p>`;
  const overrides = document.overrides.length === 0 ? NOTHING : fact("Overrides", document.overrides.join("; "));
  const seed = document.seed === null ? NOTHING : fact("Seed", String(document.seed));
  return html`<header class="title">
<p class="kind">Clearance report</p>
<h1>${document.pair}</h1>
<p class="sub">${about}</p>
<dl class="facts">
${fact("Variant", document.variant)}${others.length === 0 ? NOTHING : fact("Compared with", others.join(", "))}${overrides}
${fact("Davit", document.davit)}${seed}${fact("Inputs", `${inputs.length} values, ${unmeasured} of them not measured`)}
${fact("Input hash", html`<code title="SHA-256 ${meta.inputHash}">${meta.inputHash.slice(0, 16)}</code>`)}
</dl>
${notice}<p class="caution-line">${CAUTION_LINE}</p>
</header>
`;
}

function verdictGroup(result: VariantResults): RowGroup {
  return {
    title: html`${result.variant} ${verdictMark(overallVerdict(result.findings))}`,
    rows: summariseVerdicts(result.findings).map(({ study, subject, verdict, what, governing, count, met }) => [
      html`${study}, ${subject}`,
      verdictMark(verdict),
      count > 1 && governing.criterion !== undefined && governing.value !== null
        ? html`${what}<br><span class="soft">worst: ${governing.title}</span>`
        : what,
      valueText(governing),
      limitText(governing),
      `${met} of ${count}`,
      governing.criterion?.source ?? "–",
    ]),
  };
}

/**
 * Verdicts of every variant, the worst finding speaking for each subject and criterion.
 *
 * @param subject what a row is about: "plane" of motion, or "subject" where studies of other kinds take part
 */
export function verdictSection(results: readonly VariantResults[], subject: string): Html {
  const heads = [
    { text: `Study, ${subject}`, width: 14 },
    { text: "Verdict", width: 15 },
    { text: "Criterion", width: 29 },
    { text: "Worst value", numeric: true, width: 10 },
    { text: "Limit", numeric: true, width: 12 },
    { text: "Met", numeric: true, width: 7 },
    { text: "Source", width: 13 },
  ];
  return html`<section id="verdicts"><h2>Verdicts</h2>
${dataTable(`Verdict of each ${subject} against each criterion; the worst finding is shown`, heads, results.map(verdictGroup), "verdicts")}</section>
`;
}

/** The numbers people ask for first, a card for each study and variant. */
export function headlineSection(pages: readonly StudyPages[]): Html {
  return html`<section id="headlines"><h2>Headline numbers</h2>
<div class="cards">${pages.flatMap(({ cards }) => cards)}</div></section>
`;
}
