/** Figure: worst damping ratio over bleed and orifice, with the band in which slow motion passes. */
import * as Plot from "@observablehq/plot";
import type { DesignMap } from "../../studies/hold-snubber/types.ts";
import { formatFixed, formatQuantity, formatShort } from "../numbers/index.ts";
import { criterionLegend, unstableLegend, unstablePattern } from "./areas.ts";
import { composeFigure, type LegendItem, type Panel } from "./compose.ts";
import { type Frame, plotFrame } from "./frame.ts";
import { isolines } from "./isolines.ts";
import { INK, pattern, SLATE, WARN } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const KILO = 1e-3;
const WIDTH = 380;
const HEIGHT = 330;
const LEVELS = [-0.1, -0.05, 0.05, 0.1, 0.15, 0.2, 0.25];
const MET = "#cddcef";

function frameOf(map: DesignMap): Frame {
  const axis = (label: string, values: readonly number[]) => ({
    ...{ label, log: true, from: values[0]! * KILO, to: values.at(-1)! * KILO },
  });
  return {
    width: WIDTH,
    height: HEIGHT,
    margins: { left: 64, right: 14, top: 6, bottom: 48 },
    x: axis("Bleed C1 at the tip, normal oil (kN·s/m)", map.C1_N_s_m),
    y: axis("Orifice C2 at the tip (kN·s²/m²)", map.C2_N_s2_m2),
  };
}

/** Area to the right of the slow limit: the cold stroke takes more than its share of the jack. */
function tooStiff(map: DesignMap, frame: Frame): { x1: number; x2: number; y: number }[] {
  return map.C2_N_s2_m2.map((c2, i) => {
    const limit = map.slowLimit_N_s_m[i];
    const from = limit == null ? frame.x.from : Math.min(frame.x.to, Math.max(frame.x.from, limit * KILO));
    return { x1: from, x2: frame.x.to, y: c2 * KILO };
  });
}

function panel(id: string, map: DesignMap, criterion: number | null, dom: FigureDom): Panel {
  const frame = frameOf(map);
  const [x, y] = [map.C1_N_s_m.map((v) => v * KILO), map.C2_N_s2_m2.map((v) => v * KILO)];
  const floor = criterion ?? 0;
  const ground = [{ x1: frame.x.from, x2: frame.x.to, y1: frame.y.from, y2: frame.y.to }];
  const grid = map.worst.map((value, i) => ({ x: x[i % x.length]!, y: y[Math.floor(i / x.length)]!, value }));
  const fill = new Map([
    [0, criterion === null ? MET : `url(#${id}-marginal)`],
    [floor, MET],
  ]);
  const lines = (level: number, stroke: string, width: number, dash: string): unknown[] =>
    isolines(x, y, map.worst, level).map((line) =>
      Plot.line(line, { stroke, strokeWidth: width, strokeDasharray: dash, clip: true }),
    );
  const hasLimit = map.slowLimit_N_s_m.some((limit) => limit !== null);
  const band = tooStiff(map, frame);
  const own = { x: map.at.C1_N_s_m * KILO, y: map.at.C2_N_s2_m2 * KILO };
  const isInside = own.x >= frame.x.from && own.x <= frame.x.to;
  const atEdge = { x: Math.max(own.x, frame.x.from), y: own.y };
  const marks = [
    Plot.rect(ground, { x1: "x1", x2: "x2", y1: "y1", y2: "y2", fill: `url(#${id}-unstable)` }),
    Plot.contour(grid, {
      ...{ x: "x", y: "y", value: "value", interpolate: "barycentric", stroke: "none", pixelSize: 3 },
      thresholds: [...fill.keys()],
      fill: { value: (area: { value: number }) => fill.get(area.value), scale: null },
    }),
    ...LEVELS.filter((level) => level !== criterion).flatMap((level) => lines(level, SLATE, 0.8, "none")),
    ...lines(0, WARN, 2.2, "none"),
    ...(criterion === null ? [] : lines(criterion, INK, 2.2, "8 4")),
    ...(hasLimit
      ? [
          Plot.areaX(band, { x1: "x1", x2: "x2", y: "y", fill: `url(#${id}-slow)` }),
          Plot.line(band, { x: "x1", y: "y", stroke: INK, strokeWidth: 2, strokeDasharray: "2 3", clip: true }),
        ]
      : []),
    Plot.dot([atEdge], {
      ...{ x: "x", y: "y", r: 6.5, symbol: "square", fill: isInside ? INK : "white", stroke: isInside ? "white" : INK },
      strokeWidth: 1.8,
    }),
    ...(map.best === null
      ? []
      : [
          Plot.dot([{ x: map.best.C1_N_s_m * KILO, y: map.best.C2_N_s2_m2 * KILO }], {
            ...{ x: "x", y: "y", r: 6, symbol: "triangle", fill: "#2459a8", stroke: "white", strokeWidth: 1.6 },
          }),
        ]),
  ];
  const heading = map.oil === "normal" ? "Oil at its normal temperature" : "Oil from hot to cold";
  return { svg: plotFrame(frame, marks, dom), width: WIDTH, height: HEIGHT, heading };
}

