/** Figure: elevation, plan and section of the pair in one pose, with dimensions, named parts and ground lines. */
import * as Plot from "@observablehq/plot";
import type { FitResult, PairClearance, PosePicture, Silhouette, StrokePoint } from "../../studies/fit/types.ts";
import { millimetres } from "../fit-tables/index.ts";
import { pairName } from "../names/index.ts";
import { formatFixed } from "../numbers/index.ts";
import { composeFigure, type LegendItem, type Panel } from "./compose.ts";
import { type Dimension, dimensionMarks } from "./dimension-lines.ts";
import { type Frame, plotFrame } from "./frame.ts";
import type { Point } from "./isolines.ts";
import { type LeaderLabel, leaderLabels } from "./leader-labels.ts";
import { outlinePoints, partLabels } from "./part-labels.ts";
import {
  type Bounds,
  boundsOf,
  joined,
  outlineMarks,
  ownerLegend,
  ownerPatterns,
  roomier,
  stationFrame,
  type View,
} from "./station-view.ts";
import { INK, WARN } from "./style.ts";
import { capitalise } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const MARGINS = { left: 58, right: 14, top: 6, bottom: 46 };
/** Room [m] round the mechanism and the carried aircraft. */
const ROOM = 0.9;
/** Names of parts in each view. */
const MOST = { elevation: 18, plan: 11, section: 7 } as const;
/** Clearances above this [m] are not worth a mark. */
const CLOSE = 0.4;
/** Gear farther than this [m] from them is left out. */
const REACH = 1.2;

function boundsIn(parts: readonly Silhouette[], view: View): Bounds | null {
  return boundsOf(parts.flatMap((part) => part[view].flat()));
}

function touches(a: Bounds, b: Bounds): boolean {
  return a.x[0] <= b.x[1] && b.x[0] <= a.x[1] && a.y[0] <= b.y[1] && b.y[0] <= a.y[1];
}

/**
 * What a view shows, the same in every pose: mechanism and carried aircraft in all poses, the gear near them, in the
 * elevation the ground.
 */
function focusOf({ pictures, ground }: FitResult, view: View): Bounds | null {
  const all = pictures.flatMap(({ parts }) => parts).filter((part) => !part.zone);
  const core = boundsIn(
    all.filter(({ owner }) => owner === "mechanism" || owner === "carried"),
    view,
  );
  if (core === null) return null;
  const reach = roomier(core, REACH);
  let focus: Bounds | null = core;
  for (const part of all.filter(({ owner }) => owner === "gear")) {
    const own = boundsIn([part], view);
    if (own !== null && touches(own, reach)) focus = joined(focus, own);
  }
  const lines = ground === null || view === "plan" ? [] : ground.states.map((state) => state.groundLine_m);
  for (const line of lines) focus = joined(focus, { x: core.x, y: [line, line] });
  return focus === null ? null : roomier(focus, ROOM);
}

/** Static and highest ground line as marks and labels. */
function groundLines({ ground }: FitResult, frame: Frame, labels: LeaderLabel[]): unknown[] {
  if (ground === null || ground.states.length === 0) return [];
  const states = [...ground.states].sort((a, b) => a.groundLine_m - b.groundLine_m);
  const shown = states.length > 1 ? [states[0]!, states.at(-1)!] : states;
  const { from, to } = frame.x;
  return shown.map((state, i) => {
    const x = from + (0.12 + 0.1 * i) * (to - from);
    const text = `ground, ${state.name}: WL ${formatFixed(state.groundLine_m, 2)}`;
    labels.push({ text, at: [x, state.groundLine_m], color: INK });
    return Plot.ruleY([state.groundLine_m], {
      stroke: INK,
      strokeWidth: i === 0 ? 2.2 : 1.4,
      strokeDasharray: i === 0 ? "none" : "10 4",
    });
  });
}

function lowest(parts: readonly Silhouette[]): Point | null {
  let found: Point | null = null;
  for (const part of parts) {
    for (const point of part.elevation.flat()) {
      if (found === null || point[1] < found[1]) found = [point[0], point[1]];
    }
  }
  return found;
}

const metres = (value: number) => `${formatFixed(Math.abs(value), 2)} m`;
const carriedOf = (parts: readonly Silhouette[]) => parts.filter(({ owner, zone }) => owner === "carried" && !zone);

/** Height of the carried aircraft above the static ground line, where it is above it. */
function groundDimension({ ground }: FitResult, { parts }: PosePicture): Dimension[] {
  const low = lowest(carriedOf(parts));
  if (ground === null || low === null) return [];
  const line = Math.min(...ground.states.map(({ groundLine_m }) => groundLine_m));
  if (low[1] <= line) return [];
  return [{ from: low, to: [low[0], line], along: "y", at: low[0] + 0.5, text: metres(low[1] - line) }];
}

