/** Figure: damping ratio of every mode along a sweep. */

import * as Plot from "@observablehq/plot";
import type { ModePlane, Sweep } from "../../studies/hold/types.ts";
import { formatFixed } from "../numbers/index.ts";
import { criterionLegend, dampingGround, ownValue, unstableLegend, unstablePattern } from "./areas.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Frame, padded, plotFrame } from "./frame.ts";
import { type EndLabel, endLabels } from "./labels.ts";
import {
  type DrawnTrack,
  oscillates,
  planesOf,
  type SweepAxis,
  sweepAxis,
  tracksOf,
  withAxisUnit,
} from "./sweep-tracks.ts";
import { capitalise } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
/** Damping ratios beyond ± this are never drawn. */
const DEEPEST = 0.6;
/** Stands for the criterion [–] where there is none. */
const LEAST_ROOM = 0.03;
/** Part of the frame's height kept free at the top for the label of the pair's own value. */
const LABEL_ROOM = 0.1;
/** Height of the plotted area. */
const PLOT = 138;
const MARGINS = { left: 62, right: 216, top: 6 };
/** Symbols along a curve, about this many. */
const SYMBOLS = 7;

interface Sample {
  readonly x: number;
  readonly zeta: number | null;
}

function samplesOf({ track }: DrawnTrack, axis: SweepAxis): Sample[] {
  return axis.values.map((x, i) => ({ x, zeta: oscillates(track, i) ? (track.dampingRatio[i] ?? null) : null }));
}

function lastSample(samples: readonly Sample[]): { readonly x: number; readonly zeta: number } | null {
  for (let i = samples.length - 1; i >= 0; i--) {
    const { x, zeta } = samples[i]!;
    if (zeta !== null) return { x, zeta };
  }
  return null;
}

function curveMarks(drawn: readonly DrawnTrack[], axis: SweepAxis, shown: readonly [number, number]): unknown[] {
  return drawn.flatMap((one) => {
    const samples = samplesOf(one, axis);
    const stride = Math.max(1, Math.round(samples.length / SYMBOLS));
    const spots = samples.filter(
      ({ zeta }, i) => zeta !== null && zeta >= shown[0] && zeta <= shown[1] && i % stride === Math.floor(stride / 2),
    );
    const { stroke, dash, symbol } = one.style;
    const width = one.track.class === "structural" ? 1.1 : 2;
    return [
      Plot.line(samples, { x: "x", y: "zeta", stroke, strokeWidth: width, strokeDasharray: dash, clip: true }),
      Plot.dot(spots, { x: "x", y: "zeta", symbol, r: 3.6, fill: "white", stroke, strokeWidth: 1.4 }),
    ];
  });
}

/** Modes of a plane that oscillate somewhere along the sweep. */
function oscillating(sweep: Sweep, plane: ModePlane, axis: SweepAxis): DrawnTrack[] {
  return tracksOf(sweep, plane).filter(({ track }) => axis.values.some((_, i) => oscillates(track, i)));
}

function dampingValues(drawn: readonly DrawnTrack[], axis: SweepAxis): number[] {
  return drawn.flatMap((one) => samplesOf(one, axis).flatMap(({ zeta }) => (zeta === null ? [] : [zeta])));
}

/**
 * Range of damping ratios that is drawn: the least damped mode and the surroundings of the criterion, so that they stay
 * readable; much better damped modes leave the frame at the top.
 */
function shownRange(
  drawn: readonly DrawnTrack[],
  axis: SweepAxis,
  criterion: number | null,
): readonly [number, number] {
  const ranges = drawn.map((one) => {
    const values = dampingValues([one], axis);
    return { rigid: one.track.class === "rigid-body-type", low: Math.min(...values), high: Math.max(...values) };
  });
  const rigid = ranges.filter((range) => range.rigid).sort((a, b) => a.low - b.low);
  const lowest = Math.min(0, ...ranges.map(({ low }) => low));
  const highest = Math.max(0, ...ranges.map(({ high }) => high));
  const room = Math.max(4 * (criterion ?? LEAST_ROOM), 1.15 * (rigid[0]?.high ?? 0));
  const top = Math.min(DEEPEST, highest <= 2.2 * room ? highest : room);
  const [from, to] = padded([0, 1.6 * (criterion ?? 0), Math.max(-DEEPEST, lowest), top], 0.08);
  return [from, to + LABEL_ROOM * (to - from)];
}

