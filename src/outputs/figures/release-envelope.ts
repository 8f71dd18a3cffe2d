/** Figures: outcome of the normal release over airspeed and load factor, and where jettisoned things come down. */
import * as Plot from "@observablehq/plot";
import type { JettisonFall, ReleaseEnvelope, ReleaseOutcome, ReleaseResult } from "../../studies/release/types.ts";
import { OUTCOME_LETTERS } from "../names/index.ts";
import { formatFixed } from "../numbers/index.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Frame, padded, plotFrame } from "./frame.ts";
import { areaStyle, curveStyle, INK, pattern, SLATE, WARN } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 380;
const HEIGHT = 240;
const MARGINS = { left: 52, right: 10, top: 6, bottom: 44 };
const OUTCOMES = Object.keys(OUTCOME_LETTERS) as ReleaseOutcome[];

const fillOf = (id: string, outcome: ReleaseOutcome): string =>
  outcome === "clean" ? "#ffffff" : `url(#${id}-${OUTCOMES.indexOf(outcome)})`;

function edges(values: readonly number[]): number[] {
  if (values.length === 1) return [values[0]! - 0.5, values[0]! + 0.5];
  const inner = values.slice(1).map((value, i) => 0.5 * (value + values[i]!));
  return [2 * values[0]! - inner[0]!, ...inner, 2 * values.at(-1)! - inner.at(-1)!];
}

function envelopePanel(id: string, map: ReleaseEnvelope, planned: number, dom: FigureDom): Panel {
  const [x, y] = [edges(map.airspeed_m_s_EAS), edges(map.loadFactor_1)];
  const cells = map.outcome.flatMap((row, i) =>
    row.map((outcome, j) => {
      const least = map.clearance_m[i]![j]!;
      const said = outcome === "clean" && least !== null ? formatFixed(least, 2) : OUTCOME_LETTERS[outcome];
      return { outcome, said, x1: x[j]!, x2: x[j + 1]!, y1: y[i]!, y2: y[i + 1]! };
    }),
  );
  const frame: Frame = {
    ...{ width: WIDTH, height: HEIGHT, margins: MARGINS },
    x: { label: "Airspeed (m/s EAS)", from: x[0]!, to: x.at(-1)!, log: false },
    y: { label: "Load factor", from: y[0]!, to: y.at(-1)!, log: false, ticks: [...map.loadFactor_1] },
  };
  const marks = [
    ...OUTCOMES.map((outcome) =>
      Plot.rect(
        cells.filter((cell) => cell.outcome === outcome),
        { x1: "x1", x2: "x2", y1: "y1", y2: "y2", fill: fillOf(id, outcome), stroke: INK, strokeWidth: 0.5 },
      ),
    ),
    Plot.text(cells, {
      x: ({ x1, x2 }: { x1: number; x2: number }) => 0.5 * (x1 + x2),
      y: ({ y1, y2 }: { y1: number; y2: number }) => 0.5 * (y1 + y2),
      ...{ text: "said", fill: INK, fontSize: 11, stroke: "white", strokeWidth: 3 },
    }),
    Plot.ruleX([planned], { stroke: WARN, strokeWidth: 1.6, strokeDasharray: "8 4" }),
  ];
  return { svg: plotFrame(frame, marks, dom), width: WIDTH, height: HEIGHT, heading: map.mass };
}

