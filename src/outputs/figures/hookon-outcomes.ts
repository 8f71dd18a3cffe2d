/** Figures: shares of the outcomes by case, and success by turbulence and controller. */
import * as Plot from "@observablehq/plot";
import type { HookonCase, HookonResult } from "../../studies/hookon/types.ts";
import { caseWords } from "../names/index.ts";
import { formatFixed, formatShort } from "../numbers/index.ts";
import { composeFigure } from "./compose.ts";
import { type Frame, plotFrame } from "./frame.ts";
import { areaFill, areaLegend, areaPatterns, inOrder, isPlain } from "./hookon-marks.ts";
import { curveStyle, INK, WARN } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const ROW = 28;

const percent = (share: number): string => `${formatFixed(100 * share, 1)} %`;

/** A bar for each case, cut into its outcomes, with the exact interval of the success. */
export function outcomeFigure(id: string, result: HookonResult, dom: FigureDom): Figure | null {
  const { cases, variant, criteria, confidence_1 } = result;
  if (cases.length === 0) return null;
  const parts = cases.flatMap((each, row) => {
    let x = 0;
    return each.outcomes.map(({ outcome, share_1 }) => {
      const part = { outcome, row, x1: 100 * x, x2: 100 * (x + share_1), text: share_1 < 0.05 ? "" : percent(share_1) };
      x += share_1;
      return part;
    });
  });
  const outcomes = inOrder(parts.filter(({ x2, x1 }) => x2 > x1).map(({ outcome }) => outcome));
  const frame: Frame = {
    ...{ width: WIDTH, height: ROW * cases.length + 56, margins: { left: 240, right: 16, top: 6, bottom: 46 } },
    x: { label: "Share of the approaches (%)", from: 0, to: 100, log: false },
    y: {
      ...{ label: "", from: cases.length - 0.5, to: -0.5, log: false, ticks: cases.map((_, i) => i) },
      format: (row) => caseWords(cases[row]!),
    },
  };
  const bounds = cases.map(({ success }, row) => ({
    ...{ row, x: 100 * success.share_1 },
    ...{ x1: 100 * success.exact_1.lower, x2: 100 * success.exact_1.upper },
  }));
  const marks = [
    ...outcomes.map((outcome) =>
      Plot.rect(
        parts.filter((part) => part.outcome === outcome && part.x2 > part.x1),
        {
          ...{ x1: "x1", x2: "x2", fill: areaFill(id, outcome), stroke: INK, strokeWidth: 0.7 },
          y1: ({ row }: { row: number }) => row - 0.36,
          y2: ({ row }: { row: number }) => row + 0.36,
        },
      ),
    ),
    Plot.text(parts, {
      x: ({ x1, x2 }: { x1: number; x2: number }) => 0.5 * (x1 + x2),
      ...{ y: "row", text: "text", dy: 5, fill: INK, fontSize: 10, stroke: "white", strokeWidth: 3 },
    }),
    Plot.ruleX([100 * criteria.success_1], { stroke: WARN, strokeWidth: 1.6, strokeDasharray: "8 4" }),
    Plot.link(bounds, { x1: "x1", x2: "x2", y1: "row", y2: "row", stroke: INK, strokeWidth: 2.2, dy: -7 }),
    Plot.dot(bounds, { x: "x1", y: "row", dy: -7, symbol: "diamond", r: 3, fill: INK }),
    Plot.dot(bounds, { x: "x2", y: "row", dy: -7, symbol: "diamond", r: 3, fill: INK }),
  ];
  const said = cases.map((each) => `${caseWords(each)} ${percent(each.success.share_1)}`).join("; ");
  return composeFigure({
    id,
    title: `What became of the approaches (${variant})`,
    caption: `${cases[0]!.samples} approaches for each case. Heavy line with diamonds: exact ${formatShort(100 * confidence_1)} % interval of the share that ends locked and stable; dashed: criterion ${percent(criteria.success_1)}.`,
    description: `A bar for each case, cut into shares of outcomes. Locked and stable: ${said}.`,
    panels: [{ svg: plotFrame(frame, marks, dom), width: WIDTH, height: frame.height }],
    legend: [
      ...areaLegend(id, outcomes, false),
      { kind: "line", label: "criterion", stroke: WARN, dash: "8 4", width: 1.6 },
      { kind: "line", label: "interval of success", stroke: INK, width: 2.2, symbol: "diamond", fill: INK },
    ],
    defs: areaPatterns(id, outcomes),
  });
}

