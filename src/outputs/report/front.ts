/** First page: title block, verdicts, headline numbers. */
import type { HoldResult } from "../../studies/hold/types.ts";
import { CAUTION_LINE } from "../cautions/index.ts";
import { formatFixed, formatNumber, formatQuantity } from "../numbers/index.ts";
import { isMeasured, isQuantity, overallVerdict, summariseVerdicts } from "../summary/index.ts";
import { type Html, html, NOTHING } from "./html.ts";
import { verdictMark } from "./marks.ts";
import { dataTable, type RowGroup } from "./tables.ts";
import type { ReportContext } from "./types.ts";
import { limitText, valueText } from "./values.ts";

function fact(name: string, value: string | Html): Html {
  return html`<div><dt>${name}</dt><dd>${value}</dd></div>`;
}

/** Pair, variant, version, input hash; the pair's notice; the caution in one line. */
export function titleBlock({ document, meta }: ReportContext): Html {
  const others = (document.studies.hold ?? [])
    .map(({ variant }) => variant)
    .filter((name) => name !== document.variant);
  const inputs = Object.values(document.inputs).filter(isQuantity);
  const unmeasured = inputs.filter(({ maturity }) => !isMeasured(maturity)).length;
  const notice =
    meta.notice === undefined ? NOTHING : html`<p class="notice"><strong>Notice.</strong> ${meta.notice}</p>`;
  const overrides = document.overrides.length === 0 ? NOTHING : fact("Overrides", document.overrides.join("; "));
  const seed = document.seed === null ? NOTHING : fact("Seed", String(document.seed));
  return html`<header class="title">
<p class="kind">Clearance report</p>
<h1>${document.pair}</h1>
<p class="sub">Hooked stability of the carried aircraft at one point</p>
<dl class="facts">
${fact("Variant", document.variant)}${others.length === 0 ? NOTHING : fact("Compared with", others.join(", "))}${overrides}
${fact("Davit", document.davit)}${seed}${fact("Inputs", `${inputs.length} values, ${unmeasured} of them not measured`)}
${fact("Input hash", html`<code title="SHA-256 ${meta.inputHash}">${meta.inputHash.slice(0, 16)}</code>`)}
</dl>
${notice}<p class="caution-line">${CAUTION_LINE}</p>
</header>
`;
}

function verdictGroup(result: HoldResult): RowGroup {
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

/** Verdicts of every variant, the worst finding speaking for each plane and criterion. */
export function verdictSection(results: readonly HoldResult[]): Html {
  const heads = [
    { text: "Study, plane", width: 14 },
    { text: "Verdict", width: 15 },
    { text: "Criterion", width: 29 },
    { text: "Worst value", numeric: true, width: 10 },
    { text: "Limit", numeric: true, width: 12 },
    { text: "Met", numeric: true, width: 7 },
    { text: "Source", width: 13 },
  ];
  return html`<section id="verdicts"><h2>Verdicts</h2>
${dataTable("Verdict of each plane against each criterion; the worst finding is shown", heads, results.map(verdictGroup), "verdicts")}</section>
`;
}

function stiffnessText(result: HoldResult): Html[] {
  return result.stiffness.map((need) => {
    const text =
      need.headline_N_m === null
        ? "not even a rigid connection meets the criterion"
        : `${formatQuantity(need.headline_N_m, "N/m")} or more`;
    return html`<li>${need.mass}: <strong>${text}</strong></li>`;
  });
}

function snubberText(result: HoldResult): Html[] {
  return result.snubber.map(({ mass, optimum, at_N_s_m }) => {
    const best = `ζ ${formatFixed(optimum.dampingRatio, 3)} at ${formatQuantity(optimum.rate_N_s_m, "N*s/m")}`;
    const where = `worst at ${formatFixed(optimum.atAirspeed_m_s_EAS, 0)} m/s EAS; fitted: ${formatQuantity(at_N_s_m, "N*s/m")}`;
    return html`<li>${mass}: <strong>${best}</strong> (${where})</li>`;
  });
}

function speedText(result: HoldResult): Html[] {
  const seen = new Map<string, Html>();
  for (const { condition, airspeed_m_s_EAS, airspeed_m_s_TAS, altitude_m } of result.points) {
    const text = `${formatFixed(airspeed_m_s_EAS, 1)} m/s EAS, ${formatFixed(airspeed_m_s_TAS, 1)} m/s TAS`;
    seen.set(
      `${condition}|${text}|${altitude_m}`,
      html`<li>${condition}: <strong>${text}</strong> at ${formatFixed(altitude_m, 0)} m</li>`,
    );
  }
  return [...seen.values()];
}

function pilotText(result: HoldResult): Html[] {
  return result.pilotTime.map((time) => {
    const text =
      time.outcome === "stays inside"
        ? "stays inside the limit"
        : time.outcome === "diverged elsewhere"
          ? "another motion diverged first"
          : time.time_s === null
            ? "limit reached"
            : `${formatNumber(time.time_s)} s`;
    return html`<li>${time.pointId}, ${time.plane}, ${time.upset_deg}° to ${time.limit_deg}°: <strong>${text}</strong></li>`;
  });
}

function speedLimits(result: HoldResult): Html[] {
  return result.findings
    .filter(({ verdict, unit, value }) => verdict === "information" && value !== null && /^m\/s/.test(unit))
    .map((finding) => html`<li>${finding.title}: <strong>${valueText(finding)}</strong></li>`);
}

function headlineCard(result: HoldResult): Html {
  const block = (title: string, items: readonly Html[]) =>
    items.length === 0 ? NOTHING : html`<h4>${title}</h4><ul>${items}</ul>`;
  return html`<article class="card"><h3>${result.variant}</h3>
${block("Tangential stiffness that is enough without a snubber", stiffnessText(result))}
${block("Best snubber rate at the tip and its least damping ratio", snubberText(result))}
${block("Airspeed", [...speedText(result), ...speedLimits(result)])}
${block("Time from upset to limit, nobody acting", pilotText(result))}
</article>
`;
}

/** The numbers people ask for first: stiffness, snubber, speeds, time. */
export function headlineSection(results: readonly HoldResult[]): Html {
  return html`<section id="headlines"><h2>Headline numbers</h2>
<div class="cards">${results.map(headlineCard)}</div></section>
`;
}
