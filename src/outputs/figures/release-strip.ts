/** Figure: the separation from the left and from behind, outlines at a few times. */
import * as Plot from "@observablehq/plot";
import type { Line2 } from "../../studies/fit/types.ts";
import type { SeparationStrip } from "../../studies/release/types.ts";
import { formatShort } from "../numbers/index.ts";
import { composeFigure, type Panel } from "./compose.ts";
import type { Frame } from "./frame.ts";
import { plotFrame } from "./frame.ts";
import { type Bounds, boundsOf, cutToFrame, joined, roomier } from "./station-view.ts";
import { INK, SLATE } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const MARGINS = { left: 52, right: 10, top: 6, bottom: 44 };
const STROKE = "#16386b";
/** Frames farther than this from the hinge leave the picture too small to read [m]. */
const FARTHEST = 30;

const centre = (lines: readonly Line2[]): readonly [number, number] => {
  const { x, y } = boundsOf(lines.flat())!;
  return [0.5 * (x[0] + x[1]), 0.5 * (y[0] + y[1])];
};

/** Room that a label needs from the one before it [m]. */
const APART = 1.5;

/** Labels that do not cover each other: the first of those that stand together speaks for them. */
function labels<T extends { readonly at: readonly [number, number] }>(all: readonly T[]): T[] {
  const kept: T[] = [];
  for (const one of all) {
    const last = kept.at(-1);
    if (last !== undefined && Math.hypot(one.at[0] - last.at[0], one.at[1] - last.at[1]) < APART) continue;
    kept.push(one);
  }
  return kept;
}

/** One view with equal scales; the aircraft's outlines get fainter with time and carry it as a label. */
function view(strip: SeparationStrip, which: "side" | "rear", width: number, dom: FigureDom): Panel {
  const frames = strip.frames.filter((each) => Math.hypot(...centre(each.side)) < FARTHEST);
  const own = boundsOf(frames.flatMap((each) => each[which].flat()));
  const near = boundsOf(strip.still[which].flat().filter(([x]) => which === "rear" || x > -8));
  const all: Bounds = roomier(joined(own, cropped(near, own)) ?? { x: [-5, 5], y: [-5, 5] }, 0.8);
  const inner = width - MARGINS.left - MARGINS.right;
  const scale = Math.min(inner / (all.x[1] - all.x[0]), 270 / (all.y[1] - all.y[0]));
  const spare = (inner / scale - (all.x[1] - all.x[0])) / 2;
  const height = Math.round((all.y[1] - all.y[0]) * scale) + MARGINS.top + MARGINS.bottom;
  const [left, rightEnd] = [all.x[0] - spare, all.x[1] + spare];
  const frame: Frame = {
    ...{ width, height, margins: MARGINS },
    x: {
      label: which === "side" ? "Aft of the boom hinge (m), flies to the left" : "Right of the boom hinge (m)",
      ...{ from: left, to: rightEnd, log: false },
    },
    y: { label: "Above it (m)", from: all.y[0], to: all.y[1], log: false },
  };
  const shape = (outline: Line2) => {
    const points = cutToFrame(outline, frame);
    return points.length === 0 ? [] : [[...points, points[0]!]];
  };
  const drawn = (outlines: readonly Line2[], options: object) =>
    outlines.flatMap(shape).map((points) => Plot.line(points, { ...options, clip: true }));
  const marks = [
    ...drawn(strip.still[which], { stroke: SLATE, fill: "#f0f2f5", strokeWidth: 0.9 }),
    ...frames.flatMap((each, i) =>
      drawn(each[which], {
        ...{ stroke: STROKE, strokeWidth: i === 0 ? 1.6 : 1.1, fill: i === 0 ? "#d3e0f2" : "none" },
        ...(i === 0 ? {} : { strokeDasharray: ["6 2", "4 2", "3 2", "2 2", "1.5 2", "1 2"][(i - 1) % 6] }),
      }),
    ),
    Plot.text(labels(frames.map((each) => ({ at: centre(each[which]), text: `${formatShort(each.time_s)} s` }))), {
      x: ({ at }: { at: readonly [number, number] }) => at[0],
      y: ({ at }: { at: readonly [number, number] }) => at[1],
      ...{ text: "text", fill: INK, stroke: "white", strokeWidth: 3, fontSize: 11, clip: true },
    }),
  ];
  const heading = which === "side" ? "From the left" : "From behind";
  return { svg: plotFrame(frame, marks, dom), width, height, heading };
}

/** The part of the carrier that lies about the aircraft. */
function cropped(near: Bounds | null, own: Bounds | null): Bounds | null {
  if (near === null || own === null) return near;
  const room = 6;
  return {
    x: [Math.max(near.x[0], own.x[0] - room), Math.min(near.x[1], own.x[1] + room)],
    y: [Math.max(near.y[0], own.y[0] - room), Math.min(near.y[1], own.y[1] + room)],
  };
}

/** Outlines of carrier, mechanism and aircraft from the left and from behind. */
export function stripFigure(id: string, variant: string, strip: SeparationStrip, dom: FigureDom): Figure | null {
  if (strip.frames.length === 0) return null;
  return composeFigure({
    id,
    title: `Separation: ${strip.case}, ${strip.mass} (${variant})`,
    caption: `Convex outlines in carrier axes. Grey: carrier and mechanism as they stood; blue: the carried aircraft, solid at the command, then dashed ever shorter; each outline carries its time. Later than shown it is more than ${FARTHEST} m away.`,
    description: `Outlines of the carried aircraft at ${strip.frames.map(({ time_s }) => `${time_s} s`).join(", ")} after the command.`,
    panels: [view(strip, "side", 450, dom), view(strip, "rear", WIDTH - 450, dom)],
    columns: 2,
    legend: [
      { kind: "area", label: "carrier and mechanism", fill: "#f0f2f5", stroke: SLATE },
      { kind: "area", label: "carried aircraft at the command", fill: "#d3e0f2", stroke: STROKE },
      { kind: "line", label: "later", stroke: STROKE, dash: "4 2", width: 1.1 },
    ],
  });
}
