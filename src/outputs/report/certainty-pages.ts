/** Pages of the part `certainty`: distribution, drivers, worst case, ground tests. */
import type { CertaintyResult, ConditionCertainty, PlaneCertainty } from "../../studies/hold-certainty/types.ts";
import { certaintyFigures } from "../figures/index.ts";
import { shortPath } from "../names/index.ts";
import { formatFixed, formatShort } from "../numbers/index.ts";
import { type Html, html, NOTHING } from "./html.ts";
import type { PartPages } from "./part-section.ts";
import { dataTable, type Head } from "./tables.ts";

const zeta = (value: number | null): string => (value === null ? "–" : formatFixed(value, 4));
const percent = (share: number, digits = 0): string => `${formatFixed(100 * share, digits)} %`;
const score = (value: number): string => `${value >= 0 ? "+" : "−"}${formatFixed(Math.abs(value), 2)} σ`;

/** Values at a point, largest first, as one cell. */
function valuesText(values: readonly { readonly path: string; readonly score_1: number }[]): string {
  const shown = values.slice(0, 6).map(({ path, score_1 }) => `${shortPath(path)} ${score(score_1)}`);
  return values.length > 6 ? `${shown.join(", ")} and ${values.length - 6} more` : shown.join(", ");
}

function distanceText({ outcome, sigma_1 }: PlaneCertainty["distance"]): string {
  if (outcome === "flat") return "no value changes it";
  if (outcome === "no value") return "no modes";
  return outcome === "not reached" ? `beyond ${formatFixed(Math.abs(sigma_1), 1)} σ` : `${formatFixed(sigma_1, 2)} σ`;
}

const SUMMARY_ROWS: readonly { readonly name: string; readonly print: (plane: PlaneCertainty) => string }[] = [
  { name: "Nominal worst ζ (mass)", print: (plane) => `${zeta(plane.nominal_1)} (${plane.nominalMass ?? "–"})` },
  { name: "Mean ± standard deviation", print: (plane) => `${zeta(plane.mean_1)} ± ${zeta(plane.standardDeviation_1)}` },
  {
    name: "Probability of missing a criterion (interval)",
    print: ({ failing }) =>
      `${percent(failing.probability_1, 1)} (${percent(failing.lower_1, 1)} to ${percent(failing.upper_1, 1)})`,
  },
  { name: "Exceeded by 95 % of all pairs", print: (plane) => zeta(plane.lowerBound_1) },
  { name: "Worst case within the bounds", print: ({ worstCase }) => zeta(worstCase?.dampingRatio_1 ?? null) },
  { name: "… with, by what each adds alone", print: ({ worstCase }) => valuesText(worstCase?.values ?? []) },
  { name: "Distance of the limit from nominal, negative beyond it", print: ({ distance }) => distanceText(distance) },
  { name: "… nearest at", print: ({ distance }) => valuesText(distance.values) },
  { name: "Probability from the distance, first order", print: ({ distance }) => percent(distance.probability_1, 1) },
  {
    name: "Mass that is the worst",
    print: ({ worstMass }) =>
      worstMass
        .filter(({ share_1 }) => share_1 > 0)
        .map(({ mass, share_1 }) => `${mass} ${percent(share_1)}`)
        .join(", "),
  },
];

function summaryTable(variant: string, certainty: ConditionCertainty): Html {
  const heads: Head[] = [
    { text: `Bounds ± ${certainty.bound_1} σ, confidence ${percent(certainty.confidence_1)}`, width: 28 },
    ...certainty.planes.map(({ plane, criterion_1 }) => ({
      text: `${plane}, criterion ζ ≥ ${formatShort(criterion_1)}`,
    })),
  ];
  const rows = SUMMARY_ROWS.map(({ name, print }) => [name, ...certainty.planes.map(print)]);
  return dataTable(`How sure: ${certainty.condition}, ${variant}`, heads, [{ rows }]);
}

function testTable(variant: string, { groundTests }: CertaintyResult, certainty: ConditionCertainty): Html {
  if (groundTests.length === 0) return NOTHING;
  const planes = certainty.planes;
  const heads: Head[] = [
    { text: "Ground test", width: 18 },
    { text: "Assumed accuracy", width: 10, numeric: true },
    ...planes.map(({ plane }) => ({ text: `${plane}: variance; missed if confirmed; decides` })),
    { text: "Cost", width: 18 },
  ];
  const best = (name: string) =>
    Math.max(0, ...planes.map(({ tests }) => tests.find(({ test }) => test === name)?.varianceBought_1 ?? 0));
  const rows = [...groundTests]
    .sort((a, b) => best(b.name) - best(a.name) || (a.name < b.name ? -1 : 1))
    .map((test) => [
      test.name,
      percent(test.accuracy_1, 1),
      ...planes.map(({ tests }) => {
        const gain = tests.find((one) => one.test === test.name);
        if (gain === undefined) return "measures nothing that matters";
        return `${percent(gain.varianceBought_1)}; ${percent(gain.failing_1, 1)}; ${percent(gain.decides_1)}`;
      }),
      test.cost ?? "–",
    ]);
  const caption = `Ground tests by the certainty they would buy: ${certainty.condition}, ${variant}; accuracy is one standard deviation`;
  return dataTable(caption, heads, [{ rows }]);
}

/** Section "Certainty" over all variants. */
export const certaintyPages: PartPages = (results, title, counter, dom) => {
  const withPart = results.flatMap(({ variant, parts }, i) =>
    parts?.certainty === undefined ? [] : [{ variant, certainty: parts.certainty, index: i }],
  );
  if (withPart.length === 0) return null;
  const name = title("Certainty");
  const parts = withPart.flatMap(({ variant, certainty, index }) =>
    certainty.conditions.map((condition, c) => {
      const figures = certaintyFigures(`fig-v${index + 1}-certainty${c + 1}`, variant, condition, dom);
      return html`<h3>${variant}, ${condition.condition}</h3>
${summaryTable(variant, condition)}${figures.map((figure) => counter.print(figure))}${testTable(variant, certainty, condition)}`;
    }),
  );
  const { samples, values, method } = withPart[0]!.certainty.conditions[0]!;
  const markup = html`<section id="certainty"><h2>${name}</h2>
<p>Every value that carries an uncertainty is sampled (${values.length} values, ${samples} samples, ${method}); each sample is trimmed anew and all
modes of every mass are found. The worst damping ratio is the smallest of all rigid-body-type oscillations of a plane over the masses.</p>
${parts}</section>
`;
  return { id: "certainty", title: name, markup };
};
