/** Figure: one approach, its paths from the side and from behind, and its course in time. */
import * as Plot from "@observablehq/plot";
import type { HookonReplay } from "../../studies/hookon/types.ts";
import { formatFixed } from "../numbers/index.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Axis, type Frame, padded, plotFrame, ticksOf } from "./frame.ts";
import { curveStyle, INK, SLATE } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const VIEW = { left: 58, right: 12, top: 6, bottom: 46 };

type Place = readonly [number, number, number];

/** Paths of head and mouth with their start and end. */
function pathMarks(replay: HookonReplay, x: (p: Place) => number, y: (p: Place) => number): unknown[] {
  const [head, mouth] = [curveStyle(0), curveStyle(1)];
  const path = (places: readonly Place[]) => places.map((p) => ({ x: x(p), y: y(p) }));
  const [a, b] = [path(replay.head_m), path(replay.mouth_m)];
  const ends = (at: typeof a) => [at[0]!, at.at(-1)!];
  return [
    Plot.line(b, { x: "x", y: "y", stroke: mouth.stroke, strokeWidth: 1.4, strokeDasharray: mouth.dash, clip: true }),
    Plot.line(a, { x: "x", y: "y", stroke: head.stroke, strokeWidth: 1.8, clip: true }),
    Plot.dot(ends(a), { x: "x", y: "y", symbol: head.symbol, r: 4, fill: "white", stroke: head.stroke, clip: true }),
    Plot.dot(ends(b), { x: "x", y: "y", symbol: mouth.symbol, r: 4, fill: "white", stroke: mouth.stroke, clip: true }),
  ];
}

const range = (places: readonly Place[], axis: number): readonly [number, number] =>
  padded(
    places.map((p) => p[axis]!),
    0.08,
  );

/** Axis that grows to the left or downwards. */
function reversed(label: string, [low, high]: readonly [number, number]): Axis {
  const ticks = ticksOf({ label, from: low, to: high, log: false });
  return { label, from: high, to: low, log: false, ticks };
}

function views(replay: HookonReplay, dom: FigureDom): Panel[] {
  const all = [...replay.head_m, ...replay.mouth_m];
  const [aft, right, down] = [range(all, 0), range(all, 1), range(all, 2)];
  const side: Frame = {
    ...{ width: 440, height: 230, margins: VIEW },
    x: reversed("Aft of the mouth at rest (m)", aft),
    y: reversed("Below it (m)", down),
  };
  const rear: Frame = {
    ...{ width: 320, height: 230, margins: VIEW },
    x: { label: "Right of it (m)", from: right[0], to: right[1], log: false },
    y: reversed("Below it (m)", down),
  };
  const sideMarks = pathMarks(
    replay,
    (p) => p[0],
    (p) => p[2],
  );
  const rearMarks = pathMarks(
    replay,
    (p) => p[1],
    (p) => p[2],
  );
  return [
    { svg: plotFrame(side, sideMarks, dom), width: 440, height: 230, heading: "From the left (flies to the right)" },
    { svg: plotFrame(rear, rearMarks, dom), width: 320, height: 230, heading: "From behind" },
  ];
}

interface Curve {
  readonly label: string;
  readonly values: readonly number[];
}

/** Time from which the histories are drawn: shortly before the first event of contact. */
function startOf(replay: HookonReplay): number {
  const first = replay.events.find(({ what }) => /contact|trip/.test(what));
  return Math.max(replay.time_s[0]!, (first?.time_s ?? replay.time_s[0]!) - 1);
}

function history(replay: HookonReplay, label: string, curves: readonly Curve[], width: number, dom: FigureDom): Panel {
  const start = startOf(replay);
  const lines = curves.map(({ values }, i) => ({
    style: curveStyle(i),
    at: replay.time_s.map((x, k) => ({ x, y: values[k]! })).filter(({ x }) => x >= start),
  }));
  const [from, to] = padded([0, ...lines.flatMap(({ at }) => at.map(({ y }) => y))], 0.08);
  const frame: Frame = {
    ...{ width, height: 170, margins: { ...VIEW, bottom: 42 } },
    x: { label: "Time (s)", from: start, to: Math.max(start + 0.1, replay.time_s.at(-1)!), log: false },
    y: { label, from, to, log: false },
  };
  const marks = [
    Plot.ruleY([0], { stroke: INK, strokeWidth: 0.6 }),
    Plot.ruleX(
      replay.events.map(({ time_s }) => time_s).filter((time) => time >= start),
      { stroke: SLATE, strokeWidth: 0.9, strokeDasharray: "3 3" },
    ),
    ...lines.map(({ style: { stroke, dash }, at }) =>
      Plot.line(at, { x: "x", y: "y", stroke, strokeWidth: 1.6, strokeDasharray: dash, clip: true }),
    ),
  ];
  return { svg: plotFrame(frame, marks, dom), width, height: frame.height };
}

/** Paths of head and mouth from the side and from behind, then closure, load, buffer and gimbal in time. */
export function replayFigure(id: string, variant: string, replay: HookonReplay | null, dom: FigureDom): Figure | null {
  if (replay === null || replay.time_s.length < 2) return null;
  const [head, mouth] = [curveStyle(0), curveStyle(1)];
  const events = replay.events.map(({ time_s, what }) => `${what} ${formatFixed(time_s, 2)} s`).join(", ");
  const half = WIDTH / 2;
  return composeFigure({
    id,
    title: `One approach: ${replay.outcome} (${variant}, ${replay.case}, sample ${replay.index})`,
    caption: `Paths of the probe's head and of the socket's mouth, then the course about the contact; upright dashes mark the events: ${events === "" ? "none" : events}.`,
    description: `Paths of probe and socket and histories of closure, load, buffer and gimbal. Events: ${events}.`,
    panels: [
      ...views(replay, dom),
      history(replay, "Closure (m/s)", [{ label: "closure", values: replay.closure_m_s }], half, dom),
      history(
        replay,
        "Load on the probe (kN)",
        [
          { label: "along", values: replay.axial_kN },
          { label: "across", values: replay.side_kN },
        ],
        half,
        dom,
      ),
      history(replay, "Buffer travel (mm)", [{ label: "buffer", values: replay.buffer_mm }], half, dom),
      history(replay, "Gimbal angle (deg)", [{ label: "gimbal", values: replay.gimbal_deg }], half, dom),
    ],
    columns: 2,
    legend: [
      { kind: "line", label: "probe's head; load along", ...head, fill: "#ffffff", width: 1.8 },
      { kind: "line", label: "socket's mouth; load across", ...mouth, fill: "#ffffff", width: 1.4 },
    ],
  });
}
