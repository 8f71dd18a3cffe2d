/** Figure: closure window in closed form and from simulation, the closures that were flown, peak load against closure. */
import * as Plot from "@observablehq/plot";
import type { HookonCase, HookonResult } from "../../studies/hookon/types.ts";
import { caseWords } from "../names/index.ts";
import { formatFixed } from "../numbers/index.ts";
import { composeFigure } from "./compose.ts";
import { type Frame, plotFrame } from "./frame.ts";
import { inOrder, isPlain, OUTCOME_LOOKS, symbolLegend } from "./hookon-marks.ts";
import { INK, pattern, SLATE, WARN } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const MARGINS = { left: 200, right: 16, top: 6, bottom: 46 };

const end = (value: number | null, digits = 2): string =>
  value === null ? "none" : `${formatFixed(value, digits)} m/s`;

interface Bar {
  readonly row: number;
  readonly x1: number;
  readonly x2: number;
}

function barsOf({ window }: HookonResult, most: number): Bar[] {
  return [window.closedForm, window.simulated].flatMap(({ lower_m_s, upper_m_s }, row) =>
    lower_m_s === null ? [] : [{ row, x1: lower_m_s, x2: Math.min(most, upper_m_s ?? most) }],
  );
}

function flown(each: HookonCase): { x: number; y: number; outcome: HookonCase["shown"][number]["outcome"] }[] {
  return each.shown.flatMap(({ closure_m_s, peakAxial_N, outcome }) =>
    closure_m_s === null || closure_m_s < 0 ? [] : [{ x: closure_m_s, y: (peakAxial_N ?? 0) / 1000, outcome }],
  );
}

function barPanel(id: string, result: HookonResult, cases: readonly HookonCase[], most: number, dom: FigureDom) {
  const names = ["closed form", "simulated", ...cases.map(caseWords)];
  const rows = names.length;
  const { window, criteria } = result;
  const frame: Frame = {
    ...{ width: WIDTH, height: 24 * rows + 52, margins: MARGINS },
    x: { label: "Closure at contact (m/s)", from: 0, to: most, log: false },
    y: {
      ...{ label: "", from: rows - 0.5, to: -0.5, log: false, ticks: names.map((_, i) => i) },
      format: (row) => names[row]!,
    },
  };
  // a fixed spread about the row, so that the same result gives the same picture
  const spots = cases.flatMap((each, i) =>
    flown(each)
      .filter(({ x }) => x <= most)
      .map((spot, k) => ({ ...spot, row: i + 2 + 0.5 * (((k * 0.618034) % 1) - 0.5) })),
  );
  const marks = [
    Plot.rect(barsOf(result, most), {
      ...{ x1: "x1", x2: "x2", fill: `url(#${id}-window)`, stroke: INK, strokeWidth: 1 },
      y1: ({ row }: Bar) => row - 0.32,
      y2: ({ row }: Bar) => row + 0.32,
    }),
    ...inOrder(spots.map(({ outcome }) => outcome)).map((outcome) => {
      const { symbol, fill, stroke } = OUTCOME_LOOKS[outcome];
      return Plot.dot(
        spots.filter((spot) => spot.outcome === outcome),
        { x: "x", y: "row", symbol, r: 2.2, fill, stroke, strokeWidth: 0.9 },
      );
    }),
    Plot.ruleX([window.planned_m_s], { stroke: INK, strokeWidth: 1.6 }),
    Plot.ruleX(
      [criteria.closure_m_s].filter((x) => x <= most),
      { stroke: WARN, strokeWidth: 1.6, strokeDasharray: "8 4" },
    ),
  ];
  return { svg: plotFrame(frame, marks, dom), width: WIDTH, height: frame.height };
}

