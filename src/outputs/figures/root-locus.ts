/** Figure: roots of the hooked pair in the complex plane along a sweep. */

import * as Plot from "@observablehq/plot";
import type { ModePlane, Sweep } from "../../studies/hold/types.ts";
import { criterionLegend, unstableLegend, unstablePattern } from "./areas.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Frame, padded, plotFrame, toPixelX, toPixelY } from "./frame.ts";
import type { Point } from "./isolines.ts";
import { densify, nearLabels } from "./near-labels.ts";
import { INK, WARN } from "./style.ts";
import {
  type DrawnTrack,
  interpolate,
  oscillates,
  planesOf,
  type SweepAxis,
  sweepAxis,
  tracksOf,
  withAxisUnit,
} from "./sweep-tracks.ts";
import { capitalise } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 380;
const HEIGHT = 318;
const MARGINS = { left: 58, right: 14, top: 6, bottom: 46 };

interface Root {
  readonly real: number | null;
  readonly imag: number | null;
}

function rootsOf({ track }: DrawnTrack): Root[] {
  return track.real_1_s.map((real, i) => ({ real, imag: track.imag_rad_s[i] ?? null }));
}

/** Rigid-body-type tracks; the fast structural ones would flatten all others. */
function drawnTracks(sweep: Sweep, plane: ModePlane): DrawnTrack[] {
  return tracksOf(sweep, plane).filter(({ track }) => track.class === "rigid-body-type");
}

function frameFor(drawn: readonly DrawnTrack[]): Frame {
  const roots = drawn.flatMap((one) => rootsOf(one).filter((_, i) => oscillates(one.track, i)));
  const all = roots.length > 0 ? roots : drawn.flatMap(rootsOf);
  const reals = all.flatMap(({ real }) => (real === null ? [] : [real]));
  const imags = all.flatMap(({ imag }) => (imag === null ? [] : [imag]));
  const [low, high] = padded([0, ...reals], 0.06);
  const x = { label: "Real part (1/s)", from: low, to: Math.max(high, 0.22 * -low), log: false };
  const y = { label: "Imaginary part (rad/s)", from: 0, to: padded([0, ...imags], 0.1)[1], log: false };
  return { width: WIDTH, height: HEIGHT, margins: MARGINS, x, y };
}

/** Hatched right half, imaginary axis, line of constant damping ratio. */
function ground(id: string, frame: Frame, criterion: number | null): unknown[] {
  const half = [{ x1: 0, x2: frame.x.to, y1: frame.y.from, y2: frame.y.to }];
  const marks: unknown[] = [
    Plot.rect(half, { x1: "x1", x2: "x2", y1: "y1", y2: "y2", fill: `url(#${id}-unstable)` }),
    Plot.ruleX([0], { stroke: WARN, strokeWidth: 1.2 }),
  ];
  if (criterion === null) return marks;
  const slope = Math.sqrt(1 - criterion * criterion) / criterion;
  const real = -Math.min(-frame.x.from, frame.y.to / slope);
  const line = [
    [0, 0],
    [real, -real * slope],
  ] as const;
  marks.push(Plot.line(line, { stroke: INK, strokeWidth: 1.6, strokeDasharray: "7 4" }));
  return marks;
}

interface SeenRoot {
  readonly real: number;
  readonly imag: number;
}

function isInside(frame: Frame, root: Root): root is SeenRoot {
  return (
    root.real !== null &&
    root.imag !== null &&
    root.real >= frame.x.from &&
    root.real <= frame.x.to &&
    root.imag <= frame.y.to
  );
}

interface Arrow {
  readonly x: number;
  readonly y: number;
  /** Clockwise from up on the page. */
  readonly turn_deg: number;
}

/**
 * Arrow head in the direction of growing sweep value: near a third of the visible length on the page, or where the mark of
 * the pair's own value leaves room.
 */
function arrowOf(frame: Frame, seen: readonly SeenRoot[], own: SeenRoot | null): Arrow[] {
  const page = seen.map((root): Point => [toPixelX(frame, root.real), toPixelY(frame, root.imag)]);
  const apart = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1]);
  const along = [0];
  for (let i = 1; i < page.length; i++) along.push(along[i - 1]! + apart(page[i]!, page[i - 1]!));
  const total = along.at(-1) ?? 0;
  if (total < 45) return [];
  const ownAt: Point | null = own === null ? null : [toPixelX(frame, own.real), toPixelY(frame, own.imag)];
  const places = [0.36, 0.64, 0.25, 0.75].map((part) =>
    Math.max(
      1,
      along.findIndex((length) => length >= part * total),
    ),
  );
  const i = places.find((place) => ownAt === null || apart(page[place]!, ownAt) > 16) ?? places[0]!;
  const turn = Math.atan2(page[i]![0] - page[i - 1]![0], page[i - 1]![1] - page[i]![1]);
  return [{ x: seen[i]!.real, y: seen[i]!.imag, turn_deg: (turn * 180) / Math.PI }];
}

