/** Figure of the plan of hook-on trials that may end early. */
import * as Plot from "@observablehq/plot";
import type { ClaimsResult, SequentialResult } from "../../studies/hookon-claims/types.ts";
import { formatFixed, formatShort } from "../numbers/index.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Frame, plotFrame } from "./frame.ts";
import { curveStyle, INK, SLATE, WARN } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const MARGINS = { left: 62, right: 16, top: 8, bottom: 46 };

const percent = (share: number, digits = 0): string => `${formatFixed(100 * share, digits)} %`;

/** The plan that may end early: its lines with the attempts flown, acceptance and expected attempts over the share. */
export function sequentialFigure(id: string, variant: string, result: ClaimsResult, dom: FigureDom): Figure | null {
  const plan = result.sequential;
  if (plan === null) return null;
  const told = `${percent(plan.acceptable_1)} refused with ${percent(plan.refusingGood_1, 1)}, ${percent(plan.unacceptable_1)} accepted with ${percent(plan.acceptingBad_1, 1)}; expected attempts ${formatFixed(plan.expectedAtAcceptable, 1)} and ${formatFixed(plan.expectedAtUnacceptable, 1)}`;
  const flown = result.classes.filter(({ failuresAfter }) => failuresAfter.length > 0);
  return composeFigure({
    id,
    title: `Plan of trials that may end early (${variant})`,
    caption: `Left: accepted below the lower, refused above the upper line, with the attempts flown, class by class. Right: operating characteristic, exact. ${told}.`,
    description: `Failures against attempts with the two lines of decision; probability of acceptance and expected attempts against the true share. ${told}.`,
    panels: [pathPanel(plan, result, dom), curvePanel(plan, dom)],
    columns: 2,
    legend: [
      { kind: "line", label: "refuse from here", stroke: WARN, width: 2 },
      { kind: "line", label: "accept up to here", stroke: INK, width: 2, dash: "9 4" },
      ...flown.map(({ name }, i) => {
        const { stroke, dash, symbol } = curveStyle(i);
        return { kind: "line" as const, label: name, stroke, dash, width: 1.6, symbol, fill: "#ffffff" };
      }),
      { kind: "line", label: "probability of acceptance", stroke: "#2459a8", width: 2.2 },
      { kind: "line", label: "expected attempts", stroke: "#b9530e", width: 2.2, dash: "9 4" },
      { kind: "line", label: "acceptable and unacceptable share", stroke: SLATE, width: 1.2, dash: "2 3" },
    ],
  });
}

function pathPanel(plan: SequentialResult, { classes }: ClaimsResult, dom: FigureDom): Panel {
  const n = plan.acceptAt.map((_, i) => i);
  const refuse = n.filter((i) => plan.refuseAt[i]! <= i).map((i) => ({ x: i, y: plan.refuseAt[i]! }));
  const accept = n.filter((i) => plan.acceptAt[i]! >= 0).map((i) => ({ x: i, y: plan.acceptAt[i]! }));
  const paths = classes
    .filter(({ failuresAfter }) => failuresAfter.length > 0)
    .map(({ failuresAfter }, i) => ({
      style: curveStyle(i),
      points: [{ x: 0, y: 0 }, ...failuresAfter.slice(0, plan.most).map((y, k) => ({ x: k + 1, y }))],
    }));
  const top = Math.max(...refuse.map(({ y }) => y), ...paths.flatMap(({ points }) => points.map(({ y }) => y))) + 1;
  const frame: Frame = {
    width: WIDTH / 2,
    height: 300,
    margins: MARGINS,
    x: { label: "Attempts (–)", from: 0, to: plan.most, log: false },
    y: { label: "Failures (–)", from: -0.5, to: top, log: false, ticks: wholes(top) },
  };
  const marks = [
    Plot.line(refuse, { x: "x", y: "y", curve: "step-after", stroke: WARN, strokeWidth: 2 }),
    Plot.line(accept, { x: "x", y: "y", curve: "step-after", stroke: INK, strokeWidth: 2, strokeDasharray: "9 4" }),
    ...paths.flatMap(({ points, style: { stroke, dash, symbol } }) => [
      Plot.line(points, { x: "x", y: "y", stroke, strokeWidth: 1.6, strokeDasharray: dash }),
      Plot.dot([points.at(-1)!], { x: "x", y: "y", symbol, r: 4, fill: "white", stroke, strokeWidth: 1.6 }),
    ]),
  ];
  return {
    svg: plotFrame(frame, marks, dom),
    width: frame.width,
    height: frame.height,
    heading: `Decides after ${plan.most} attempts at the latest`,
  };
}

function wholes(top: number): number[] {
  const step = Math.max(1, Math.ceil(top / 8));
  return Array.from({ length: Math.floor(top / step) + 1 }, (_, i) => i * step);
}

/** Acceptance in percent, and expected attempts as percent of the most, in one frame. */
function curvePanel(plan: SequentialResult, dom: FigureDom): Panel {
  const at = plan.share_1.map((share, i) => ({
    x: 100 * share,
    accept: 100 * plan.accept_1[i]!,
    attempts: (100 * plan.expectedAttempts[i]!) / plan.most,
  }));
  const frame: Frame = {
    width: WIDTH / 2,
    height: 300,
    margins: MARGINS,
    x: { label: "True probability of capture (%)", from: at[0]!.x, to: 100, log: false },
    y: { label: `Acceptance (%); attempts (% of ${formatShort(plan.most)})`, from: 0, to: 100, log: false },
  };
  const marks = [
    Plot.ruleX([100 * plan.acceptable_1, 100 * plan.unacceptable_1], {
      ...{ stroke: SLATE, strokeWidth: 1.2, strokeDasharray: "2 3" },
    }),
    Plot.line(at, { x: "x", y: "accept", stroke: "#2459a8", strokeWidth: 2.2 }),
    Plot.line(at, { x: "x", y: "attempts", stroke: "#b9530e", strokeWidth: 2.2, strokeDasharray: "9 4" }),
  ];
  return {
    svg: plotFrame(frame, marks, dom),
    width: frame.width,
    height: frame.height,
    heading: "Operating characteristic",
  };
}
