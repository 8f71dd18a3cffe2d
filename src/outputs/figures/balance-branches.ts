/** Figure: balances of the hooked pair against airspeed, line style by stability. */
import * as Plot from "@observablehq/plot";
import type { BalancePoint, BranchFamily } from "../../studies/hold-equilibrium/types.ts";
import { formatFixed } from "../numbers/index.ts";
import { composeFigure, type LegendItem, type Panel } from "./compose.ts";
import { type Frame, padded, plotFrame } from "./frame.ts";
import { type CurveStyle, curveStyle, INK, WARN } from "./style.ts";
import { fitText } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const MARGINS = { left: 62, right: 16, top: 6 };

type State = "stable" | "oscillates" | "diverges" | "unknown";

/** Dash of each state: the four must be told apart without colour. */
const DASHES: Readonly<Record<State, string>> = {
  stable: "none",
  oscillates: "7 4",
  diverges: "2 3",
  unknown: "12 3 2 3",
};
const WORDS: Readonly<Record<State, string>> = {
  stable: "stable",
  oscillates: "an oscillation grows",
  diverges: "a real root grows",
  unknown: "not resolved",
};

function stateOf({ growing, diverging }: BalancePoint): State {
  if (growing === null) return "unknown";
  return growing === 0 ? "stable" : diverging === true ? "diverges" : "oscillates";
}

/** Runs of one state; each run begins where the one before ended. */
function runsOf(
  points: readonly BalancePoint[],
): { readonly state: State; readonly points: readonly BalancePoint[] }[] {
  const runs: { state: State; points: BalancePoint[] }[] = [];
  points.forEach((point, i) => {
    const state = stateOf(point);
    const last = runs.at(-1);
    if (last !== undefined && last.state === state) last.points.push(point);
    else runs.push({ state, points: i === 0 ? [point] : [points[i - 1]!, point] });
  });
  return runs;
}

interface Shown {
  readonly family: BranchFamily;
  readonly style: CurveStyle;
}

function panel(
  shown: readonly Shown[],
  label: string,
  read: (point: BalancePoint) => number,
  last: boolean,
  dom: FigureDom,
): Panel {
  const all = shown.flatMap(({ family }) => family.branches.flatMap(({ points }) => points));
  const [from, to] = padded(all.map(read), 0.08);
  const speeds = all.map((point) => point.airspeed_m_s_EAS);
  const bottom = last ? 46 : 12;
  const height = MARGINS.top + 170 + bottom;
  const x = { label: "Airspeed, EAS (m/s)", from: Math.min(...speeds), to: Math.max(...speeds), log: false };
  const frame: Frame = {
    width: WIDTH,
    height,
    margins: { ...MARGINS, bottom },
    x: last ? x : { ...x, label: "", format: () => "" },
    y: { label, from, to, log: false },
  };
  const at = (point: BalancePoint) => ({ x: point.airspeed_m_s_EAS, y: read(point) });
  const marks = shown.flatMap(({ family, style }) =>
    family.branches.flatMap(({ points }) => [
      ...runsOf(points).map((run) =>
        Plot.line(run.points.map(at), {
          ...{ x: "x", y: "y", stroke: style.stroke, strokeDasharray: DASHES[run.state], clip: true },
          strokeWidth: run.state === "stable" ? 2.4 : 2,
        }),
      ),
      Plot.dot(points.filter((_, i) => i % 6 === 3).map(at), {
        ...{ x: "x", y: "y", symbol: style.symbol, r: 3.4, fill: "white", stroke: style.stroke, strokeWidth: 1.4 },
      }),
      Plot.dot(points.filter((point) => point.stallMargin < 0).map(at), {
        ...{ x: "x", y: "y", symbol: "times", r: 3.2, stroke: WARN, strokeWidth: 1.1 },
      }),
    ]),
  );
  return { svg: plotFrame(frame, marks, dom), width: WIDTH, height };
}

/** What the caption says of the families: balances, where they meet, which states occur. */
function spoken(families: readonly BranchFamily[]): string {
  return families
    .map(({ mass, atCondition, folds_m_s_EAS: folds }) => {
      const meet =
        folds.length === 0 ? "" : `, two meeting at ${folds.map((v) => `${formatFixed(v, 1)} m/s`).join(" and ")}`;
      return `mass ${mass}: ${atCondition} at the condition${meet}`;
    })
    .join("; ");
}

/**
 * Angle of attack and boom angle of every balance against airspeed, the jack at its length; solid where stable, dashed where an
 * oscillation grows, dotted where a real root grows; crosses beyond the stall.
 *
 * @param families of one variant, condition and way of holding the elevator; nothing for none
 */
export function balanceFigure(
  id: string,
  variant: string,
  families: readonly BranchFamily[],
  dom: FigureDom,
): Figure | null {
  const shown = families
    .filter(({ branches }) => branches.length > 0)
    .map((family, i) => ({ family, style: curveStyle(i) }));
  if (shown.length === 0) return null;
  const { condition, elevator } = families[0]!;
  const states = new Set(shown.flatMap(({ family }) => family.branches.flatMap(({ points }) => points.map(stateOf))));
  const held = elevator === "fixed" ? "elevator as at trim" : "elevator holding the weight share";
  const legend: LegendItem[] = [
    ...shown.map(({ family, style }) => ({
      ...{ kind: "line" as const, label: `mass ${fitText(family.mass, 120)}`, stroke: style.stroke, width: 2.4 },
      ...{ symbol: style.symbol, fill: "#ffffff" },
    })),
    ...(Object.keys(DASHES) as State[])
      .filter((state) => states.has(state))
      .map((state) => ({ kind: "line" as const, label: WORDS[state], stroke: INK, dash: DASHES[state], width: 2 })),
  ];
  return composeFigure({
    id,
    title: `Balances against airspeed, ${held} (${variant}, condition ${condition})`,
    caption:
      `Every balance of the hooked pair with the jack left at its length, ${held}. Solid: stable; dashed: an oscillation grows; dotted: a real ` +
      `root grows; crosses: beyond the largest lift coefficient. Balances: ${spoken(families)}.`,
    description: `Two panels of curves against airspeed: angle of attack and boom angle. ${spoken(families)}.`,
    panels: [
      panel(shown, "Angle of attack (°)", (point) => point.alpha_deg, false, dom),
      panel(shown, "Boom angle (°)", (point) => point.boomAngle_deg, true, dom),
    ],
    legend,
  });
}