function loadPanel(result: HookonResult, cases: readonly HookonCase[], most: number, dom: FigureDom) {
  const { window, criteria } = result;
  const sweep = window.sweep.filter(({ closure_m_s }) => closure_m_s <= most);
  const spots = cases.flatMap(flown).filter(({ x }) => x <= most);
  const limit = criteria.axialLoad_N / 1000;
  const top = 1.1 * Math.max(limit, ...sweep.map(({ peakAxial_N }) => Math.min(peakAxial_N / 1000, 2 * limit)));
  const frame: Frame = {
    ...{ width: WIDTH, height: 250, margins: MARGINS },
    x: { label: "Closure at contact (m/s)", from: 0, to: most, log: false },
    y: { label: "Peak load along the probe (kN)", from: 0, to: top, log: false },
  };
  const line = sweep.map(({ closure_m_s, peakAxial_N, outcome }) => ({
    x: closure_m_s,
    y: peakAxial_N / 1000,
    outcome,
  }));
  const dots = (at: typeof line, r: number): unknown[] =>
    inOrder(at.map(({ outcome }) => outcome)).map((outcome) => {
      const { symbol, fill, stroke } = OUTCOME_LOOKS[outcome];
      const own = at.filter((spot) => spot.outcome === outcome && spot.y <= top);
      return Plot.dot(own, { x: "x", y: "y", symbol, r, fill, stroke, strokeWidth: r > 3 ? 1.6 : 0.8 });
    });
  const ends = [window.simulated.lower_m_s, window.simulated.upper_m_s].filter(
    (x): x is number => x !== null && x <= most,
  );
  const marks = [
    Plot.ruleY([limit], { stroke: WARN, strokeWidth: 1.8 }),
    Plot.ruleX(ends, { stroke: SLATE, strokeWidth: 1.2, strokeDasharray: "3 3" }),
    ...dots(spots, 2),
    Plot.line(line, { x: "x", y: "y", stroke: INK, strokeWidth: 1.8, clip: true }),
    ...dots(line, 4.2),
  ];
  return { svg: plotFrame(frame, marks, dom), width: WIDTH, height: frame.height };
}

/** Closure window as bars over the closures that were flown, and the peak load against closure below. */
export function closureWindowFigure(id: string, result: HookonResult, dom: FigureDom): Figure | null {
  const { window, criteria, variant } = result;
  if (window.sweep.length === 0) return null;
  const most = Math.max(...window.sweep.map(({ closure_m_s }) => closure_m_s));
  const cases = result.cases.filter(isPlain).slice(0, 6);
  const { closedForm, simulated } = window;
  const outcomes = inOrder([...window.sweep, ...cases.flatMap(({ shown }) => shown)].map(({ outcome }) => outcome));
  const said = `closed form ${end(closedForm.lower_m_s)} to ${end(closedForm.upper_m_s)} (${closedForm.upperBecause}); simulated ${end(simulated.lower_m_s)} to ${end(simulated.upper_m_s)} (${simulated.upperBecause})`;
  return composeFigure({
    id,
    title: `Closure window, closures flown and peak load (${variant})`,
    caption: `Window on the axis in still air: ${said}. Below the lower end the latch does not trip or lock, above the upper one the stated limit is passed. Full upright line: planned closure ${end(window.planned_m_s)}; dashed: practice ${end(criteria.closure_m_s)}; large symbols: straight runs of the sweep, small ones: approaches of the cases; full level line: limit load.`,
    description: `Bars of the closure window and scatter of closures, then peak load against closure. ${said}.`,
    panels: [barPanel(id, result, cases, most, dom), loadPanel(result, cases, most, dom)],
    legend: [
      { kind: "area", label: "window", fill: `url(#${id}-window)`, stroke: INK },
      { kind: "line", label: "planned closure", stroke: INK, width: 1.6 },
      { kind: "line", label: "practice, largest", stroke: WARN, dash: "8 4", width: 1.6 },
      { kind: "line", label: "limit load", stroke: WARN, width: 1.8 },
      ...symbolLegend(outcomes),
    ],
    defs: pattern(`${id}-window`, "rising", "#d5e6dd", "#39404a", 0.35),
  });
}
