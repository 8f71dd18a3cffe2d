/** Report section of balances, static divergence and hook loads of `hold`. */
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import type { EquilibriumResult, LoadCurve } from "../../studies/hold-equilibrium/types.ts";
import { balanceFigure, type Figure, type FigureDom, hookLoadFigure } from "../figures/index.ts";
import { formatFixed, formatQuantity } from "../numbers/index.ts";
import { html } from "./html.ts";
import type { PartPages } from "./part-section.ts";
import { dataTable, type Head } from "./tables.ts";

const DIVERGENCE_HEADS: readonly Head[] = [
  { text: "Condition × mass", width: 26 },
  { text: "Along", width: 18 },
  { text: "Searched", width: 24 },
  { text: "Real root passes zero at", width: 32 },
];
const BALANCE_HEADS: readonly Head[] = [
  { text: "Condition × mass", width: 26 },
  { text: "Elevator", width: 22 },
  { text: "Boom without load (°)", numeric: true, width: 16 },
  { text: "Balances at the condition", numeric: true, width: 18 },
  { text: "Two meet at (m/s EAS)", width: 18 },
];
const ALONG = { airspeed: "airspeed", boomAngle: "boom angle", weightShare: "weight share" } as const;

/** Curves of one condition and mass: those of the mass with the largest resultant, condition by condition. */
function governing(loads: readonly LoadCurve[]): LoadCurve[][] {
  const groups = new Map<string, LoadCurve[]>();
  for (const curve of loads) {
    const key = `${curve.condition}|${curve.mass}`;
    groups.set(key, [...(groups.get(key) ?? []), curve]);
  }
  const most = (curves: readonly LoadCurve[]) =>
    Math.max(0, ...curves.flatMap(({ hookLoad_N }) => hookLoad_N.filter((load) => load !== null)));
  const chosen = new Map<string, LoadCurve[]>();
  for (const curves of groups.values()) {
    const { condition } = curves[0]!;
    const other = chosen.get(condition);
    if (other === undefined || most(curves) > most(other)) chosen.set(condition, curves);
  }
  return [...chosen.values()];
}

function figuresOf(id: (what: string) => string, variant: string, part: EquilibriumResult, dom: FigureDom): Figure[] {
  const conditions = [...new Set(part.families.map(({ condition }) => condition))];
  const branches = conditions.flatMap((condition, i) =>
    (["fixed", "holds weight share"] as const).map((elevator, k) =>
      balanceFigure(
        id(`balances${2 * i + k + 1}`),
        variant,
        part.families.filter((family) => family.condition === condition && family.elevator === elevator),
        dom,
      ),
    ),
  );
  const loads = governing(part.loads).map((curves, i) =>
    hookLoadFigure(id(`hookload${i + 1}`), variant, curves, part.hookLoadLimit_N, dom),
  );
  return [...branches, ...loads].filter((figure) => figure !== null);
}

function tablesOf(result: HoldDepthResult, part: EquilibriumResult) {
  const balances = part.families.map((family) => [
    `${family.condition} × ${family.mass}`,
    family.elevator === "fixed" ? `fixed at ${formatFixed(family.elevatorAtTrim_deg, 2)}°` : "holds the weight share",
    formatFixed(family.unloadedBoomAngle_deg, 2),
    String(family.atCondition),
    family.folds_m_s_EAS.length === 0
      ? "nowhere"
      : family.folds_m_s_EAS.map((speed) => formatFixed(speed, 2)).join(", "),
  ]);
  const divergence = part.divergence.map(({ condition, mass, along, unit, from, to, at, withoutTrim, places }) => [
    `${condition} × ${mass}`,
    ALONG[along],
    `${formatFixed(from, 0)} to ${formatFixed(to, 0)} ${unit}`,
    at.length === 0
      ? withoutTrim === places
        ? "no trim"
        : withoutTrim > 0
          ? "none where it trims"
          : "none in the range"
      : at.map(({ value, plane }) => `${formatFixed(value, 2)} ${unit} (${plane})`).join(", "),
  ]);
  const stiffness = part.stiffness.map(({ condition, mass, trims, needed_N_m, present_N_m }) => {
    const needed = !trims
      ? "the aircraft does not trim there"
      : needed_N_m === null || needed_N_m <= 0
        ? "none is needed against static divergence"
        : `a real root passes zero at ${formatQuantity(needed_N_m, "N/m")}`;
    return html`<li>${condition} × ${mass}: static tangential stiffness ${formatQuantity(present_N_m, "N/m")}; ${needed}</li>`;
  });
  return html`${dataTable(`Balances with the jack at its length, ${result.variant}`, BALANCE_HEADS, [{ rows: balances }])}
${dataTable(`Static divergence in the pair's trim, ${result.variant}`, DIVERGENCE_HEADS, [{ rows: divergence }])}
<ul>${stiffness}</ul>`;
}

/** Balances and hook loads of every variant. */
export const equilibriumPages: PartPages = (results, title, counter, dom) => {
  if (!results.some((result) => (result.parts?.equilibrium?.families ?? []).length > 0)) return null;
  const name = title("Balances and hook loads");
  const parts = results.map((result, i) => {
    const part = result.parts?.equilibrium;
    if (part === undefined || part.families.length === 0) return "";
    const figures = figuresOf((what) => `fig-v${i + 1}-${what}`, result.variant, part, dom);
    return html`<h3>${result.variant}</h3>
${figures.map((figure) => counter.print(figure))}${tablesOf(result, part)}`;
  });
  return {
    id: "balances",
    title: name,
    markup: html`<section id="balances"><h2>${name}</h2>
<p>Trim chooses the boom angle under load; in flight the jack has a length and the pair finds its balance. Here the jack keeps the length that the condition's trim needs,
and every balance is followed over airspeed. A balance may be stable, lose to a growing oscillation, or diverge.</p>
${parts}</section>
`,
  };
};
