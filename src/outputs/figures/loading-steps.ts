/** Figure: elevation of the carried aircraft at every step of loading, with the carrier raised as required. */
import * as Plot from "@observablehq/plot";
import type { FitResult, LoadingStep, Silhouette } from "../../studies/fit/types.ts";
import { millimetres } from "../fit-tables/index.ts";
import { pairName } from "../names/index.ts";
import { formatFixed } from "../numbers/index.ts";
import { composeFigure, type LegendItem } from "./compose.ts";
import { plotFrame } from "./frame.ts";
import type { Point } from "./isolines.ts";
import { type LeaderLabel, leaderLabels } from "./leader-labels.ts";
import { densify } from "./near-labels.ts";
import {
  boundsOf,
  cutToFrame,
  joined,
  outlineMarks,
  ownerLegend,
  ownerPatterns,
  roomier,
  stationFrame,
} from "./station-view.ts";
import { curveStyle, INK } from "./style.ts";
import { fitText } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const MARGINS = { left: 58, right: 14, top: 6, bottom: 46 };

/** Steps drawn; the table holds all. */
const MOST = 6;
/** Steps farther than this many lengths of the carried aircraft from its stowed place are not drawn. */
const NEAR = 1.6;

interface Placed {
  /** Number of the step, from 1. */
  readonly number: number;
  readonly step: LoadingStep;
  readonly outlines: readonly (readonly Point[])[];
}

interface Numbered {
  readonly number: number;
  readonly step: LoadingStep;
}

/**
 * The steps that are drawn: of those near the carrier the first, the last, the tightest of the way in and others between.
 *
 * @param length of the carried aircraft [m]
 */
function chosenSteps(steps: readonly LoadingStep[], length: number): Numbered[] {
  const all = steps.map((step, i): Numbered => ({ number: i + 1, step }));
  const near = all.filter(({ step }) => Math.abs(step.aftOfStowed_m) <= NEAR * length);
  if (near.length <= MOST) return near;
  const wayIn = near.slice(0, -1);
  const tightest = wayIn.reduce((a, b) => (b.step.leastClearance_m < a.step.leastClearance_m ? b : a));
  const even = Array.from({ length: MOST - 1 }, (_, i) => Math.round((i * (near.length - 1)) / (MOST - 2)));
  return near.filter((one, i) => even.includes(i) || one === tightest);
}

/** Outlines of the stowed carried aircraft moved to a step, in carrier stations; the carrier stands raised. */
function placed(
  { step, number }: Numbered,
  outlines: readonly (readonly Point[])[],
  ground: number,
  datum: number,
): Placed {
  const up = ground + step.height_m - datum;
  return {
    number,
    step,
    outlines: outlines.map((line) => line.map(([x, y]): Point => [x + step.aftOfStowed_m, y + up])),
  };
}

/** The two points in which an outline reaches farthest forward and up: where its number goes. */
function noseOf({ outlines }: Placed): Point {
  return outlines.flat().reduce((a, b) => (b[0] < a[0] ? b : a));
}

function sentence({ step, number }: Numbered): string {
  const pair = step.pair === null ? "" : ` (${pairName(step.pair)})`;
  return `${number}. ${step.name}: ${millimetres(step.leastClearance_m)} mm${pair}`;
}

/** Static ground line less the height by which the carrier is raised. */
function groundOf({ ground, loading }: FitResult): number | null {
  const line = ground?.states.find(({ name }) => name === "static") ?? ground?.states[0];
  return line === undefined ? null : line.groundLine_m - (loading?.requiredJacking_m ?? 0);
}