function extentDimension(parts: readonly Silhouette[], view: View, along: "x" | "y", frame: Frame): Dimension[] {
  const own = boundsIn(carriedOf(parts), view);
  if (own === null) return [];
  if (along === "x") {
    const at = own.y[0] - 0.3 * ROOM > frame.y.from ? own.y[0] - 0.35 * ROOM : own.y[0];
    return [
      {
        from: [own.x[0], own.y[0]],
        to: [own.x[1], own.y[0]],
        along,
        at,
        text: metres(own.x[1] - own.x[0]),
      },
    ];
  }
  // the span, from tip to tip, behind everything
  const aft =
    boundsIn(
      parts.filter(({ owner, zone }) => owner !== "carrier" && !zone),
      view,
    ) ?? own;
  const tips = parts.flatMap((part) => (part.owner === "carried" ? part[view].flat() : []));
  const tip = (side: number) => tips.reduce((a, b) => (side * b[1] > side * a[1] ? b : a));
  const at = Math.min(frame.x.to - 0.1 * ROOM, aft.x[1] + 0.2 * ROOM);
  const [low, high] = [tip(-1), tip(1)];
  return [{ from: [low[0], low[1]], to: [high[0], high[1]], along, at, text: metres(high[1] - low[1]) }];
}

interface Spot {
  readonly at: Point;
  readonly text: string;
}

/** Socket and centres of gravity with their stations. */
function spotsOf(point: StrokePoint | undefined): Spot[] {
  if (point === undefined) return [];
  const stations = ([fs, , wl]: readonly [number, number, number]) =>
    `FS ${formatFixed(fs, 3)}, WL ${formatFixed(wl, 3)}`;
  const socket: Spot = {
    at: [point.socket_m[0], point.socket_m[2]],
    text: `socket ${stations(point.socket_m)}`,
  };
  const first = point.cg[0];
  if (first === undefined) return [socket];
  return [socket, { at: [first.at_m[0], first.at_m[2]], text: `c.g. ${first.mass} ${stations(first.at_m)}` }];
}

export function strokePointAt({ stroke }: FitResult, boomAngle: number): StrokePoint | undefined {
  let best: StrokePoint | undefined;
  for (const point of stroke) {
    const gap = Math.abs(point.boomAngle_deg - boomAngle);
    if (best === undefined || gap < Math.abs(best.boomAngle_deg - boomAngle)) best = point;
  }
  return best !== undefined && Math.abs(best.boomAngle_deg - boomAngle) < 1 ? best : undefined;
}

/** The clearance that is nearest to its criterion among those whose least lies at this pose. */
function tightest({ clearances }: FitResult, boomAngle: number): PairClearance | undefined {
  const margin = (one: PairClearance) => one.leastAfterStack_m.worst - (one.criterion?.value_m ?? 0);
  return clearances
    .filter(
      (one) =>
        !one.zone &&
        one.alongStroke.length > 1 &&
        one.least_m < CLOSE &&
        Math.abs(one.at.boomAngle_deg - boomAngle) < 1,
    )
    .sort((a, b) => margin(a) - margin(b))[0];
}

function elevationPanel(id: string, result: FitResult, picture: PosePicture, focus: Bounds, dom: FigureDom): Panel {
  const frame = stationFrame("elevation", focus, WIDTH, 400, MARGINS);
  const point = strokePointAt(result, picture.boomAngle_deg);
  const labels: LeaderLabel[] = [];
  const spots = spotsOf(point);
  for (const { text, at } of spots) labels.push({ text, at, color: INK, bold: true });
  const close = tightest(result, picture.boomAngle_deg);
  if (close !== undefined) {
    const [fs, , wl] = close.at.pointA;
    const text = `${millimetres(close.least_m)} mm ${pairName(close.pair)}`;
    labels.push({ text, at: [fs, wl], color: WARN, bold: true });
  }
  const ground = groundLines(result, frame, labels);
  const { marks: dimensions, boxes } = dimensionMarks(frame, groundDimension(result, picture));
  labels.push(...partLabels(picture.parts, "elevation", frame, MOST.elevation));
  const near = picture.parts.filter(({ owner }) => owner !== "carrier");
  const marks = [
    ...outlineMarks(id, picture.parts, "elevation", frame),
    ...ground,
    ...dimensions,
    Plot.dot(
      spots.map(({ at }) => ({ x: at[0], y: at[1] })),
      { x: "x", y: "y", r: 4.5, fill: "white", stroke: INK, strokeWidth: 1.6 },
    ),
    ...leaderLabels(frame, labels, outlinePoints(near, "elevation", frame), boxes),
  ];
  return { svg: plotFrame(frame, marks, dom), width: WIDTH, height: frame.height, heading: "Elevation, from the left" };
}

