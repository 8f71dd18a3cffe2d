/** Figures: distance from everything against time, the normal release with its scatter, and the cases that come near. */
import * as Plot from "@observablehq/plot";
import type { ReleaseCaseResult, ReleaseResult } from "../../studies/release/types.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Frame, plotFrame } from "./frame.ts";
import { curveStyle, INK, pattern, WARN } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 380;
const HEIGHT = 250;
const MARGINS = { left: 52, right: 10, top: 6, bottom: 44 };

const pointsOf = ({ course }: ReleaseCaseResult) =>
  course.time_s.flatMap((x, i) => (course.distance_m[i] === null ? [] : [{ x, y: course.distance_m[i]! }]));

function frameOf(until: number, most: number): Frame {
  return {
    ...{ width: WIDTH, height: HEIGHT, margins: MARGINS },
    x: { label: "Time from the command (s)", from: 0, to: until, log: false },
    y: { label: "Distance from everything (m)", from: 0, to: most, log: false },
  };
}

/** Distance against time in the design turbulence: band from 5 to 95 %, median, and the release without scatter. */
export function distanceFigure(id: string, result: ReleaseResult, dom: FigureDom): Figure | null {
  const { batches, cases, design, criteria, variant } = result;
  const drawn = batches.filter(({ sigma, band }) => sigma === design && band.time_s.length > 1);
  if (drawn.length === 0) return null;
  const until = Math.max(...drawn.flatMap(({ band }) => band.time_s));
  const most = 1.05 * Math.max(...drawn.flatMap(({ band }) => band.p95_m), criteria.clearance_m);
  const own = curveStyle(0);
  const panels = drawn.map(({ mass, band, samples }): Panel => {
    const rows = band.time_s.map((x, i) => ({ x, low: band.p05_m[i]!, mid: band.p50_m[i]!, high: band.p95_m[i]! }));
    const still = cases.find((one) => one.name === cases[0]!.name && one.mass === mass);
    const frame = frameOf(until, most);
    const marks = [
      Plot.areaY(rows, { x: "x", y1: "low", y2: "high", fill: `url(#${id}-band)`, stroke: INK, strokeWidth: 0.5 }),
      Plot.line(rows, { x: "x", y: "mid", stroke: INK, strokeWidth: 2 }),
      Plot.line(still === undefined ? [] : pointsOf(still), {
        ...{ x: "x", y: "y", stroke: own.stroke, strokeWidth: 1.6, strokeDasharray: "5 3", clip: true },
      }),
      Plot.ruleY([criteria.clearance_m], { stroke: WARN, strokeWidth: 1.4, strokeDasharray: "8 4" }),
    ];
    const heading = `${mass}, ${samples} releases`;
    return { svg: plotFrame(frame, marks, dom), width: WIDTH, height: HEIGHT, heading };
  });
  return composeFigure({
    id,
    title: `Distance of the free aircraft from everything in ${design} turbulence (${variant})`,
    caption: "Band: from 5 to 95 % of the releases; the curves begin where nine of ten are free.",
    description: `Distance against time with scatter, a panel for each loading: ${drawn.map(({ mass }) => mass).join(", ")}.`,
    panels,
    columns: 2,
    legend: [
      { kind: "area", label: "5 to 95 %", fill: `url(#${id}-band)`, stroke: INK },
      { kind: "line", label: "median", stroke: INK, width: 2 },
      { kind: "line", label: "without scatter", stroke: own.stroke, dash: "5 3", width: 1.6 },
      { kind: "line", label: "criterion", stroke: WARN, dash: "8 4", width: 1.4 },
    ],
    defs: pattern(`${id}-band`, "rising", "#d3e0f2"),
  });
}

/** Cases shown beside the normal one: those that do not end clean, the nearest first. */
const MOST_CURVES = 5;

/** Distance against time of the normal release and of the failures that come nearest, a panel for each loading. */
export function caseFigure(id: string, result: ReleaseResult, dom: FigureDom): Figure | null {
  const { cases, criteria, variant, point } = result;
  const panels = point.masses.flatMap((mass): Panel[] => {
    const own = cases.filter((one) => one.mass === mass && pointsOf(one).length > 1);
    const normal = own.slice(0, 1);
    const failed = own
      .filter(({ outcome, name }) => outcome !== "clean" && name !== normal[0]?.name)
      .sort((a, b) => (a.clearanceAt_s ?? 99) - (b.clearanceAt_s ?? 99));
    const shown = [...normal, ...failed.slice(0, MOST_CURVES - 1)];
    if (shown.length === 0) return [];
    const until = Math.max(...shown.flatMap(({ course }) => course.time_s));
    const frame = { ...frameOf(until, 12), height: HEIGHT + 18 * shown.length, margins: MARGINS };
    const plotted = { ...frame, height: HEIGHT };
    const marks = [
      ...shown.map((one, i) => {
        const { stroke, dash } = curveStyle(i);
        const all = pointsOf(one);
        // what happens after a touch is no separation
        const touch = all.findIndex(({ y }) => y === 0);
        const points = touch < 0 ? all : all.slice(0, touch + 1);
        return Plot.line(points, {
          ...{ x: "x", y: "y", stroke, strokeWidth: 1.8, strokeDasharray: dash, clip: true },
        });
      }),
      Plot.dot(
        shown.flatMap((one, i) => (one.outcome === "touches" ? [{ x: one.clearanceAt_s!, y: 0, i }] : [])),
        {
          ...{ x: "x", y: "y", symbol: "times", r: 5, strokeWidth: 2 },
          stroke: ({ i }: { i: number }) => curveStyle(i).stroke,
        },
      ),
      Plot.ruleY([criteria.clearance_m], { stroke: WARN, strokeWidth: 1.4, strokeDasharray: "8 4" }),
    ];
    const key = shown.map((one, i) => {
      const { stroke, dash } = curveStyle(i);
      const y = HEIGHT + 12 + 18 * i;
      const words = `${one.name}: ${one.outcome}`;
      return `<line x1="${MARGINS.left}" x2="${MARGINS.left + 34}" y1="${y - 4}" y2="${y - 4}" stroke="${stroke}" stroke-width="1.8"${dash === "" ? "" : ` stroke-dasharray="${dash}"`}/><text x="${MARGINS.left + 42}" y="${y}" font-size="11" text-anchor="start" fill="${INK}">${words}</text>`;
    });
    const svg = `<g>${plotFrame(plotted, marks, dom)}${key.join("")}</g>`;
    return [{ svg, width: WIDTH, height: frame.height, heading: mass }];
  });
  if (panels.length === 0) return null;
  return composeFigure({
    id,
    title: `The normal release and failures that do not end clean (${variant})`,
    caption:
      "Least distance of the free aircraft from everything, up to 12 m; × touches, where the curve ends. What never comes free has no curve.",
    description: "Distance against time of the normal release and of failures, a panel for each loading.",
    panels,
    columns: 2,
    legend: [{ kind: "line", label: "criterion", stroke: WARN, dash: "8 4", width: 1.4 }],
  });
}
