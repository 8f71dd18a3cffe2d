/** Figure: the carrier's c.g. against mission time, by course. */
import * as Plot from "@observablehq/plot";
import type { BalanceResult } from "../../studies/balance/types.ts";
import { missionTime } from "../names/index.ts";
import { formatFixed } from "../numbers/index.ts";
import {
  courseLegend,
  courseMarks,
  type DrawnBranch,
  drawnBranches,
  LIMIT_WIDTH,
  nearestCourse,
  ownSpots,
  type TrackSpot,
} from "./balance-marks.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Frame, fromPixelY, padded, plotFrame, toPixelX } from "./frame.ts";
import { INK, SLATE, WARN } from "./style.ts";
import { capitalise, fitText, textWidth } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const HEIGHT = 350;
/** Room for the names of the legs above the frame. */
const MARGINS = { left: 58, right: 16, top: 42, bottom: 46 };
const HOUR = 3600;
/** A name of a leg is cut to its room, and left out where less than this is left of it [px]. */
const SHORTEST = 44;
/** Shown before and after a stretch of interest [s]. */
const AROUND = 240;
const MINUTE = 60;

/** Limits at a mass by straight lines; at the nearest row beyond the rows. */
function limitAt({ mass_kg }: BalanceResult["envelope"], column: readonly number[], mass: number): number {
  const last = mass_kg.length - 1;
  if (mass <= mass_kg[0]!) return column[0]!;
  for (let i = 1; i <= last; i++) {
    if (mass > mass_kg[i]!) continue;
    const t = (mass - mass_kg[i - 1]!) / (mass_kg[i]! - mass_kg[i - 1]!);
    return column[i - 1]! + t * (column[i]! - column[i - 1]!);
  }
  return column[last]!;
}

/** Boundaries of legs as thin lines, and the names of the legs that are long enough, in two rows in turn. */
function legMarks({ legs }: BalanceResult, frame: Frame): unknown[] {
  const ends = legs.slice(1).map(({ from_s }) => from_s / HOUR);
  const names = legs.flatMap(({ name, from_s, to_s }) => {
    const room = toPixelX(frame, to_s / HOUR) - toPixelX(frame, from_s / HOUR) - 6;
    const text = textWidth(name) <= room ? name : room >= SHORTEST ? fitText(name, room) : "";
    return text === "" ? [] : [{ x: (0.5 * (from_s + to_s)) / HOUR, text }];
  });
  return [
    Plot.ruleX(ends, { stroke: SLATE, strokeWidth: 0.6, strokeDasharray: "2 3" }),
    Plot.text(names, { x: "x", y: () => fromPixelY(frame, MARGINS.top - 12), text: "text", fill: INK }),
  ];
}

interface Curves {
  readonly limits: readonly (readonly TrackSpot[])[];
  readonly courses: readonly (readonly TrackSpot[])[];
}

function curvesOf({ envelope, branches }: BalanceResult): Curves {
  const planned = branches[0]!.track;
  const columns = [envelope.forward_percentMac, envelope.aft_percentMac];
  return {
    limits: columns.map((column) =>
      planned.time_s.map((time, i) => ({ x: time / HOUR, y: limitAt(envelope, column, planned.mass_kg[i]!) })),
    ),
    courses: branches.map((branch) =>
      ownSpots(branch, (i) => ({ x: branch.track.time_s[i]! / HOUR, y: branch.track.cg_percentMac[i]! })),
    ),
  };
}

/** Stretches with the boom on its way or the aircraft on the extended boom, with a few minutes on either side [s]. */
function closeUps({ legs }: BalanceResult): { readonly from: number; readonly to: number }[] {
  const found: { from: number; to: number }[] = [];
  for (const { aircraft, from_s, to_s } of legs) {
    if (aircraft === "stowed" || aircraft === "away") continue;
    const last = found[found.length - 1];
    if (last !== undefined && last.to === from_s) last.to = to_s;
    else found.push({ from: from_s, to: to_s });
  }
  const end = legs[legs.length - 1]!.to_s;
  return found
    .slice(0, 2)
    .map(({ from, to }) => ({ from: Math.max(0, from - AROUND), to: Math.min(end, to + AROUND) }));
}

