/** Figure: which motions carry the kinetic energy of each mode. */
import * as Plot from "@observablehq/plot";
import type { HoldPoint, Mode } from "../../studies/hold/types.ts";
import { formatFixed, formatNumber } from "../numbers/index.ts";
import { composeFigure } from "./compose.ts";
import { type Frame, plotFrame } from "./frame.ts";
import { areaStyle, INK, pattern, SLATE } from "./style.ts";
import { fitText, textWidth } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const ROW = 27;
const MARGINS = { left: 322, right: 18, top: 4, bottom: 44 };
/** Shares below it are lumped together. */
const SMALL = 0.04;
const OTHER = "others, each below 4 %";

interface Segment {
  readonly row: number;
  readonly motion: string;
  readonly from: number;
  readonly to: number;
}

/** Shares of one mode, largest first, small ones lumped at the end. */
function segmentsOf(mode: Mode, row: number): Segment[] {
  const shares = Object.entries(mode.energy).sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1));
  const segments: Segment[] = [];
  let from = 0;
  for (const [motion, share] of shares) {
    if (share < SMALL) break;
    segments.push({ row, motion, from, to: Math.min(1, from + share) });
    from += share;
  }
  if (from < 1 - 1e-6) segments.push({ row, motion: OTHER, from, to: 1 });
  return segments;
}

function rowLabel(mode: Mode): string {
  const rate =
    mode.imag_rad_s > 0
      ? `${formatNumber(mode.frequency_Hz)} Hz, ζ ${formatFixed(mode.dampingRatio, 3)}`
      : `real ${formatNumber(mode.real_1_s, { digits: 2 })} 1/s`;
  return `${fitText(mode.name, 156)}, ${rate}${mode.real_1_s > 0 ? " (grows)" : ""}`;
}

/** Bars of the kinetic energy shares of all modes at one point. */
export function modeEnergyFigure(id: string, variant: string, point: HoldPoint, dom: FigureDom): Figure | null {
  const { modes } = point;
  if (modes.length === 0) return null;
  const segments = modes.flatMap(segmentsOf);
  const motions = [...new Set(segments.map((segment) => segment.motion))].filter((motion) => motion !== OTHER);
  const fillOf = (motion: string) => (motion === OTHER ? "#ffffff" : `url(#${id}-m${motions.indexOf(motion)})`);
  const frame: Frame = {
    width: WIDTH,
    height: ROW * modes.length + MARGINS.top + MARGINS.bottom,
    margins: MARGINS,
    x: { label: "Share of the mode's kinetic energy (%)", from: 0, to: 100, log: false },
    y: {
      label: "",
      from: modes.length - 0.5,
      to: -0.5,
      log: false,
      ticks: modes.map((_, i) => i),
      format: (i) => (modes[i] === undefined ? "" : rowLabel(modes[i])),
    },
  };
  const scale = (WIDTH - MARGINS.left - MARGINS.right) / 100;
  const bars = segments.map((one) => ({
    ...one,
    x1: 100 * one.from,
    x2: 100 * one.to,
    y1: one.row - 0.38,
    y2: one.row + 0.38,
  }));
  const labels = bars.flatMap((bar) => {
    const percent = `${Math.round(bar.x2 - bar.x1)} %`;
    const room = (bar.x2 - bar.x1) * scale - 8;
    const full = bar.motion === OTHER ? percent : `${bar.motion} ${percent}`;
    const text = textWidth(full, 11) <= room ? full : textWidth(percent, 11) <= room ? percent : "";
    return text === "" ? [] : [{ x: (bar.x1 + bar.x2) / 2, y: bar.row, text }];
  });
  const marks = [
    ...motions.concat(OTHER).map((motion) =>
      Plot.rect(
        bars.filter((bar) => bar.motion === motion),
        { x1: "x1", x2: "x2", y1: "y1", y2: "y2", fill: fillOf(motion), stroke: SLATE, strokeWidth: 0.8 },
      ),
    ),
    Plot.text(labels, { x: "x", y: "y", text: "text", fontSize: 11, fill: INK, stroke: "white", strokeWidth: 3.5 }),
  ];
  const where = `${variant}, condition ${point.condition}, mass ${point.mass}`;
  return composeFigure({
    id,
    title: `Kinetic energy of the modes by motion (${where})`,
    caption: `Which motions carry each mode's kinetic energy; ${where}. A mode whose largest share is below 60 % is named after two motions.`,
    description: modes
      .map(
        (mode) =>
          `${rowLabel(mode)}: ${Object.entries(mode.energy)
            .map(([m, s]) => `${m} ${Math.round(s * 100)} %`)
            .join(", ")}`,
      )
      .join("; "),
    panels: [{ svg: plotFrame(frame, marks, dom), width: WIDTH, height: frame.height }],
    legend: [
      ...motions.map((motion) => ({
        kind: "area" as const,
        label: fitText(motion, 140),
        fill: fillOf(motion),
        stroke: SLATE,
      })),
      ...(segments.some((one) => one.motion === OTHER)
        ? [{ kind: "area" as const, label: OTHER, fill: "#ffffff", stroke: SLATE }]
        : []),
    ],
    defs: motions
      .map((_, i) => {
        const { tint, hatch } = areaStyle(i);
        return pattern(`${id}-m${i}`, hatch, tint, "#39404a", 0.4);
      })
      .join(""),
  });
}
