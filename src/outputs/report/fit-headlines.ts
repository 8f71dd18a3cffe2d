/** Headline numbers of the study `fit`. */
import type { FitResult } from "../../studies/fit/types.ts";
import { greatestLoad, loadName, worstPose } from "../figures/index.ts";
import { clearanceMatrix, mapName, millimetres, numbered, refusal } from "../fit-tables/index.ts";
import { partName } from "../names/index.ts";
import { formatFixed, formatQuantity } from "../numbers/index.ts";
import { type Html, html, NOTHING } from "./html.ts";

/** Pairs named in the card. */
const TIGHTEST = 3;

function clearanceItems(result: FitResult): Html[] {
  return clearanceMatrix(result)
    .filter(({ zone, kind }) => !zone && kind === "moving")
    .slice(0, TIGHTEST)
    .map((row) => {
      const limit = row.criterion === null ? "" : `, criterion ${formatFixed(1000 * row.criterion.value_m, 1)} mm`;
      const stack = row.afterStack === null ? "" : `; ${millimetres(row.afterStack.worst)} mm after the stack`;
      return html`<li>${row.name}: <strong>${millimetres(row.least)} mm</strong> (${row.where}${limit}${stack})</li>`;
    });
}

function orderItems({ maps }: FitResult): Html[] {
  return maps
    .filter(({ held }) => held === null)
    .map((map) => {
      const none = refusal(map);
      const text = none ?? numbered(map.path?.steps ?? []);
      return html`<li>${mapName(map)}: <strong>${text}</strong></li>`;
    });
}

function groundItems({ ground, loading }: FitResult): Html[] {
  const items: Html[] = [];
  const worst = ground?.states.reduce((a, b) => (b.clearance_m < a.clearance_m ? b : a));
  if (worst !== undefined) {
    const least = `${formatFixed(worst.clearance_m, 2)} m`;
    items.push(html`<li>clearance, ${worst.name}: <strong>${least}</strong> (${partName(worst.at.part)})</li>`);
    const limit = worst.rotationLimits[0];
    if (limit?.limit_deg != null)
      items.push(
        html`<li>rotation, ${limit.pose}, ${worst.name}: <strong>${formatFixed(limit.limit_deg, 1)}°</strong></li>`,
      );
  }
  if (loading !== null) {
    const height =
      loading.requiredJacking_m === null ? "no height is enough" : `${formatFixed(loading.requiredJacking_m, 2)} m`;
    items.push(html`<li>carrier raised for loading: <strong>${height}</strong></li>`);
  }
  return items;
}

function mechanismItems({ stroke, tolerance }: FitResult): Html[] {
  const items: Html[] = [];
  const load = greatestLoad(stroke);
  if (load?.load_N != null)
    items.push(
      html`<li>jack load: <strong>${formatQuantity(load.load_N, "N")}</strong> at ${formatFixed(load.boomAngle_deg, 1)}° (${loadName(load)})</li>`,
    );
  const least = stroke.reduce<FitResult["stroke"][number] | null>(
    (a, b) => (a === null || b.transmissionAngle_deg < a.transmissionAngle_deg ? b : a),
    null,
  );
  if (least !== null)
    items.push(
      html`<li>transmission angle: <strong>${formatFixed(least.transmissionAngle_deg, 1)}°</strong> at ${formatFixed(least.boomAngle_deg, 1)}°</li>`,
    );
  const pose = worstPose(tolerance);
  if (pose !== null)
    items.push(
      html`<li>pitch error, ${pose.pose}: <strong>±${formatFixed(pose.rss_deg, 2)}°</strong> root sum square, ±${formatFixed(pose.worst_deg, 2)}° worst</li>`,
    );
  return items;
}

/** The numbers people ask for first: tightest clearances, order of moves, ground, mechanism. */
export function fitCard(result: FitResult, title: string): Html {
  const block = (name: string, items: readonly Html[]) =>
    items.length === 0 ? NOTHING : html`<h4>${name}</h4><ul>${items}</ul>`;
  return html`<article class="card"><h3>${title}</h3>
${block("Tightest clearances over the stroke", clearanceItems(result))}
${block("Order of moves", orderItems(result))}
${block("On the ground", groundItems(result))}
${block("Mechanism", mechanismItems(result))}
</article>
`;
}