/** Curves between two times; what lies beyond is cut at the frame. */
function closeUp(
  { from, to }: { readonly from: number; readonly to: number },
  drawn: readonly DrawnBranch[],
  curves: Curves,
  dom: FigureDom,
): Panel {
  const near = curves.courses.map((line) => line.filter(({ x }) => x >= from / HOUR && x <= to / HOUR));
  const [low, high] = padded(
    near.flat().map(({ y }) => y),
    0.08,
  );
  const minutes = (x: number): number => (x * HOUR - from) / MINUTE;
  const frame: Frame = {
    ...{ width: WIDTH / 2, height: 262, margins: { left: 58, right: 14, top: 6, bottom: 46 } },
    x: { label: `Time from ${missionTime(from)} (min)`, from: 0, to: (to - from) / MINUTE, log: false },
    y: { label: "c.g. (% MAC)", from: low, to: high, log: false },
  };
  const inMinutes = (line: readonly TrackSpot[]): TrackSpot[] => line.map(({ x, y }) => ({ x: minutes(x), y }));
  const marks = [
    ...curves.limits.map((line) =>
      Plot.line(inMinutes(line), { x: "x", y: "y", stroke: WARN, strokeWidth: LIMIT_WIDTH, clip: true }),
    ),
    ...drawn.flatMap((one, i) => courseMarks(one, inMinutes(curves.courses[i]!), inMinutes(near[i]!), 2 * i + 1)),
  ];
  return {
    svg: plotFrame(frame, marks, dom),
    width: WIDTH / 2,
    height: 262,
    heading: `Around ${missionTime(0.5 * (from + to))}`,
  };
}

/** % MAC against time of every course from where it leaves the plan, with close-ups; limits at the mass of the plan. */
export function cgTimeFigure(id: string, result: BalanceResult, dom: FigureDom): Figure {
  const drawn = drawnBranches(result);
  const curves = curvesOf(result);
  const { legs } = result;
  const [from, to] = padded(
    [...curves.limits.flat(), ...curves.courses.flat()].map(({ y }) => y),
    0.06,
  );
  const frame: Frame = {
    ...{ width: WIDTH, height: HEIGHT, margins: MARGINS },
    x: { label: "Time from the start (h)", from: 0, to: legs[legs.length - 1]!.to_s / HOUR, log: false },
    y: { label: "Centre of gravity (% MAC)", from, to, log: false },
  };
  const marks = [
    ...legMarks(result, frame),
    ...curves.limits.map((points) => Plot.line(points, { x: "x", y: "y", stroke: WARN, strokeWidth: LIMIT_WIDTH })),
    ...drawn.flatMap((one, i) => courseMarks(one, curves.courses[i]!, curves.courses[i]!, 2 * i + 1)),
  ];
  const near = closeUps(result);
  const { title, worst } = nearestCourse(result);
  const said = `${capitalise(title)} comes nearest to a limit: ${formatFixed(worst.cg_percentMac, 2)} % MAC, ${worst.side} limit ${formatFixed(worst.limit_percentMac, 2)} %`;
  const below = near.length === 0 ? "" : " Below, the stretches with the boom down.";
  return composeFigure({
    id,
    title: `Centre of gravity over the mission (${result.variant})`,
    caption: `Each course from where it leaves the plan; the limits are those at the mass of the plan, so that margins of other courses are read in the table.${below} ${said}.`,
    description: `Centre of gravity against time for ${drawn.length} courses, ${near.length} close-ups. ${said}.`,
    panels: [
      { svg: plotFrame(frame, marks, dom), width: WIDTH, height: HEIGHT },
      ...near.map((stretch) => closeUp(stretch, drawn, curves, dom)),
    ],
    columns: [1, 2],
    legend: courseLegend(drawn),
  });
}