/** Success against the intensity of turbulence, a curve for each controller, with exact intervals. */
export function successFigure(id: string, result: HookonResult, dom: FigureDom): Figure | null {
  const plain = result.cases.filter(isPlain);
  const sigmas = [...new Set(plain.map(({ sigma_m_s }) => sigma_m_s))].sort((a, b) => a - b);
  if (sigmas.length < 2) return null;
  const controllers = [...new Set(plain.map(({ controller }) => controller))];
  const most = sigmas.at(-1)!;
  const curves = controllers.map((controller, i) => ({
    controller,
    style: curveStyle(i),
    points: plain
      .filter((each) => each.controller === controller)
      .sort((a, b) => a.sigma_m_s - b.sigma_m_s)
      .map(({ sigma_m_s, success }) => ({
        // side by side, so that the intervals do not hide each other
        x: sigma_m_s + 0.012 * most * (i - 0.5 * (controllers.length - 1)),
        y: 100 * success.share_1,
        low: 100 * success.exact_1.lower,
        high: 100 * success.exact_1.upper,
      })),
  }));
  const frame: Frame = {
    ...{ width: WIDTH, height: 290, margins: { left: 62, right: 20, top: 8, bottom: 46 } },
    x: { label: "Intensity of the vertical gusts σ (m/s)", from: 0, to: 1.08 * most, log: false },
    y: { label: "Locked and stable (%)", from: 0, to: 102, log: false },
  };
  const names = new Map(plain.map(({ sigma, sigma_m_s }) => [sigma_m_s, sigma]));
  const named = sigmas.map((sigma) => ({ sigma, name: names.get(sigma)! }));
  const marks = [
    Plot.ruleX(sigmas, { stroke: INK, strokeWidth: 0.5, strokeDasharray: "2 3" }),
    Plot.text(named, {
      ...{ x: "sigma", y: 100, text: "name", rotate: -90, textAnchor: "end", dx: -6 },
      ...{ fill: INK, stroke: "white", strokeWidth: 3 },
    }),
    Plot.ruleY([100 * result.criteria.success_1], { stroke: WARN, strokeWidth: 1.6, strokeDasharray: "8 4" }),
    ...curves.flatMap(({ points, style: { stroke, dash, symbol } }) => [
      Plot.link(points, { x1: "x", x2: "x", y1: "low", y2: "high", stroke, strokeWidth: 1.6 }),
      Plot.line(points, { x: "x", y: "y", stroke, strokeWidth: 2, strokeDasharray: dash }),
      Plot.dot(points, { x: "x", y: "y", symbol, r: 4.6, fill: "white", stroke, strokeWidth: 1.8 }),
    ]),
  ];
  const said = plain.map((each) => `${caseWords(each)} ${percent(each.success.share_1)}`).join("; ");
  return composeFigure({
    id,
    title: `Success by turbulence and controller (${result.variant})`,
    caption: `Share of approaches that end locked and stable, with exact ${formatShort(100 * result.confidence_1)} % intervals. ${said}.`,
    description: `Curves of success against turbulence. ${said}.`,
    panels: [{ svg: plotFrame(frame, marks, dom), width: WIDTH, height: frame.height }],
    legend: [
      ...curves.map(({ controller, style: { stroke, dash, symbol } }) => ({
        ...{ kind: "line" as const, label: controller, stroke, dash, symbol, fill: "#ffffff", width: 2 },
      })),
      { kind: "line", label: "criterion", stroke: WARN, dash: "8 4", width: 1.6 },
    ],
  });
}

/** The case in which the criteria must hold: design turbulence, first controller. */
export function designCase(result: HookonResult): HookonCase | null {
  const plain = result.cases.filter(isPlain);
  return plain.find(({ sigma }) => sigma === result.design) ?? plain[0] ?? null;
}
