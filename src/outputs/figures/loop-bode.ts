/** Figure: gain and phase of loops along frequency, free and hooked, with their margins marked. */
import * as Plot from "@observablehq/plot";
import type { ControlLoop, LoopName } from "../../studies/hold-control/types.ts";
import { formatFixed } from "../numbers/index.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Frame, plotFrame } from "./frame.ts";
import { curveStyle, INK, WARN } from "./style.ts";
import { capitalise } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const GAIN = { from: -40, to: 40 };
const PHASE = { from: -450, to: 90 };
const OMEGA = { from: 0.1, to: 100 };
const MIDDLE = 5;

interface Drawn {
  readonly loop: ControlLoop;
  readonly label: string;
  readonly index: number;
  readonly points: readonly { readonly omega: number; readonly gain: number; readonly phase: number }[];
}

const labelOf = ({ state, gains }: ControlLoop): string =>
  `${state === "free" ? "free" : `hooked, ${state}`}, gain set ${gains}`;

/** Curve with its phase brought into the turn from −300° to 60° in the middle of the picture. */
function drawnOf(loop: ControlLoop, index: number): Drawn | null {
  const { curve } = loop;
  if (curve === null || curve.omega_rad_s.length === 0) return null;
  const after = curve.omega_rad_s.findIndex((omega) => omega >= MIDDLE);
  const turns = Math.ceil((curve.phase_deg[Math.max(0, after)]! - 60) / 360);
  const points = curve.omega_rad_s
    .map((omega, i) => ({ omega, gain: curve.gain_dB[i]!, phase: curve.phase_deg[i]! - 360 * turns }))
    .filter(({ omega }) => omega >= OMEGA.from && omega <= OMEGA.to);
  return { loop, label: labelOf(loop), index, points };
}

/** Gain [dB] or phase [deg] on a curve at a frequency. */
function valueAt({ points }: Drawn, omega: number, key: "gain" | "phase"): number {
  const after = points.findIndex((point) => point.omega >= omega);
  if (after <= 0) return points[0]?.[key] ?? 0;
  const [a, b] = [points[after - 1]!, points[after]!];
  const share = Math.log(omega / a.omega) / Math.log(b.omega / a.omega);
  return a[key] + share * (b[key] - a[key]);
}

function panel(drawn: readonly Drawn[], key: "gain" | "phase", name: LoopName, width: number, dom: FigureDom): Panel {
  const range = key === "gain" ? GAIN : PHASE;
  const critical = key === "gain" ? [0] : [-180];
  const frame: Frame = {
    width,
    height: key === "gain" ? 190 : 210,
    margins: { left: 62, right: 14, top: 6, bottom: 46 },
    x: { label: "Frequency (rad/s)", ...OMEGA, log: true },
    y: {
      label: key === "gain" ? "Gain |L| (dB)" : "Phase of L (deg)",
      ...range,
      log: false,
      ...(key === "gain" ? {} : { ticks: [-450, -360, -270, -180, -90, 0, 90] }),
    },
  };
  const lines = drawn.map((each) => {
    const { stroke, dash } = curveStyle(each.index);
    const shared = { x: "omega", y: key, stroke, strokeWidth: 1.8, strokeDasharray: dash, clip: true } as const;
    return Plot.line(each.points, shared);
  });
  const marks = drawn.flatMap((each) => {
    const { crossover_rad_s: omega } = each.loop;
    if (omega === null || omega < OMEGA.from || omega > OMEGA.to) return [];
    const { stroke, symbol } = curveStyle(each.index);
    const y = key === "gain" ? 0 : valueAt(each, omega, "phase");
    if (y < range.from || y > range.to) return [];
    const dot = Plot.dot([{ x: omega, y }], { x: "x", y: "y", symbol, r: 4.6, fill: stroke, stroke: "white" });
    if (key === "gain") return [dot];
    const margin = [{ x: omega, y1: -180, y2: y }];
    return [Plot.link(margin, { x1: "x", x2: "x", y1: "y1", y2: "y2", stroke, strokeWidth: 2.4 }), dot];
  });
  return {
    svg: plotFrame(frame, [Plot.ruleY(critical, { stroke: WARN, strokeWidth: 1.4 }), ...lines, ...marks], dom),
    width,
    height: frame.height,
    ...(key === "gain" ? { heading: capitalise(name.startsWith("pilot") ? name : `${name} loop`) } : {}),
  };
}

function sentence({ loop, label }: Drawn): string {
  const { phaseMargin_deg: phase, gainIncrease_1: up, gainDecrease_1: down } = loop;
  if (!loop.stable) return `${loop.loop}, ${label}: not stable`;
  const factors = [
    ...(phase === null ? ["no crossing of 0 dB"] : [`phase margin ${formatFixed(phase, 0)}°`]),
    ...(up === null ? [] : [`gain up ${formatFixed(20 * Math.log10(up), 1)} dB`]),
    ...(down === null ? [] : [`gain down ${formatFixed(-20 * Math.log10(down), 1)} dB`]),
  ];
  return `${loop.loop}, ${label}: ${factors.join(", ")}`;
}

/**
 * Gain and phase of some loops of one condition at one mass: each loop a column, each way of being held a curve.
 *
 * @param names loops, one column each
 */
export function loopFigure(
  id: string,
  variant: string,
  loops: readonly ControlLoop[],
  names: readonly LoopName[],
  dom: FigureDom,
): Figure | null {
  const shown = loops.filter((loop) => loop.curve !== null && names.includes(loop.loop));
  const labels = [...new Set(shown.map(labelOf))];
  const drawn = shown.map((loop) => drawnOf(loop, labels.indexOf(labelOf(loop)))).filter((each) => each !== null);
  const columns = names.filter((name) => drawn.some(({ loop }) => loop.loop === name));
  if (columns.length === 0) return null;
  const width = 760 / Math.max(2, columns.length);
  const of = (name: LoopName) => drawn.filter(({ loop }) => loop.loop === name);
  const { condition, mass } = drawn[0]!.loop;
  return composeFigure({
    id,
    title: `Loops along frequency (${variant}, ${condition} × ${mass})`,
    caption:
      `L is the loop cut at the surface's actuator (a pilot's at the pilot), everything else closed, delay exact; ${variant}, ` +
      `${condition} × ${mass}. A symbol marks where |L| = 1, the bar below or above it the phase margin to −180°. ${drawn.map(sentence).join("; ")}.`,
    description: `Gain and phase against frequency. ${drawn.map(sentence).join("; ")}.`,
    panels: (["gain", "phase"] as const).flatMap((key) =>
      columns.map((name) => panel(of(name), key, name, width, dom)),
    ),
    columns: columns.length,
    legend: [
      ...labels.map((label, i) => {
        const { stroke, dash, symbol } = curveStyle(i);
        return { kind: "line" as const, label, stroke, dash, symbol, fill: stroke, width: 1.8 };
      }),
      { kind: "line", label: "0 dB, −180°", stroke: WARN, dash: "none", width: 1.4, fill: INK },
    ],
  });
}
