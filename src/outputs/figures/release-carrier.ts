/** Figure: what the carrier feels in the normal release. */
import * as Plot from "@observablehq/plot";
import type { CarrierAnswer } from "../../studies/release/types.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Frame, padded, plotFrame } from "./frame.ts";
import { curveStyle, INK, WARN } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 380;
const HEIGHT = 200;

function panel(
  answers: readonly CarrierAnswer[],
  label: string,
  values: (answer: CarrierAnswer) => readonly number[],
  limits: readonly number[],
  dom: FigureDom,
): Panel {
  const lines = answers.map((answer, i) => ({
    style: curveStyle(i),
    at: answer.time_s.map((x, k) => ({ x, y: values(answer)[k]! })),
  }));
  const [from, to] = padded([0, ...limits, ...lines.flatMap(({ at }) => at.map(({ y }) => y))], 0.08);
  const until = Math.max(...answers.flatMap(({ time_s }) => time_s));
  const frame: Frame = {
    ...{ width: WIDTH, height: HEIGHT, margins: { left: 56, right: 10, top: 6, bottom: 44 } },
    x: { label: "Time from the command (s)", from: 0, to: until, log: false },
    y: { label, from, to, log: false },
  };
  const marks = [
    Plot.ruleY([0], { stroke: INK, strokeWidth: 0.6 }),
    Plot.ruleY([...limits], { stroke: WARN, strokeWidth: 1.4, strokeDasharray: "8 4" }),
    ...lines.map(({ style: { stroke, dash }, at }) =>
      Plot.line(at, { x: "x", y: "y", stroke, strokeWidth: 1.7, strokeDasharray: dash }),
    ),
  ];
  return { svg: plotFrame(frame, marks, dom), width: WIDTH, height: HEIGHT };
}

/** Load factor and pitch of the carrier in time; `null` on a steady carrier. */
export function carrierAnswerFigure(
  id: string,
  variant: string,
  carrier: readonly CarrierAnswer[],
  limit: number,
  dom: FigureDom,
): Figure | null {
  const answers = carrier.filter(({ time_s }) => time_s.length > 1);
  if (answers.length === 0) return null;
  return composeFigure({
    id,
    title: `What the carrier feels in the normal release, controls held (${variant})`,
    caption: "Change of its load factor and of its pitch from level flight with the aircraft on the mechanism.",
    description: `Load factor and pitch of the carrier in time for ${answers.map(({ mass }) => mass).join(", ")}.`,
    panels: [
      panel(answers, "Change of load factor", (answer) => answer.loadFactorCourse_1, [-limit, limit], dom),
      panel(answers, "Pitch (deg)", (answer) => answer.pitchCourse_deg, [], dom),
    ],
    columns: 2,
    legend: [
      ...answers.map(({ mass }, i) => ({
        ...{ kind: "line" as const, label: mass, stroke: curveStyle(i).stroke, dash: curveStyle(i).dash, width: 1.7 },
      })),
      { kind: "line", label: "criterion", stroke: WARN, dash: "8 4", width: 1.4 },
    ],
  });
}
