/** Figure: what becomes of a straight approach, over offset and closure. */
import * as Plot from "@observablehq/plot";
import type { CaptureMap } from "../../studies/hookon/types.ts";
import { formatFixed, formatShort } from "../numbers/index.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Frame, plotFrame } from "./frame.ts";
import { areaFill, areaLegend, areaPatterns, inOrder, OUTCOME_LOOKS } from "./hookon-marks.ts";
import { INK, WARN } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 380;
const HEIGHT = 290;

/** Borders half way between the nodes. */
function edges(values: readonly number[]): number[] {
  const inner = values.slice(1).map((value, i) => 0.5 * (value + values[i]!));
  const [first, last] = [values[0]!, values.at(-1)!];
  return [Math.max(0, first - (inner[0]! - first)), ...inner, last + (last - inner.at(-1)!)];
}

function panel(id: string, map: CaptureMap, window: readonly (number | null)[], dom: FigureDom): Panel {
  const [x, y] = [edges(map.offset_m.map((value) => 1000 * value)), edges(map.closure_m_s)];
  const cells = map.outcome.flatMap((row, i) =>
    row.map((outcome, j) => ({ outcome, x1: x[j]!, x2: x[j + 1]!, y1: y[i]!, y2: y[i + 1]! })),
  );
  const frame: Frame = {
    ...{ width: WIDTH, height: HEIGHT, margins: { left: 54, right: 10, top: 6, bottom: 46 } },
    x: { label: "Offset of the path from the axis (mm)", from: x[0]!, to: x.at(-1)!, log: false },
    y: { label: "Closure (m/s)", from: y[0]!, to: y.at(-1)!, log: false },
  };
  const marks = [
    ...inOrder(cells.map(({ outcome }) => outcome)).map((outcome) =>
      Plot.rect(
        cells.filter((cell) => cell.outcome === outcome),
        { x1: "x1", x2: "x2", y1: "y1", y2: "y2", fill: areaFill(id, outcome), stroke: "white", strokeWidth: 0.6 },
      ),
    ),
    Plot.text(cells, {
      x: ({ x1, x2 }: { x1: number; x2: number }) => 0.5 * (x1 + x2),
      y: ({ y1, y2 }: { y1: number; y2: number }) => 0.5 * (y1 + y2),
      text: ({ outcome }: (typeof cells)[number]) => OUTCOME_LOOKS[outcome].letter,
      ...{ fill: INK, fontSize: 10, stroke: "white", strokeWidth: 2.5 },
    }),
    Plot.ruleY(
      window.filter((end): end is number => end !== null && end > frame.y.from && end < frame.y.to),
      { stroke: WARN, strokeWidth: 1.8, strokeDasharray: "8 4" },
    ),
  ];
  const heading = `Path at ${formatShort(map.angle_deg)}° to the axis`;
  return { svg: plotFrame(frame, marks, dom), width: WIDTH, height: HEIGHT, heading };
}

function sentence({ angle_deg, captureRadius_m }: CaptureMap): string {
  const reach =
    captureRadius_m === null ? "nothing latches" : `latches out to ${formatFixed(1000 * captureRadius_m, 0)} mm`;
  return `at ${formatShort(angle_deg)}°: ${reach}`;
}

/** Straight approaches in still air: outcome over offset and closure, a panel for each angle. */
export function captureMapFigure(
  id: string,
  variant: string,
  maps: readonly CaptureMap[],
  window: { readonly lower_m_s: number | null; readonly upper_m_s: number | null },
  dom: FigureDom,
): Figure | null {
  if (maps.length === 0) return null;
  const outcomes = inOrder(maps.flatMap(({ outcome }) => outcome.flat()));
  const said = maps.map(sentence).join("; ");
  return composeFigure({
    id,
    title: `Capture map: offset and closure of a straight path (${variant})`,
    caption: `Straight paths in still air, controls and commands of the approach left out; the letter in a cell says what became of it. Dashed: closure window on the axis, from simulation. ${said}.`,
    description: `Maps of outcomes, offset across and closure up. ${said}.`,
    panels: maps.map((map) => panel(id, map, [window.lower_m_s, window.upper_m_s], dom)),
    columns: 2,
    legend: [
      ...areaLegend(id, outcomes, true),
      { kind: "line", label: "closure window", stroke: WARN, dash: "8 4", width: 1.8 },
    ],
    defs: areaPatterns(id, outcomes),
  });
}
