/** Figure: ground lines of every tyre and strut state and the largest rotation about the main wheels. */
import * as Plot from "@observablehq/plot";
import type { FitResult, GroundState, RotationLimit, Silhouette } from "../../studies/fit/types.ts";
import { partName } from "../names/index.ts";
import { formatFixed } from "../numbers/index.ts";
import { composeFigure, type LegendItem } from "./compose.ts";
import { type Frame, plotFrame } from "./frame.ts";
import type { Point } from "./isolines.ts";
import { type LeaderLabel, leaderLabels } from "./leader-labels.ts";
import { densify } from "./near-labels.ts";
import { outlinePoints, partLabels } from "./part-labels.ts";
import { boundsOf, joined, outlineMarks, ownerLegend, ownerPatterns, roomier, stationFrame } from "./station-view.ts";
import { type CurveStyle, curveStyle, INK } from "./style.ts";
import { capitalise } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const MARGINS = { left: 58, right: 14, top: 6, bottom: 46 };
/** Names of parts in the drawing. */
const MOST_NAMES = 12;
const RADIANS = Math.PI / 180;

interface Drawn {
  readonly state: GroundState;
  readonly limit: RotationLimit | undefined;
  readonly style: CurveStyle;
}

/** Rotation limit in the pose that is drawn. */
function limitAt({ rotationLimits }: GroundState, boomAngle: number): RotationLimit | undefined {
  return rotationLimits.find((one) => Math.abs(one.boomAngle_deg - boomAngle) < 0.5);
}

function frameOf(parts: readonly Silhouette[], drawn: readonly Drawn[], contact: number): Frame | null {
  const own = parts.filter(({ owner, zone }) => owner !== "carrier" && !zone);
  let bounds = boundsOf(own.flatMap((part) => part.elevation.flat()));
  bounds = joined(bounds, boundsOf(drawn.map(({ state }): Point => [contact, state.groundLine_m])));
  for (const { limit } of drawn) {
    if (limit?.point != null) bounds = joined(bounds, boundsOf([[limit.point[0], limit.point[2]]]));
  }
  return bounds === null ? null : stationFrame("elevation", roomier(bounds, 0.8), WIDTH, 380, MARGINS);
}

/** Ground seen from the rotated aircraft: through the wheel contact, rising aft. */
function rotatedLine(frame: Frame, contact: number, line: number, angle: number): Point[] {
  const slope = Math.tan(angle * RADIANS);
  const end = Math.min(frame.x.to, slope > 0 ? contact + (frame.y.to - line) / slope : frame.x.to);
  return [
    [contact, line],
    [end, line + slope * (end - contact)],
  ];
}

const degrees = (value: number | null | undefined) => (value == null ? "none" : `${formatFixed(value, 1)}°`);

function sentence({ state, limit }: Drawn): string {
  const rotation =
    limit === undefined
      ? ""
      : limit.limit_deg === null
        ? ", nothing aft of the wheels"
        : `, rotation to ${degrees(limit.limit_deg)}${limit.part === null ? "" : ` (${partName(limit.part)})`}`;
  const tip = state.tipBack_deg === null ? "" : `, tip-back ${degrees(state.tipBack_deg)}`;
  return `${state.name}: clearance ${formatFixed(state.clearance_m, 2)} m (${partName(state.at.part)})${rotation}${tip}`;
}

/** Stowed elevation with the ground in every state of tyres and struts, level and rotated as far as something allows. */
export function groundFigure(id: string, result: FitResult, dom: FigureDom): Figure | null {
  const picture = result.pictures.find(({ pose }) => pose === "stowed") ?? result.pictures[0];
  const { ground } = result;
  if (picture === undefined || ground === null || ground.states.length === 0) return null;
  const contact = ground.mainContact_m[0];
  const drawn = ground.states.map((state, i): Drawn => {
    return { state, limit: limitAt(state, picture.boomAngle_deg), style: curveStyle(i) };
  });
  const frame = frameOf(picture.parts, drawn, contact);
  if (frame === null) return null;
  const level = drawn.map(({ state, style }) => ({
    style,
    points: [
      [frame.x.from, state.groundLine_m],
      [contact, state.groundLine_m],
    ] as Point[],
  }));
  const rotated = drawn.flatMap(({ state, limit, style }) =>
    limit?.limit_deg == null
      ? []
      : [{ style, state, limit, points: rotatedLine(frame, contact, state.groundLine_m, limit.limit_deg) }],
  );
  const labels: LeaderLabel[] = [
    ...level.map(({ points, style }, i): LeaderLabel => {
      const { name, groundLine_m } = drawn[i]!.state;
      const [[from, y], [to]] = points as [Point, Point];
      const at: Point = [from + (0.1 + 0.13 * i) * (to - from), y];
      return { text: `${name}: WL ${formatFixed(groundLine_m, 2)}`, at, color: style.stroke, bold: true };
    }),
    ...rotated.map(({ points, limit, style }): LeaderLabel => {
      const [[ax, ay], [bx, by]] = points as [Point, Point];
      const at: Point = [ax + 0.55 * (bx - ax), ay + 0.55 * (by - ay)];
      return { text: degrees(limit.limit_deg), at, color: style.stroke, bold: true };
    }),
    ...partLabels(picture.parts, "elevation", frame, MOST_NAMES),
  ];
  const line = ({ points, style }: { readonly points: Point[]; readonly style: CurveStyle }) =>
    Plot.line(points, { stroke: style.stroke, strokeWidth: 1.9, strokeDasharray: style.dash });
  const touching = rotated.flatMap(({ limit, style }) =>
    limit.point === null ? [] : [{ x: limit.point[0], y: limit.point[2], symbol: style.symbol, stroke: style.stroke }],
  );
  const near = picture.parts.filter(({ owner }) => owner !== "carrier");
  const obstacles = [
    ...outlinePoints(near, "elevation", frame),
    ...[...level, ...rotated].flatMap(({ points }) => densify(frame, points)),
  ];
  const wheel = drawn.map(({ state }) => ({ x: contact, y: state.groundLine_m }));
  const marks = [
    ...outlineMarks(id, picture.parts, "elevation", frame),
    ...level.map(line),
    ...rotated.map(line),
    Plot.dot(wheel, { x: "x", y: "y", r: 3, fill: INK }),
    Plot.dot(touching, { x: "x", y: "y", r: 5, symbol: "diamond", fill: "white", stroke: INK, strokeWidth: 1.8 }),
    ...leaderLabels(frame, labels, obstacles),
  ];
  const legend: LegendItem[] = [
    ...ownerLegend(id, picture.parts),
    ...drawn.map(
      ({ state, style }): LegendItem => ({
        kind: "line",
        label: `ground, ${state.name}`,
        stroke: style.stroke,
        dash: style.dash,
        width: 1.9,
      }),
    ),
    ...(touching.length > 0
      ? [{ kind: "symbol" as const, label: "touches first", symbol: "diamond" as const, fill: "#ffffff", stroke: INK }]
      : []),
  ];
  const said = capitalise(drawn.map(sentence).join("; "));
  return composeFigure({
    id,
    title: `Ground line and rotation limit, ${picture.pose} (${result.variant})`,
    caption:
      `Ahead of the main wheels the level ground; aft of them the ground as the rotated aircraft sees it, up to the angle at which the marked ` +
      `point touches. ${said}.`,
    description: `Elevation with ${drawn.length} ground lines. ${said}.`,
    panels: [{ svg: plotFrame(frame, marks, dom), width: WIDTH, height: frame.height }],
    legend,
    defs: ownerPatterns(id),
  });
}
