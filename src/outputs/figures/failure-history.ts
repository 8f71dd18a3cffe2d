/** Figure: a failure in time, without and with each action against it. */
import * as Plot from "@observablehq/plot";
import {
  type FailureCase,
  type FailureHistory,
  type HoldControl,
  isLatched,
} from "../../studies/hold-control/types.ts";
import { formatFixed } from "../numbers/index.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Frame, padded, plotFrame } from "./frame.ts";
import { curveStyle, INK, SLATE, WARN } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

type Key = "pitch_deg" | "bank_deg" | "load_kN" | "surface_deg";
const MOST_POINTS = 300;

interface Shown {
  readonly key: Key;
  readonly label: string;
  /** Size of the limit in the unit of the axis; absent where there is none. */
  readonly limit?: number;
}

function panelsOf({ state }: FailureCase, settings: HoldControl["failureSettings"]): Shown[] {
  return [
    { key: "pitch_deg", label: "Pitch from trim (deg)", limit: settings.pitchLimit_deg },
    { key: "bank_deg", label: "Bank (deg)", limit: settings.bankLimit_deg },
    ...(state === "free"
      ? []
      : [
          {
            key: "load_kN" as const,
            label: isLatched(state) ? "Change of socket or pin load (kN)" : "Change of socket load (kN)",
            limit: settings.loadLimit_kN,
          },
        ]),
    { key: "surface_deg", label: "Failed surface (deg)" },
  ];
}

function sampled({ time_s, ...values }: FailureHistory, key: Key): { x: number; y: number }[] {
  const stride = Math.max(1, Math.ceil(time_s.length / MOST_POINTS));
  return time_s
    .map((x, i) => ({ x, y: values[key][i]! }))
    .filter((_, i) => i % stride === 0 || i === time_s.length - 1);
}

const label = (action: FailureHistory["action"]): string => (action === "none" ? "no action" : action);

function panel(
  each: FailureCase,
  shown: Shown,
  settings: HoldControl["failureSettings"],
  until: number,
  width: number,
  dom: FigureDom,
): Panel {
  const curves = each.histories.map((history, i) => ({ points: sampled(history, shown.key), style: curveStyle(i) }));
  const values = curves.flatMap(({ points }) => points.filter(({ x }) => x <= until).map(({ y }) => y));
  const { limit } = shown;
  const lines = limit === undefined ? [] : shown.key === "load_kN" ? [limit] : [limit, -limit];
  const [from, to] = padded([0, ...values, ...lines], 0.08);
  const frame: Frame = {
    ...{ width, height: 200, margins: { left: 58, right: 14, top: 6, bottom: 46 } },
    x: { label: "Time after the failure (s)", from: 0, to: until, log: false },
    y: { label: shown.label, from, to, log: false },
  };
  const marks = [
    Plot.ruleX([settings.recognition_s], { stroke: SLATE, strokeWidth: 1, strokeDasharray: "3 3" }),
    Plot.ruleY([0], { stroke: INK, strokeWidth: 0.6 }),
    Plot.ruleY(lines, { stroke: WARN, strokeWidth: 1.6 }),
    ...curves.map(({ points, style }) =>
      Plot.line(points, {
        ...{ x: "x", y: "y", stroke: style.stroke, strokeWidth: 1.8, strokeDasharray: style.dash, clip: true },
      }),
    ),
    ...curves.map(({ points, style }) =>
      Plot.dot(
        points.slice(-1).filter(({ x }) => x <= until),
        { x: "x", y: "y", symbol: style.symbol, r: 4.2, fill: style.stroke, stroke: "white" },
      ),
    ),
  ];
  return { svg: plotFrame(frame, marks, dom), width, height: frame.height };
}

function sentence(each: FailureCase): string {
  const first = `without action ${each.limit ?? "the model's end"} is reached after ${formatFixed(each.timeToLimit_s ?? 0, 2)} s`;
  const actions = each.recoveries.map(({ action, outcome }) => `${action}: ${outcome}`);
  return [first, ...actions].join("; ");
}

/** One failure with its time histories: pitch, bank, socket load when hooked, and the failed surface. */
export function failureFigure(
  id: string,
  variant: string,
  each: FailureCase,
  settings: HoldControl["failureSettings"],
  dom: FigureDom,
): Figure | null {
  if (each.histories.length === 0) return null;
  const ends = each.histories.map(({ time_s }) => time_s.at(-1) ?? 0);
  const until = Math.min(Math.max(...ends), Math.max(4 * (each.timeToLimit_s ?? 0), 3 * settings.recognition_s));
  const shown = panelsOf(each, settings);
  const what = `${each.kind} of the ${each.function}${each.detail === "" ? "" : ` (${each.detail})`}`;
  const where = `${each.state === "free" ? "free" : `hooked, ${each.state}`}, ${each.condition} × ${each.mass}`;
  return composeFigure({
    id,
    title: `Failure that reaches a limit first, ${where} (${variant})`,
    caption:
      `Nonlinear simulation, ${variant}, ${where}: ${what}. The dashed upright line is the recognition time, solid level lines the ` +
      `limits; a symbol ends each case. Outcome: ${sentence(each)}.`,
    description: `Time histories after a ${what}, ${where}. ${sentence(each)}.`,
    panels: shown.map((one) => panel(each, one, settings, until, 380, dom)),
    columns: 2,
    legend: each.histories.map(({ action }, i) => {
      const { stroke, dash, symbol } = curveStyle(i);
      return { kind: "line" as const, label: label(action), stroke, dash, symbol, fill: stroke, width: 1.8 };
    }),
  });
}