function panel(
  id: string,
  sweep: Sweep,
  plane: ModePlane,
  axis: SweepAxis,
  criterion: number | null,
  last: boolean,
  dom: FigureDom,
): Panel {
  const drawn = oscillating(sweep, plane, axis);
  const [from, to] = shownRange(drawn, axis, criterion);
  const bottom = last ? 46 : 12;
  const height = MARGINS.top + PLOT + bottom;
  const frame: Frame = {
    width: WIDTH,
    height,
    margins: { ...MARGINS, bottom },
    x: last ? axis : { ...axis, label: "", format: () => "" },
    y: { label: "Damping ratio ζ (–)", from, to, log: false },
  };
  const labels: EndLabel[] = drawn.flatMap((one) => {
    const last = lastSample(samplesOf(one, axis));
    if (last === null) return [];
    const outside = last.zeta > to || last.zeta < from;
    const kind = one.track.class === "structural" ? " (str.)" : "";
    const value = outside ? ` ${last.zeta > to ? "↑" : "↓"} ${formatFixed(last.zeta, 2)}` : "";
    return [{ text: `${one.track.name}${kind}${value}`, x: last.x, y: last.zeta, color: one.style.stroke }];
  });
  const marks = [
    ...dampingGround(id, frame, criterion),
    ...curveMarks(drawn, axis, [from, to]),
    ...ownValue(axis.at, `${sweep.condition}: ${withAxisUnit(axis.at, axis)}`, frame),
    ...endLabels(frame, labels),
  ];
  return { svg: plotFrame(frame, marks, dom), width: WIDTH, height, heading: capitalise(plane) };
}

/** Where the least damping ratio of a plane crosses zero, in printed axis units. */
function neutralPoints(sweep: Sweep, plane: ModePlane, axis: SweepAxis): number[] {
  const rigid = tracksOf(sweep, plane).filter(({ track }) => track.class === "rigid-body-type");
  const found: number[] = [];
  for (const { track } of rigid) {
    for (let i = 0; i + 1 < axis.values.length; i++) {
      const [a, b] = [track.dampingRatio[i], track.dampingRatio[i + 1]];
      if (!oscillates(track, i) || !oscillates(track, i + 1) || a == null || b == null || a >= 0 === b >= 0) continue;
      found.push(axis.values[i]! + ((axis.values[i + 1]! - axis.values[i]!) * a) / (a - b));
    }
  }
  return found.sort((a, b) => a - b);
}

function crossings(sweep: Sweep, axis: SweepAxis): string {
  const parts = planesOf(sweep).map((plane) => {
    const found = neutralPoints(sweep, plane, axis).map((value) => withAxisUnit(Number(value.toPrecision(3)), axis));
    return found.length === 0
      ? `no ${plane} oscillation changes sign`
      : `a ${plane} oscillation is neutral at ${found.join(" and ")}`;
  });
  return `${capitalise(parts.join("; "))} (read between the computed points).`;
}

/**
 * Damping ratio of every oscillatory mode along a sweep, a panel for each plane, with the criterion and the pair's own
 * value.
 *
 * @param criterion damping ratio that rigid-body-type oscillations must have; null when there is none
 */
export function dampingSweepFigure(id: string, sweep: Sweep, criterion: number | null, dom: FigureDom): Figure {
  const axis = sweepAxis(sweep);
  const planes = planesOf(sweep);
  const where = `condition ${sweep.condition}, mass ${sweep.mass}`;
  const outside = planes.some((plane) => {
    const drawn = oscillating(sweep, plane, axis);
    const [from, to] = shownRange(drawn, axis, criterion);
    return dampingValues(drawn, axis).some((zeta) => zeta < from || zeta > to);
  });
  const cut = outside ? " An arrow and a number name the damping ratio of a curve that ends outside the frame." : "";
  return composeFigure({
    id,
    title: `Damping ratio: ${sweep.title} (${where})`,
    caption:
      `Damping ratio ζ of each oscillatory mode, ${where}. A curve in the hatched part grows by itself; one below the dashed line does not ` +
      `meet the criterion for rigid-body-type modes (structural modes, thin and marked str., have their own). A curve ends where its mode stops ` +
      `oscillating.${cut} ${crossings(sweep, axis)}`,
    description: `${planes.length} panels of curves against ${axis.label}: ${sweep.tracks.map((track) => `${track.plane} ${track.name}`).join(", ")}. ${crossings(sweep, axis)}`,
    panels: planes.map((plane, i) => panel(id, sweep, plane, axis, criterion, i === planes.length - 1, dom)),
    legend: [
      unstableLegend(id),
      ...(criterion === null ? [] : [criterionLegend(criterion)]),
      { kind: "line", label: "value of the pair", dash: "2 2.5", width: 1 },
    ],
    defs: unstablePattern(id),
  });
}