function trackMarks(frame: Frame, drawn: readonly DrawnTrack[], axis: SweepAxis): unknown[] {
  return drawn.flatMap((one) => {
    const roots = rootsOf(one);
    const seen = roots.filter((root): root is SeenRoot => isInside(frame, root));
    if (seen.length === 0) return [];
    const { stroke, dash } = one.style;
    const ends = { x: "real", y: "imag", symbol: "circle", r: 4, stroke, strokeWidth: 1.6 } as const;
    const own = ownRoot(one, axis);
    return [
      Plot.line(roots, { x: "real", y: "imag", stroke, strokeWidth: 2, strokeDasharray: dash, clip: true }),
      Plot.dot(arrowOf(frame, seen, own !== null && isInside(frame, own) ? own : null), {
        x: "x",
        y: "y",
        symbol: "triangle",
        r: 5,
        rotate: "turn_deg",
        fill: stroke,
        stroke: "none",
      }),
      Plot.dot(seen.slice(0, 1), { ...ends, fill: "white" }),
      Plot.dot(seen.slice(-1), { ...ends, fill: stroke }),
      ...(own === null || !isInside(frame, own)
        ? []
        : [
            Plot.dot([own], {
              x: "real",
              y: "imag",
              symbol: "diamond",
              r: 5.5,
              fill: INK,
              stroke: "white",
              strokeWidth: 1.4,
            }),
          ]),
    ];
  });
}

function ownRoot({ track }: DrawnTrack, axis: SweepAxis): Root | null {
  const real = interpolate(axis.values, track.real_1_s, axis.at);
  const imag = interpolate(axis.values, track.imag_rad_s, axis.at);
  return real === null || imag === null ? null : { real, imag };
}

/** Points that a name should not cover: the loci, their ends most of all. */
function obstacles(frame: Frame, drawn: readonly DrawnTrack[]): Point[] {
  return drawn.flatMap((one) => {
    const seen = rootsOf(one).filter((root): root is SeenRoot => isInside(frame, root));
    const line = seen.map(({ real, imag }): Point => [real, imag]);
    const ends = [line.slice(0, 1), line.slice(-1)].flat();
    return [...densify(frame, line), ...ends, ...ends];
  });
}

function panel(
  id: string,
  sweep: Sweep,
  plane: ModePlane,
  axis: SweepAxis,
  criterion: number | null,
  dom: FigureDom,
): Panel {
  const drawn = drawnTracks(sweep, plane);
  const frame = frameFor(drawn);
  const labels = drawn.flatMap((one) => {
    const seen = rootsOf(one).filter((root): root is SeenRoot => isInside(frame, root));
    const own = ownRoot(one, axis);
    const at = own !== null && isInside(frame, own) ? own : seen.at(-1);
    return at === undefined ? [] : [{ text: one.track.name, x: at.real, y: at.imag, color: one.style.stroke }];
  });
  const marks = [
    ...ground(id, frame, criterion),
    ...trackMarks(frame, drawn, axis),
    ...nearLabels(frame, labels, obstacles(frame, drawn)),
  ];
  return { svg: plotFrame(frame, marks, dom), width: WIDTH, height: HEIGHT, heading: capitalise(plane) };
}

/** Names the tracks that are not in the frame, so that nothing is hidden silently. */
function leftOut(sweep: Sweep): string {
  const names = planesOf(sweep).flatMap((plane) => {
    const drawn = drawnTracks(sweep, plane);
    const frame = frameFor(drawn);
    return drawn.filter((one) => !rootsOf(one).some((root) => isInside(frame, root))).map(({ track }) => track.name);
  });
  const structural = sweep.tracks.filter((track) => track.class === "structural").map((track) => track.name);
  const parts = [
    ...(names.length === 0 ? [] : [`further left than the frame: ${names.join(", ")}`]),
    ...(structural.length === 0 ? [] : [`structural, far above it: ${structural.join(", ")}`]),
  ];
  return parts.length === 0 ? "" : ` Not drawn: ${parts.join("; ")}.`;
}

/** Root loci along a sweep, a panel for each plane; open circle at the start, filled at the end, diamond at the pair's value. */
export function rootLocusFigure(id: string, sweep: Sweep, criterion: number | null, dom: FigureDom): Figure {
  const axis = sweepAxis(sweep);
  const where = `condition ${sweep.condition}, mass ${sweep.mass}`;
  const print = (value: number) => withAxisUnit(value, axis);
  const swept = sweep.axis.label === "" ? "value" : sweep.axis.label[0]!.toLowerCase() + sweep.axis.label.slice(1);
  return composeFigure({
    id,
    title: `Root loci: ${sweep.title} (${where})`,
    caption:
      `Roots of the linearised equations, ${where}, as the ${swept} goes from ${print(axis.from)} (open circle) to ` +
      `${print(axis.to)} (filled circle); the diamond is the pair's own ${print(axis.at)}. Right of the vertical line a motion grows; ` +
      `left of the dashed line its damping ratio meets the criterion. Conjugate roots below the axis are not drawn.${leftOut(sweep)}`,
    description:
      `Real part across, imaginary part up, for ${sweep.tracks.length} modes along ${axis.label} from ${print(axis.from)} to ${print(axis.to)}.` +
      leftOut(sweep),
    panels: planesOf(sweep).map((plane) => panel(id, sweep, plane, axis, criterion, dom)),
    columns: 2,
    legend: [
      unstableLegend(id),
      ...(criterion === null ? [] : [criterionLegend(criterion)]),
      { kind: "symbol", label: `start, ${print(axis.from)}`, symbol: "circle", fill: "#ffffff", stroke: INK },
      { kind: "symbol", label: `end, ${print(axis.to)}`, symbol: "circle", fill: INK, stroke: INK },
      { kind: "symbol", label: `value of the pair, ${print(axis.at)}`, symbol: "diamond", fill: INK, stroke: INK },
    ],
    defs: unstablePattern(id),
  });
}