/** Outcome of the normal release over airspeed and load factor, by pattern and sign. */
export function releaseEnvelopeFigure(id: string, result: ReleaseResult, dom: FigureDom): Figure | null {
  const { envelopes, variant, limiting, point } = result;
  if (envelopes.length === 0) return null;
  const found = OUTCOMES.filter((outcome) => envelopes.some((map) => map.outcome.flat().includes(outcome)));
  return composeFigure({
    id,
    title: `Where the normal release is clean (${variant})`,
    caption: `First pose, balance of a steady pull-up or push-over. White with a number: clean, least distance in metres. Limiting: ${limiting ?? "none"}.`,
    description: `Outcome over airspeed and load factor, a panel for each loading. Limiting: ${limiting ?? "none"}.`,
    panels: envelopes.map((map) => envelopePanel(id, map, point.airspeed_m_s_EAS, dom)),
    columns: 2,
    legend: [
      ...found.map((outcome) => ({
        kind: "area" as const,
        label: outcome === "clean" ? "clean" : `${OUTCOME_LETTERS[outcome]} ${outcome}`,
        fill: fillOf(id, outcome),
        stroke: INK,
      })),
      { kind: "line", label: "airspeed of the condition", stroke: WARN, dash: "8 4", width: 1.6 },
    ],
    defs: OUTCOMES.map((_, i) => {
      const { tint, hatch } = areaStyle(i);
      return pattern(`${id}-${i}`, hatch, tint);
    }).join(""),
  });
}

const DIRECTIONS = 48;

function footprintPanel(falls: readonly JettisonFall[], height: number, width: number, dom: FigureDom): Panel {
  const rings = falls.map(({ footprint: { along_m, right_m, halfAlong_m, halfRight_m } }) =>
    Array.from({ length: DIRECTIONS + 1 }, (_, i) => {
      const turn = (2 * Math.PI * i) / DIRECTIONS;
      return { x: along_m + halfAlong_m * Math.cos(turn), y: -right_m + halfRight_m * Math.sin(turn) };
    }),
  );
  const xs = rings.flat().map(({ x }) => x);
  const ys = rings.flat().map(({ y }) => y);
  const [from, to] = padded([0, ...xs], 0.06);
  const [low, high] = padded(ys, 0.1);
  const frame: Frame = {
    ...{ width, height: 210, margins: MARGINS },
    x: { label: "Ahead of the point of release (m)", from, to, log: false },
    y: { label: "Left of the track (m)", from: low, to: high, log: false },
  };
  const marks = [
    Plot.ruleY([0], { stroke: SLATE, strokeWidth: 0.7 }),
    ...rings.map((ring, i) => {
      const { stroke, dash } = curveStyle(i);
      return Plot.line(ring, { x: "x", y: "y", stroke, strokeWidth: 1.6, strokeDasharray: dash });
    }),
    ...falls.flatMap(({ still, inWind }, i) => {
      const { stroke, symbol } = curveStyle(i);
      const at = (place: typeof still) => [{ x: place.along_m, y: -place.right_m }];
      return [
        Plot.dot(at(still), { x: "x", y: "y", symbol, r: 4.5, fill: stroke, stroke }),
        Plot.dot(at(inWind), { x: "x", y: "y", symbol, r: 4.5, fill: "white", stroke, strokeWidth: 1.6 }),
      ];
    }),
    Plot.dot([{ x: 0, y: 0 }], { x: "x", y: "y", symbol: "times", r: 5, stroke: INK, strokeWidth: 2 }),
  ];
  return { svg: plotFrame(frame, marks, dom), width, height: 210, heading: `From ${formatFixed(height, 0)} m` };
}

/** Where jettisoned things come down, in still air, in the wind of the pair, and in that wind from any direction. */
export function footprintFigure(id: string, result: ReleaseResult, dom: FigureDom): Figure | null {
  const { jettison, variant } = result;
  if (jettison.length === 0) return null;
  const heights = [...new Set(jettison.map(({ height_m }) => height_m))];
  const things = [...new Set(jettison.map(({ thing }) => thing))];
  const width = heights.length === 1 ? 2 * WIDTH : WIDTH;
  return composeFigure({
    id,
    title: `Where it comes down (${variant})`,
    caption:
      "× the point of release, flight to the right. Filled: still air; hollow: the wind of the pair; ring: a wind of the same strength from any direction. Scales differ along and across.",
    description: `Footprints of ${things.join(", ")}.`,
    panels: heights.map((height) =>
      footprintPanel(
        jettison.filter(({ height_m }) => height_m === height),
        height,
        width,
        dom,
      ),
    ),
    columns: 2,
    legend: things.map((label, i) => ({ kind: "line", label, ...curveStyle(i), fill: "#ffffff", width: 1.6 })),
  });
}