/** The carried aircraft at each step of loading, outlines only; null when the study has no steps or no ground. */
export function loadingFigure(id: string, result: FitResult, dom: FigureDom): Figure | null {
  const { loading, pictures, stroke, variant } = result;
  const picture = pictures.find(({ pose }) => pose === "stowed");
  const ground = groundOf(result);
  const datum = stroke[0]?.poses.find(({ body }) => body === "carried")?.position_m[2];
  if (loading === null || loading.steps.length === 0) return null;
  if (picture === undefined || ground === null || datum === undefined) return null;
  const still = picture.parts.filter(({ owner }) => owner === "carrier" || owner === "gear");
  const outlines = picture.parts
    .filter(({ owner, zone }) => owner === "carried" && !zone)
    .flatMap((part: Silhouette) => part.elevation.map((line) => line.map(([x, y]): Point => [x, y])));
  const own = boundsOf(outlines.flat());
  const length = own === null ? 0 : own.x[1] - own.x[0];
  const steps = chosenSteps(loading.steps, length).map((one) => placed(one, outlines, ground, datum));
  const bounds = joined(boundsOf(steps.flatMap((one) => one.outlines.flat())), own);
  if (bounds === null || steps.length === 0) return null;
  const whole = joined(bounds, { x: bounds.x, y: [ground, ground + 0.1] })!;
  const frame = stationFrame("elevation", roomier(whole, 0.7), WIDTH, 360, MARGINS);
  const lines = steps.flatMap(({ outlines: own }, i) =>
    own.flatMap((line, k) => cutToFrame(line, frame).map(([x, y]) => ({ x, y, i, outline: `${i} ${k}` }))),
  );
  const labels = steps.map((one, i): LeaderLabel => {
    return { text: String(one.number), at: noseOf(one), color: curveStyle(i).stroke, bold: true };
  });
  const spots = steps.flatMap(({ step }, i) =>
    step.pointA === null ? [] : [{ x: step.pointA[0], y: step.pointA[2], i }],
  );
  const marks = [
    ...outlineMarks(id, still, "elevation", frame),
    Plot.ruleY([ground], { stroke: INK, strokeWidth: 2.2 }),
    ...steps.map((_, i) => {
      const { stroke: color, dash } = curveStyle(i);
      return Plot.line(
        lines.filter((line) => line.i === i),
        {
          x: "x",
          y: "y",
          z: "outline",
          curve: "linear-closed",
          stroke: color,
          strokeWidth: 1.5,
          strokeDasharray: dash,
        },
      );
    }),
    ...spots.map((spot) =>
      Plot.dot([spot], {
        x: "x",
        y: "y",
        r: 4,
        symbol: curveStyle(spot.i).symbol,
        fill: "white",
        stroke: curveStyle(spot.i).stroke,
        strokeWidth: 1.6,
      }),
    ),
    ...leaderLabels(
      frame,
      labels,
      steps.flatMap(({ outlines: own }) => own.flatMap((line) => densify(frame, line))),
    ),
  ];
  const legend: LegendItem[] = [
    ...ownerLegend(id, still),
    { kind: "line", label: "ground", stroke: INK, width: 2.2 },
    ...steps.map(({ step, number }, i): LegendItem => {
      const { stroke: color, dash, symbol } = curveStyle(i);
      return {
        kind: "line",
        label: fitText(`${number} ${step.name}`, 230),
        stroke: color,
        dash,
        width: 1.5,
        symbol,
        fill: "#ffffff",
      };
    }),
  ];
  const raised =
    loading.requiredJacking_m === null
      ? "No height up to the limit lets everything pass"
      : loading.requiredJacking_m === 0
        ? "The carrier stands on its wheels"
        : `The carrier is raised by ${formatFixed(loading.requiredJacking_m, 2)} m`;
  const margin = `margin ${formatFixed(1000 * loading.margin_m, 0)} mm`;
  const said = steps.map(sentence).join("; ");
  return composeFigure({
    id,
    title: `Loading on the ground, step by step (${variant})`,
    caption: `${raised} (${margin}); the ground is drawn where it then lies in carrier stations. A symbol marks the nearest point of its step; the numbers are those of the table. Least clearance: ${said}.`,
    description: `Elevation with the outline of the carried aircraft at ${steps.length} steps. ${raised}. ${said}.`,
    panels: [{ svg: plotFrame(frame, marks, dom), width: WIDTH, height: frame.height }],
    legend,
    defs: ownerPatterns(id),
  });
}
