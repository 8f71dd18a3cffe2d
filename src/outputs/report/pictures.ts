/** The figures of the study `hold`. */
import type { HoldPoint, HoldResult, Sweep } from "../../studies/hold/types.ts";
import {
  dampingSweepFigure,
  type Figure,
  type FigureDom,
  modeEnergyFigure,
  rootLocusFigure,
  snubberFigure,
  stabilityMapFigure,
  stiffnessFigure,
  upsetFigure,
} from "../figures/index.ts";
import { dampingCriterion } from "../summary/index.ts";
import type { FigureCounter } from "./figure-counter.ts";
import { type Html, html, NOTHING } from "./html.ts";

/** Sweeps that are also shown as root loci. */
const WITH_LOCI = new Set(["airspeed", "boomAngle"]);

/** Least damping ratio over a sweep of the rigid-body-type oscillations; decides which mass is shown. */
function leastDamping(sweep: Sweep): number {
  let least = Number.POSITIVE_INFINITY;
  for (const { class: kind, dampingRatio, imag_rad_s } of sweep.tracks) {
    if (kind !== "rigid-body-type") continue;
    dampingRatio.forEach((value, i) => {
      if (value !== null && (imag_rad_s[i] ?? 0) > 0) least = Math.min(least, value);
    });
  }
  return least;
}

/** One sweep for each id and condition: that of the mass with the least damping. */
function governingSweeps(sweeps: readonly Sweep[]): Sweep[] {
  const chosen = new Map<string, Sweep>();
  for (const sweep of sweeps) {
    const key = `${sweep.condition}|${sweep.id}`;
    const other = chosen.get(key);
    if (other === undefined || leastDamping(sweep) < leastDamping(other)) chosen.set(key, sweep);
  }
  return [...chosen.values()];
}

/** One point for each condition: that with the least damped mode. */
function governingPoints(points: readonly HoldPoint[]): HoldPoint[] {
  const least = (point: HoldPoint) =>
    Math.min(...point.modes.filter((mode) => mode.imag_rad_s > 0).map((mode) => mode.dampingRatio));
  const chosen = new Map<string, HoldPoint>();
  for (const point of points) {
    if (point.modes.length === 0) continue;
    const other = chosen.get(point.condition);
    if (other === undefined || least(point) < least(other)) chosen.set(point.condition, point);
  }
  return [...chosen.values()];
}

/** Figures of one variant: all of them for the selected one, the first; the others without lesser sweeps and energies. */
function variantFigures(result: HoldResult, index: number, dom: FigureDom): Figure[] {
  const id = (what: string) => `fig-v${index + 1}-${what}`;
  const criterion = dampingCriterion([result]);
  const figures: (Figure | null)[] = result.maps.map((map, i) =>
    stabilityMapFigure(id(`map${i + 1}`), map, criterion, dom),
  );
  const full = index === 0;
  const sweeps = governingSweeps(result.sweeps).filter((sweep) => full || WITH_LOCI.has(sweep.id));
  sweeps.forEach((sweep, i) => {
    figures.push(dampingSweepFigure(id(`damping${i + 1}`), sweep, criterion, dom));
    if (WITH_LOCI.has(sweep.id)) figures.push(rootLocusFigure(id(`locus${i + 1}`), sweep, criterion, dom));
  });
  figures.push(stiffnessFigure(id("stiffness"), result.variant, result.stiffness, dom));
  figures.push(upsetFigure(id("upset"), result.variant, result.pilotTime, dom));
  governingPoints(full ? result.points : []).forEach((point, i) => {
    figures.push(modeEnergyFigure(id(`energy${i + 1}`), result.variant, point, dom));
  });
  return figures.filter((figure) => figure !== null);
}

/** All pictures: the comparison of the variants first, then each variant. */
export function pictureSection(
  results: readonly HoldResult[],
  title: string,
  counter: FigureCounter,
  dom: FigureDom,
): Html {
  const snubber = snubberFigure("fig-snubber", results, dampingCriterion(results), dom);
  const together =
    snubber === null
      ? NOTHING
      : html`<h3>Snubber, all variants</h3>
${counter.print(snubber)}`;
  const parts = results.map((result, i) => {
    const figures = variantFigures(result, i, dom).map((figure) => counter.print(figure));
    return figures.length === 0
      ? NOTHING
      : html`<h3 id="pictures-v${i + 1}">${result.variant}</h3>
${figures}`;
  });
  return html`<section id="pictures"><h2>${title}</h2>
<p>Curves differ by dash and symbol as well as by colour; the hatched side is always the one to stay away from. Where several masses were
computed, the one with the least damping is drawn; all of them are in the tables. The selected variant is shown with all its sweeps, every other with
those along airspeed and boom angle; the rest is in the result file.</p>
${together}${parts}</section>
`;
}
