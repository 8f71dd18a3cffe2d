/** Figure: the carrier's mass against its c.g. over the mission, inside the limits, by course. */
import * as Plot from "@observablehq/plot";
import type { BalanceResult } from "../../studies/balance/types.ts";
import { missionTime } from "../names/index.ts";
import { formatFixed } from "../numbers/index.ts";
import { courseLegend, courseMarks, drawnBranches, LIMIT_WIDTH, nearestCourse, ownSpots } from "./balance-marks.ts";
import { composeFigure } from "./compose.ts";
import { type Frame, padded, plotFrame } from "./frame.ts";
import type { Point } from "./isolines.ts";
import { type LeaderLabel, leaderLabels } from "./leader-labels.ts";
import { densify } from "./near-labels.ts";
import { INK, pattern, SLATE, WARN } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const HEIGHT = 470;
const MARGINS = { left: 58, right: 16, top: 8, bottom: 46 };
const TONNE = 1e-3;

function frameOf({ envelope, branches, largest }: BalanceResult): Frame {
  const shares = branches.flatMap(({ track }) => track.cg_percentMac);
  const [fromX, toX] = padded([...envelope.forward_percentMac, ...envelope.aft_percentMac, ...shares], 0.07);
  const masses = [...envelope.mass_kg, ...branches.flatMap(({ track }) => track.mass_kg), largest.takeOff_kg];
  const [fromY, toY] = padded(
    masses.map((mass) => mass * TONNE),
    0.06,
  );
  return {
    ...{ width: WIDTH, height: HEIGHT, margins: MARGINS },
    x: { label: "Centre of gravity (% MAC)", from: fromX, to: toX, log: false },
    y: { label: "Mass carried by the carrier's wing (t)", from: fromY, to: toY, log: false },
  };
}

/** Limits as lines, and the ground beyond them hatched. */
function limitMarks(id: string, { envelope }: BalanceResult, frame: Frame): unknown[] {
  const line = (column: readonly number[]): Point[] => column.map((x, i): Point => [x, envelope.mass_kg[i]! * TONNE]);
  const [forward, aft] = [line(envelope.forward_percentMac), line(envelope.aft_percentMac)];
  const beyond = (points: readonly Point[], edge: number): Point[] => [
    [edge, points[0]![1]],
    ...points,
    [edge, points[points.length - 1]![1]],
  ];
  return [
    ...[beyond(forward, frame.x.from), beyond(aft, frame.x.to)].map((points) =>
      Plot.line(points, { fill: `url(#${id}-outside)`, stroke: "none", curve: "linear-closed", clip: true }),
    ),
    ...[forward, aft].map((points) => Plot.line(points, { stroke: WARN, strokeWidth: LIMIT_WIDTH, clip: true })),
  ];
}

/** Largest masses as dashed levels, named inside the aft limit. */
function massMarks({ largest, envelope }: BalanceResult, frame: Frame): unknown[] {
  const inside = Math.min(...envelope.aft_percentMac);
  const levels = [
    { y: largest.takeOff_kg * TONNE, text: `largest take-off ${formatFixed(largest.takeOff_kg * TONNE, 1)} t` },
    { y: largest.landing_kg * TONNE, text: `largest landing ${formatFixed(largest.landing_kg * TONNE, 1)} t` },
    { y: largest.zeroFuel_kg * TONNE, text: `largest without fuel ${formatFixed(largest.zeroFuel_kg * TONNE, 1)} t` },
  ].filter(({ y }) => y <= frame.y.to && y >= frame.y.from);
  return [
    Plot.ruleY(levels, { y: "y", stroke: SLATE, strokeWidth: 1, strokeDasharray: "7 4" }),
    Plot.text(levels, {
      ...{ x: () => inside, y: "y", text: "text", textAnchor: "end", dx: -6, dy: -7 },
      ...{ fill: INK, stroke: "white", strokeWidth: 4 },
    }),
  ];
}

/** Names the moments of the plan and the worst moment of all courses. */
function labelsOf(result: BalanceResult): LeaderLabel[] {
  const at = ({ cg_percentMac, mass_kg }: { readonly cg_percentMac: number; readonly mass_kg: number }): Point => [
    cg_percentMac,
    mass_kg * TONNE,
  ];
  const worst = nearestCourse(result).worst;
  const planned = result.branches[0]!;
  const moments = result.changes
    .filter(({ kind }) => kind !== "jettison" && kind !== "weight taken")
    .map(
      ({ kind, before }): LeaderLabel => ({
        text: `${kind}, ${missionTime(before.time_s)}`,
        at: at(before),
        color: INK,
      }),
    );
  return [
    {
      text: `least margin ${formatFixed(worst.margin_percentMac, 2)} %, ${missionTime(worst.time_s)}`,
      ...{ at: at(worst), color: WARN, bold: true },
    },
    { text: "start", at: at(result.start), color: INK },
    { text: "end, as planned", at: at(planned.end), color: INK },
    ...moments,
  ];
}

/**
 * Mass against % MAC of every course of the mission, with the c.g. limits, the largest masses and the moments of change.
 *
 * Level stretches are shifts at one mass: the boom moves, or the aircraft comes or goes.
 */
export function cgEnvelopeFigure(id: string, result: BalanceResult, dom: FigureDom): Figure {
  const frame = frameOf(result);
  const drawn = drawnBranches(result);
  const spots = drawn.map(({ branch }) =>
    ownSpots(branch, (i) => ({ x: branch.track.cg_percentMac[i]!, y: branch.track.mass_kg[i]! * TONNE })),
  );
  const obstacles = spots.flatMap((line) =>
    densify(
      frame,
      line.map(({ x, y }): Point => [x, y]),
    ),
  );
  const marks = [
    ...limitMarks(id, result, frame),
    ...massMarks(result, frame),
    ...drawn.flatMap((one, i) => courseMarks(one, spots[i]!, spots[i]!, 2 * i + 1)),
    ...leaderLabels(frame, labelsOf(result), obstacles),
  ];
  const nearest = nearestCourse(result);
  const { worst } = nearest;
  const said =
    `Least margin of all courses: ${formatFixed(worst.margin_percentMac, 2)} % of the chord to the ${worst.side} limit, ` +
    `${nearest.title}, in ${worst.leg}`;
  return composeFigure({
    id,
    title: `Centre of gravity in its limits (${result.variant})`,
    caption:
      `Each course from where it leaves the plan; fuel burns downwards, a slanting jump is the aircraft that comes or goes, a level stretch the boom that ` +
      `moves. Hatched: outside the limits. ${said}.`,
    description: `Mass against centre of gravity in per cent of the mean aerodynamic chord for ${drawn.length} courses. ${said}.`,
    panels: [{ svg: plotFrame(frame, marks, dom), width: WIDTH, height: HEIGHT }],
    legend: courseLegend(drawn),
    defs: pattern(`${id}-outside`, "rising", "#f1ecec", WARN, 0.5),
  });
}
