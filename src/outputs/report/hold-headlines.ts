/** Headline numbers of the study `hold`. */
import type { HoldResult } from "../../studies/hold/types.ts";
import { formatFixed, formatNumber, formatQuantity } from "../numbers/index.ts";
import { type Html, html, NOTHING } from "./html.ts";
import { valueText } from "./values.ts";

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

/** The numbers people ask for first: stiffness, snubber, speeds, time. */
export function holdCard(result: HoldResult, title: string): Html {
  const block = (name: string, items: readonly Html[]) =>
    items.length === 0 ? NOTHING : html`<h4>${name}</h4><ul>${items}</ul>`;
  return html`<article class="card"><h3>${title}</h3>
${block("Tangential stiffness that is enough without a snubber", stiffnessText(result))}
${block("Best snubber rate at the tip and its least damping ratio", snubberText(result))}
${block("Airspeed", [...speedText(result), ...speedLimits(result)])}
${block("Time from upset to limit, nobody acting", pilotText(result))}
</article>
`;
}