function sentence({ oil, best }: DesignMap): string {
  if (best === null) return `${oil}: nothing passes the slow stroke`;
  const at = `C1 ${formatQuantity(best.C1_N_s_m, "N*s/m")}, C2 ${formatQuantity(best.C2_N_s2_m2, "N*s^2/m^2")}`;
  return `oil ${oil}: best ζ ${formatFixed(best.dampingRatio, 3)} that still passes the slow stroke, at ${at}`;
}

/** Worst ζ over C1 × C2 in two panels, normal oil and hot to cold; outside the slow band hatched, own values and best marked. */
export function snubberMapFigure(
  id: string,
  variant: string,
  maps: readonly DesignMap[],
  criterion: number | null,
  dom: FigureDom,
): Figure | null {
  const [first] = maps;
  if (first === undefined) return null;
  const legend: LegendItem[] = [
    unstableLegend(id),
    ...(criterion === null
      ? []
      : [
          { kind: "area" as const, label: `below ζ = ${formatShort(criterion)}`, fill: `url(#${id}-marginal)` },
          { kind: "area" as const, label: "criterion met", fill: MET },
        ]),
    { kind: "area", label: "cold stroke takes too much of the jack", fill: `url(#${id}-slow)` },
    { kind: "line", label: "limit of stability ζ = 0", stroke: WARN, width: 2.2 },
    ...(criterion === null ? [] : [{ ...criterionLegend(criterion), dash: "8 4", width: 2.2 }]),
    { kind: "symbol", label: "own values (hollow: C1 left of the picture)", symbol: "square", fill: INK, stroke: INK },
    { kind: "symbol", label: "best that passes", symbol: "triangle", fill: "#2459a8", stroke: "#2459a8" },
  ];
  return composeFigure({
    id,
    title: `Worst damping ratio over bleed and orifice (${variant}, condition ${first.condition})`,
    caption:
      `Worst damping ratio ζ over all masses, the speed band and amplitudes from nothing to the declared one, ${variant}. Too little bleed leaves small ` +
      `motion undamped, too much locks the snubber, more so when the oil is cold. ${maps.map(sentence).join("; ")}.`,
    description: `Contour maps on logarithmic axes, bleed across and orifice up. ${maps.map(sentence).join("; ")}.`,
    panels: maps.map((map) => panel(id, map, criterion, dom)),
    columns: 2,
    legend,
    defs: `${unstablePattern(id)}${pattern(`${id}-marginal`, "dots", "#fbf4e4", "#7a5b13", 0.7)}${overlay(id)}`,
  });
}

/** Lines without a ground, so that what lies below stays seen. */
function overlay(id: string): string {
  return `<pattern id="${id}-slow" width="8" height="8" patternUnits="userSpaceOnUse"><path d="M-2 6L2 10M0 0L8 8M6 -2L10 2" fill="none" stroke="${INK}" stroke-opacity="0.6" stroke-width="1"/></pattern>`;
}
