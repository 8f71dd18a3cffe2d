/** Figure: angle against time after an upset, controls fixed, with the limit. */
import * as Plot from "@observablehq/plot";
import type { ModePlane, PilotTime } from "../../studies/hold/types.ts";
import { formatNumber, formatShort } from "../numbers/index.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Frame, plotFrame } from "./frame.ts";
import { nearLabels } from "./near-labels.ts";
import { curveStyle, INK, pattern, WARN } from "./style.ts";
import { capitalise, fitText } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const HEIGHT = 250;
const MARGINS = { left: 58, right: 14, top: 6, bottom: 46 };
/** Points drawn of one history; more cannot be seen. */
const MOST_POINTS = 500;

interface Sample {
  readonly t: number;
  readonly angle: number;
}

function samplesOf({ history }: PilotTime, until: number): Sample[] {
  const inside = history.time_s.map((t, i) => ({ t, angle: history.angle_deg[i]! })).filter(({ t }) => t <= until);
  const stride = Math.max(1, Math.ceil(inside.length / MOST_POINTS));
  return inside.filter((_, i) => i % stride === 0 || i === inside.length - 1);
}

/** Shown time: a little more than the slowest that reaches its limit needs, else all of it. */
function shownTime(times: readonly PilotTime[]): number {
  const whole = Math.max(...times.map((one) => one.history.time_s.at(-1) ?? 0));
  const reached = times.flatMap((one) => (one.outcome === "limit reached" && one.time_s !== null ? [one.time_s] : []));
  return reached.length === 0 ? whole : 1.08 * Math.max(...reached);
}

function limitMarks(id: string, frame: Frame, limit: number): unknown[] {
  const band = [
    { x1: frame.x.from, x2: frame.x.to, y1: limit, y2: frame.y.to },
    { x1: frame.x.from, x2: frame.x.to, y1: frame.y.from, y2: -limit },
  ];
  return [
    Plot.rect(band, { x1: "x1", x2: "x2", y1: "y1", y2: "y2", fill: `url(#${id}-beyond)` }),
    Plot.ruleY([limit, -limit], { stroke: WARN, strokeWidth: 1.6 }),
    Plot.ruleY([0], { stroke: INK, strokeWidth: 0.6 }),
  ];
}

/** Points of the study in the order they come; each keeps its style in every panel. */
function pointsOf(times: readonly PilotTime[]): string[] {
  return [...new Set(times.map((time) => time.pointId))];
}

function panel(
  id: string,
  plane: ModePlane,
  all: readonly PilotTime[],
  points: readonly string[],
  width: number,
  dom: FigureDom,
): Panel {
  const times = all.filter((time) => time.plane === plane);
  const until = shownTime(times);
  const limit = Math.max(...times.map((one) => one.limit_deg));
  const angle = plane === "longitudinal" ? "Pitch" : "Roll";
  const frame: Frame = {
    width,
    height: HEIGHT,
    margins: MARGINS,
    x: { label: "Time after the upset (s)", from: 0, to: until > 0 ? until : 1, log: false },
    y: { label: `${angle} from trim (deg)`, from: -1.3 * limit, to: 1.3 * limit, log: false },
  };
  const drawn = times.map((time) => ({
    time,
    style: curveStyle(points.indexOf(time.pointId)),
    samples: samplesOf(time, until),
  }));
  const hit = drawn.filter(({ time, samples }) => time.outcome === "limit reached" && samples.length > 0);
  const marks = [
    ...limitMarks(id, frame, limit),
    ...drawn.map(({ style, samples }) =>
      Plot.line(samples, {
        x: "t",
        y: "angle",
        stroke: style.stroke,
        strokeWidth: 1.7,
        strokeDasharray: style.dash,
        clip: true,
      }),
    ),
    ...hit.map(({ style, samples }) =>
      Plot.dot(samples.slice(-1), {
        x: "t",
        y: "angle",
        symbol: style.symbol,
        r: 5,
        fill: style.stroke,
        stroke: "white",
        strokeWidth: 1.2,
      }),
    ),
    ...nearLabels(
      frame,
      hit.map(({ time, style, samples }) => {
        const last = samples.at(-1)!;
        return { text: `${formatNumber(time.time_s ?? last.t)} s`, x: last.t, y: last.angle, color: style.stroke };
      }),
      [],
    ),
  ];
  return { svg: plotFrame(frame, marks, dom), width, height: HEIGHT, heading: capitalise(plane) };
}

function sentence(time: PilotTime): string {
  const head = `${time.pointId} ${time.plane}`;
  if (time.outcome === "stays inside") return `${head}: stays inside`;
  if (time.outcome === "diverged elsewhere") return `${head}: another motion diverged first`;
  const linear = time.linearEstimate_s === null ? "" : ` (linear estimate ${formatNumber(time.linearEstimate_s)} s)`;
  return `${head}: ${time.time_s === null ? "limit reached" : `limit after ${formatNumber(time.time_s)} s`}${linear}`;
}

/** Angle after the stated upset, controls fixed, with the stated limit; one panel for each plane. */
export function upsetFigure(id: string, variant: string, times: readonly PilotTime[], dom: FigureDom): Figure | null {
  if (times.length === 0) return null;
  const planes = (["longitudinal", "lateral"] as const).filter((plane) => times.some((time) => time.plane === plane));
  const points = pointsOf(times);
  const upsets = planes.map((plane) => {
    const first = times.find((time) => time.plane === plane)!;
    return `${formatShort(first.upset_deg)}° in the ${plane} plane, limit ${formatShort(first.limit_deg)}°`;
  });
  return composeFigure({
    id,
    title: `Motion after an upset, controls fixed (${variant})`,
    caption:
      `Nonlinear simulation, ${variant}, controls fixed, after an upset of ${upsets.join("; ")}. The time to the limit is what a pilot ` +
      `has to react or release. Outcome: ${times.map(sentence).join("; ")}.`,
    description: `Angle against time for ${times.length} cases, first ${points[0]}. ${times.map(sentence).join("; ")}.`,
    panels: planes.map((plane) => panel(id, plane, times, points, 760 / planes.length, dom)),
    columns: planes.length,
    legend: [
      ...points.map((point, i) => {
        const { stroke, dash, symbol } = curveStyle(i);
        const label = `${fitText(point, 150)} (symbol: limit reached)`;
        return { kind: "line" as const, label, stroke, dash, symbol, fill: stroke, width: 1.7 };
      }),
      { kind: "area", label: "beyond the limit", fill: `url(#${id}-beyond)`, stroke: WARN },
    ],
    defs: pattern(`${id}-beyond`, "rising", "#f1ecec", WARN, 0.5),
  });
}
