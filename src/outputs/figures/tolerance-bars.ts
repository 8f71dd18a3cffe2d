/** Figure: which dimensions carry the attitude error, largest first. */
import * as Plot from "@observablehq/plot";
import type { ToleranceContributor, ToleranceResult } from "../../studies/fit/types.ts";
import { formatFixed } from "../numbers/index.ts";
import { composeFigure, type LegendItem } from "./compose.ts";
import { type Frame, plotFrame } from "./frame.ts";
import { areaStyle, INK, pattern, SLATE, type SymbolName } from "./style.ts";
import { fitText } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const ROW = 26;
const MARGINS = { left: 236, right: 150, top: 6, bottom: 46 };
/** Dimensions drawn; the rest is summed up in words. */
const MOST = 12;
const SYMBOLS: readonly SymbolName[] = ["diamond", "square", "triangle", "circle"];

/** The pose with the largest error, root sum square. */
export function worstPose(tolerance: readonly ToleranceResult[]): ToleranceResult | null {
  return tolerance.reduce<ToleranceResult | null>((a, b) => (a === null || b.rss_deg > a.rss_deg ? b : a), null);
}

/** Shares of the sum of squares, summed up from the largest on. */
function cumulative(contributors: readonly ToleranceContributor[]): number[] {
  let sum = 0;
  return contributors.map(({ shareOfSquares_1 }) => {
    sum += shareOfSquares_1;
    return sum;
  });
}

function sentence({ pose, worst_deg, rss_deg, monteCarlo }: ToleranceResult): string {
  const spread = `99.73 % within ±${formatFixed(monteCarlo.within99_73_deg, 3)}° in ${monteCarlo.samples} samples`;
  return `${pose}: worst case ±${formatFixed(worst_deg, 3)}°, root sum square ±${formatFixed(rss_deg, 3)}°, ${spread}`;
}

/** Bars of the contributions in the worst pose, symbols for the other poses, running sum of the shares at the right. */
export function toleranceFigure(
  id: string,
  variant: string,
  tolerance: readonly ToleranceResult[],
  dom: FigureDom,
): Figure | null {
  const worst = worstPose(tolerance);
  if (worst === null || worst.contributors.length === 0) return null;
  const rows = worst.contributors.slice(0, MOST);
  const others = tolerance.filter((one) => one !== worst);
  const sums = cumulative(rows);
  const largest = Math.max(
    ...tolerance.flatMap(({ contributors }) => contributors.map((one) => Math.abs(one.contribution_deg))),
  );
  const frame: Frame = {
    width: WIDTH,
    height: ROW * rows.length + MARGINS.top + MARGINS.bottom,
    margins: MARGINS,
    x: {
      label: "Contribution to the pitch of the carried aircraft (deg)",
      from: 0,
      to: 1.06 * (largest || 1),
      log: false,
    },
    y: {
      label: "",
      from: rows.length - 0.5,
      to: -0.5,
      log: false,
      ticks: rows.map((_, i) => i),
      format: (i) => fitText(rows[i]?.dimension ?? "", MARGINS.left - 24),
    },
  };
  const bars = rows.map(({ contribution_deg }, i) => ({
    x1: 0,
    x2: Math.abs(contribution_deg),
    y1: i - 0.34,
    y2: i + 0.34,
  }));
  const texts = rows.map(({ contribution_deg, shareOfSquares_1 }, i) => ({
    y: i,
    x: frame.x.to,
    text: `${formatFixed(Math.abs(contribution_deg), 3)}°, ${Math.round(100 * shareOfSquares_1)} % (Σ ${Math.round(100 * sums[i]!)} %)`,
  }));
  const dots = others.map(({ contributors }) =>
    rows.flatMap(({ dimension }, i) => {
      const own = contributors.find((one) => one.dimension === dimension);
      return own === undefined ? [] : [{ x: Math.abs(own.contribution_deg), y: i }];
    }),
  );
  const marks = [
    Plot.rect(bars, {
      x1: "x1",
      x2: "x2",
      y1: "y1",
      y2: "y2",
      fill: `url(#${id}-bar)`,
      stroke: SLATE,
      strokeWidth: 0.8,
    }),
    ...dots.map((own, i) =>
      Plot.dot(own, {
        x: "x",
        y: "y",
        symbol: SYMBOLS[i % SYMBOLS.length]!,
        r: 4.6,
        fill: "white",
        stroke: INK,
        strokeWidth: 1.6,
      }),
    ),
    Plot.text(texts, { x: "x", y: "y", text: "text", textAnchor: "start", dx: 8, fill: INK, fontSize: 11.5 }),
  ];
  const { tint, hatch } = areaStyle(1);
  const legend: LegendItem[] = [
    {
      kind: "area",
      label: `${worst.pose}, ${formatFixed(worst.boomAngle_deg, 1)}°`,
      fill: `url(#${id}-bar)`,
      stroke: SLATE,
    },
    ...others.map(
      (one, i): LegendItem => ({
        kind: "symbol",
        label: `${one.pose}, ${formatFixed(one.boomAngle_deg, 1)}°`,
        symbol: SYMBOLS[i % SYMBOLS.length]!,
        fill: "#ffffff",
        stroke: INK,
      }),
    ),
  ];
  const left = worst.contributors.length - rows.length;
  const rest = left === 0 ? "" : ` ${left} smaller ones are not drawn.`;
  return composeFigure({
    id,
    title: `Tolerance contributors to the attitude (${variant})`,
    caption:
      `What each dimension at its tolerance adds to the pitch of the carried aircraft, largest first in the pose with the largest error; ` +
      `at the right the contribution, its share of the sum of squares and the running sum.${rest} ${tolerance.map(sentence).join("; ")}.`,
    description: `Bars: ${rows.map((one) => `${one.dimension} ${formatFixed(Math.abs(one.contribution_deg), 3)}°`).join(", ")}. ${tolerance.map(sentence).join("; ")}.`,
    panels: [{ svg: plotFrame(frame, marks, dom), width: WIDTH, height: frame.height }],
    legend,
    defs: pattern(`${id}-bar`, hatch, tint, "#39404a", 0.4),
  });
}
