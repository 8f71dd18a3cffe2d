/** Figure: worst damping ratio of each variant, a panel for each plane. */
import * as Plot from "@observablehq/plot";
import type { VariantComparison } from "../comparison/index.ts";
import { formatFixed } from "../numbers/index.ts";
import { criterionLegend, unstableLegend, unstablePattern } from "./areas.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Axis, type Frame, padded, plotFrame } from "./frame.ts";
import { INK, SLATE, WARN } from "./style.ts";
import { fitText } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const ROW = 27;
const WIDTH = 760;
const MARGINS = { left: 150, right: 64, top: 6, bottom: 44 } as const;
const PLANES = ["longitudinal", "lateral"] as const;

interface Dot {
  readonly variant: string;
  readonly row: number;
  readonly zeta: number | null;
}

/** Worst ζ of a plane by variant, `null` where the plane has no such oscillation or `hold` did not run. */
function dotsOf({ variants }: VariantComparison, plane: (typeof PLANES)[number]): Dot[] {
  return variants.map(({ variant, hold }, row) => ({
    ...{ variant, row },
    zeta: hold?.planes[plane].worst?.dampingRatio_1 ?? null,
  }));
}

function panel(
  id: string,
  heading: string,
  dots: readonly Dot[],
  x: Axis,
  criterion: number | null,
  dom: FigureDom,
): Panel {
  const frame: Frame = {
    width: WIDTH,
    height: ROW * dots.length + MARGINS.top + MARGINS.bottom,
    margins: MARGINS,
    x,
    y: {
      label: "",
      from: dots.length - 0.5,
      to: -0.5,
      log: false,
      ticks: dots.map(({ row }) => row),
      format: (row) => fitText(dots[row]?.variant ?? "", MARGINS.left - 20),
    },
  };
  const known = dots.filter((dot) => dot.zeta !== null);
  const good = (dot: Dot): boolean => dot.zeta! >= (criterion ?? 0);
  const ground = [{ x1: x.from, x2: Math.min(0, x.to), y1: -0.5, y2: dots.length - 0.5 }];
  const place = { x: "zeta", y: "row" } as const;
  const marks = [
    ...(x.from < 0
      ? [
          Plot.rect(ground, { x1: "x1", x2: "x2", y1: "y1", y2: "y2", fill: `url(#${id}-unstable)`, inset: 0 }),
          Plot.ruleX([0], { stroke: WARN, strokeWidth: 1.2 }),
        ]
      : []),
    ...(criterion === null ? [] : [Plot.ruleX([criterion], { stroke: INK, strokeWidth: 1.6, strokeDasharray: "7 4" })]),
    Plot.ruleY(known, { y: "row", x1: () => 0, x2: "zeta", stroke: SLATE, strokeWidth: 1.4 }),
    Plot.dot(known.filter(good), { ...place, symbol: "circle", r: 5.2, fill: INK, stroke: "white", strokeWidth: 1 }),
    Plot.dot(
      known.filter((dot) => !good(dot)),
      { ...place, symbol: "diamond", r: 5.2, fill: "white", stroke: WARN, strokeWidth: 2 },
    ),
    Plot.text(dots, {
      x: () => x.to,
      y: "row",
      text: ({ zeta }: Dot) => (zeta === null ? "none" : formatFixed(zeta, 3)),
      textAnchor: "start",
      dx: 8,
      fill: INK,
    }),
  ];
  return { svg: plotFrame(frame, marks, dom), width: WIDTH, height: frame.height, heading };
}

function sentence(plane: string, dots: readonly Dot[]): string {
  return `${plane}: ${dots.map(({ variant, zeta }) => `${variant} ${zeta === null ? "none" : formatFixed(zeta, 3)}`).join(", ")}`;
}

/** Worst damping ratio per variant and plane as dots on lines from zero, with the criterion; `null` when `hold` ran for none. */
export function variantDampingFigure(id: string, comparison: VariantComparison, dom: FigureDom): Figure | null {
  const criterion = comparison.dampingCriterion_1;
  const all = PLANES.map((plane) => ({ plane, dots: dotsOf(comparison, plane) }));
  const values = all.flatMap(({ dots }) => dots.flatMap(({ zeta }) => (zeta === null ? [] : [zeta])));
  if (values.length === 0) return null;
  const [from, to] = padded([0, ...(criterion === null ? [] : [criterion]), ...values], 0.08);
  const x: Axis = { label: "Worst damping ratio ζ, rigid-body type (–)", from, to, log: false };
  const said = all.map(({ plane, dots }) => sentence(plane, dots)).join("; ");
  return composeFigure({
    id,
    title: "Worst damping ratio of each variant",
    caption: `Least damping ratio ζ of the oscillations of rigid-body type over all conditions and masses, a panel for each plane. ${said}.`,
    description: `Dots on lines from zero, one for each variant. ${said}.`,
    panels: all.map(({ plane, dots }) =>
      panel(id, plane === "longitudinal" ? "Longitudinal" : "Lateral", dots, x, criterion, dom),
    ),
    legend: [
      { kind: "symbol", label: "meets the criterion", symbol: "circle", fill: INK, stroke: INK },
      { kind: "symbol", label: "does not", symbol: "diamond", fill: "#ffffff", stroke: WARN },
      ...(criterion === null ? [] : [criterionLegend(criterion)]),
      unstableLegend(id),
    ],
    defs: unstablePattern(id),
  });
}