function sidePanel(
  id: string,
  picture: PosePicture,
  view: "plan" | "section",
  frame: Frame,
  result: FitResult,
  dom: FigureDom,
): Panel {
  const { parts } = picture;
  const labels: LeaderLabel[] = [];
  const ground = view === "section" ? groundLines(result, frame, []) : [];
  const along = view === "plan" ? (["x", "y"] as const) : (["x"] as const);
  const wanted = along.flatMap((one) => extentDimension(parts, view, one, frame));
  const { marks: dimensions, boxes } = dimensionMarks(frame, wanted);
  labels.push(...partLabels(parts, view, frame, MOST[view]));
  const near = parts.filter(({ owner }) => owner !== "carrier");
  const marks = [
    ...outlineMarks(id, parts, view, frame),
    ...ground,
    ...dimensions,
    ...leaderLabels(frame, labels, outlinePoints(near, view, frame), boxes),
  ];
  const heading = view === "plan" ? "Plan, from above" : `Section at FS ${formatFixed(picture.sectionFS_m, 2)}`;
  return { svg: plotFrame(frame, marks, dom), width: frame.width, height: frame.height, heading };
}

/** Both lower panels at one scale: widths in the ratio of what they show. */
function lowerFrames(plan: Bounds, section: Bounds): readonly [Frame, Frame] {
  const room = WIDTH - 2 * (MARGINS.left + MARGINS.right);
  const [a, b] = [plan.x[1] - plan.x[0], section.x[1] - section.x[0]];
  const share = Math.min(0.66, Math.max(0.5, a / (a + b)));
  const first = Math.round(room * share) + MARGINS.left + MARGINS.right;
  const frames = [
    stationFrame("plan", plan, first, 330, MARGINS),
    stationFrame("section", section, WIDTH - first, 330, MARGINS),
  ] as const;
  return frames;
}

function legendOf(id: string, { parts }: PosePicture, { ground }: FitResult): LegendItem[] {
  const lines: LegendItem[] =
    ground === null
      ? []
      : [
          { kind: "line", label: "ground, lowest", stroke: INK, width: 2.2 },
          { kind: "line", label: "ground, highest", stroke: INK, width: 1.4, dash: "10 4" },
        ];
  return [...ownerLegend(id, parts), ...lines];
}

/**
 * Elevation, plan and section in one pose, both axes of a view at one scale; null when the study drew nothing.
 *
 * @param id      of the figure
 * @param result  gives ground lines, socket, centre of gravity and the frame that all poses share
 * @param picture the pose
 */
export function arrangementFigure(id: string, result: FitResult, picture: PosePicture, dom: FigureDom): Figure | null {
  const [elevation, plan, section] = (["elevation", "plan", "section"] as const).map((view) => focusOf(result, view));
  if (elevation == null || plan == null) return null;
  const point = strokePointAt(result, picture.boomAngle_deg);
  const state = [
    `boom ${formatFixed(picture.boomAngle_deg, 1)}° below horizontal`,
    ...(point === undefined
      ? []
      : [
          `jack ${formatFixed(point.jackLength_m, 3)} m`,
          `carried aircraft ${formatFixed(point.carriedPitch_deg, 2)}° nose up`,
        ]),
  ].join(", ");
  const [planFrame, sectionFrame] = lowerFrames(plan, section ?? plan);
  const lower = [
    sidePanel(id, picture, "plan", planFrame, result, dom),
    ...(section == null ? [] : [sidePanel(id, picture, "section", sectionFrame, result, dom)]),
  ];
  const close = tightest(result, picture.boomAngle_deg);
  const nearest =
    close === undefined
      ? ""
      : ` The least clearance over the stroke of ${pairName(close.pair)} lies here: ${millimetres(close.least_m)} mm, stack not taken off.`;
  return composeFigure({
    id,
    title: `${capitalise(picture.pose)}: elevation, plan and section (${result.variant})`,
    caption:
      `${capitalise(picture.pose)}, ${state}. Carrier stations in metres, FS aft, BL right, WL up, both axes of a view at one scale; the carrier is cut ` +
      `off at the frame, its lines run dotted over the parts in front. Parts are named where there is room, mirrored ones once.${nearest}`,
    description: `Three views of the pair, ${picture.pose}: ${state}. Parts: ${[...new Set(picture.parts.map(({ part }) => part))].join(", ")}.${nearest}`,
    panels: [elevationPanel(id, result, picture, elevation, dom), ...lower],
    columns: [1, lower.length],
    legend: legendOf(id, picture, result),
    defs: ownerPatterns(id),
  });
}
