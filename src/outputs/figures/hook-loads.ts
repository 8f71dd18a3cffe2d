/** Figure: loads on the hook in trim along airspeed, boom angle, weight share and thrust. */
import * as Plot from "@observablehq/plot";
import type { LoadCurve } from "../../studies/hold-equilibrium/types.ts";
import { formatShort, prettyUnit } from "../numbers/index.ts";
import { composeFigure, type LegendItem, type Panel } from "./compose.ts";
import { type Frame, padded, plotFrame } from "./frame.ts";
import { curveStyle, INK, WARN } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const KILO = 1e-3;
const CURVES = [
  { key: "hookLoad_N", name: "resultant on the hook" },
  { key: "towLoad_N", name: "tow load, forward on the aircraft" },
  { key: "supportLoad_N", name: "support load, up on the aircraft" },
  { key: "axialLoad_N", name: "along the boom, away from the hinge" },
  { key: "jackLoad_N", name: "jack, towards a larger angle" },
] as const;

function panel(curve: LoadCurve, limit: number | null, range: readonly [number, number], dom: FigureDom): Panel {
  const [from, to] = range;
  const frame: Frame = {
    width: 380,
    height: 262,
    margins: { left: 56, right: 14, top: 6, bottom: 46 },
    x: {
      label: `${curve.axis.label} (${curve.axis.unit})`,
      ...{ from: curve.values[0]!, to: curve.values.at(-1)!, log: false },
    },
    y: { label: "Load (kN)", from, to, log: false },
  };
  const marks: unknown[] = [Plot.ruleY([0], { stroke: INK, strokeWidth: 0.8 })];
  if (limit !== null && limit * KILO <= to) {
    marks.push(Plot.ruleY([limit * KILO], { stroke: WARN, strokeWidth: 1.6, strokeDasharray: "7 4" }));
  }
  if (curve.at >= frame.x.from && curve.at <= frame.x.to) {
    marks.push(Plot.ruleX([curve.at], { stroke: INK, strokeWidth: 1, strokeDasharray: "2 2.5" }));
  }
  CURVES.forEach(({ key }, i) => {
    const { stroke, dash, symbol } = curveStyle(i);
    const points = curve.values.map((x, k) => {
      const load = curve[key][k] ?? null;
      return { x, y: load === null ? null : load * KILO };
    });
    marks.push(Plot.line(points, { x: "x", y: "y", stroke, strokeWidth: 2, strokeDasharray: dash, clip: true }));
    const spots = points.filter(({ y }, k) => y !== null && k % 14 === 7 + (i % 3));
    marks.push(Plot.dot(spots, { x: "x", y: "y", symbol, r: 3.2, fill: "white", stroke, strokeWidth: 1.3 }));
  });
  return { svg: plotFrame(frame, marks, dom), width: frame.width, height: frame.height };
}

/** Largest resultant over all curves [N]. */
function largest(curves: readonly LoadCurve[]): number {
  return Math.max(0, ...curves.flatMap(({ hookLoad_N }) => hookLoad_N.filter((load) => load !== null)));
}

/**
 * Loads on the hook of one mass: resultant, tow, support, along the boom, at the jack; one panel for each quantity that varies.
 *
 * @param curves of one condition and mass
 * @param limit  of the resultant [N]; null when the pair states none
 */
export function hookLoadFigure(
  id: string,
  variant: string,
  curves: readonly LoadCurve[],
  limit: number | null,
  dom: FigureDom,
): Figure | null {
  const [first] = curves;
  if (first === undefined) return null;
  const values = curves.flatMap((curve) => CURVES.flatMap(({ key }) => curve[key].filter((load) => load !== null)));
  if (values.length === 0) return null;
  const range = padded([0, ...values.map((value) => value * KILO)], 0.06);
  const legend: LegendItem[] = CURVES.map(({ name }, i) => {
    const { stroke, dash, symbol } = curveStyle(i);
    return { kind: "line", label: name, stroke, dash, width: 2, symbol, fill: "#ffffff" };
  });
  const own = curves.map(
    ({ axis, at }) =>
      `${axis.label.toLowerCase().replace("eas", "EAS")} ${formatShort(Number(at.toPrecision(4)))} ${prettyUnit(axis.unit)}`,
  );
  const limitWords =
    limit === null ? "" : ` The dashed level is the limit of the resultant, ${formatShort(limit * KILO)} kN.`;
  return composeFigure({
    id,
    title: `Loads on the hook in trim (${variant}, condition ${first.condition}, mass ${first.mass})`,
    caption:
      `Loads in the pair's trim, one quantity changed alone; the thin vertical line is the condition's own value. A curve ends where the aircraft does not ` +
      `trim. Largest resultant: ${formatShort(Number((largest(curves) * KILO).toPrecision(3)))} kN.${limitWords}`,
    description: `${curves.length} panels of load curves around ${own.join(", ")}. Largest resultant ${formatShort(Number((largest(curves) * KILO).toPrecision(3)))} kN.`,
    panels: curves.map((curve) => panel(curve, limit, range, dom)),
    legend: [
      ...legend,
      ...(limit === null ? [] : [{ kind: "line" as const, label: "limit of the resultant", stroke: WARN, dash: "7 4", width: 1.6 }]), // biome-ignore format: one choice
    ],
    columns: 2,
  });
}
