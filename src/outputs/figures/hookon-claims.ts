/** Figures of what trials of hook-on may claim: shares by class, attempts to carry. */
import * as Plot from "@observablehq/plot";
import type { ClaimClass, ClaimsResult } from "../../studies/hookon-claims/types.ts";
import { formatFixed } from "../numbers/index.ts";
import { composeFigure, type LegendItem } from "./compose.ts";
import { type Axis, type Frame, plotFrame } from "./frame.ts";
import { areaStyle, curveStyle, INK, pattern, SLATE, WARN } from "./style.ts";
import { fitText } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const ROW = 46;
const BAR_MARGINS = { left: 176, right: 190, top: 8, bottom: 46 };
const MARGINS = { left: 62, right: 16, top: 8, bottom: 46 };

const percent = (share: number, digits = 0): string => `${formatFixed(100 * share, digits)} %`;

/** Words of a verdict beside its bar. */
function verdictText({ verdict, further }: ClaimClass): string {
  if (verdict === "demonstrated") return "demonstrated";
  if (verdict === "shown to fall short") return "shown to fall short";
  if (verdict === "no attempts") return further === null ? "no attempts" : `no attempts; ${further} without failure`;
  return further === null ? "not demonstrated" : `${further} more without failure`;
}

/** Share of captures of each class with its exact interval, posterior and target. */
export function claimsFigure(id: string, variant: string, result: ClaimsResult, dom: FigureDom): Figure {
  const { classes, confidence_1 } = result;
  const y: Axis = {
    label: "",
    from: classes.length - 0.5,
    to: -0.5,
    log: false,
    ticks: classes.map((_, i) => i),
    format: (i) => {
      const { name, estimate } = classes[i]!;
      return fitText(`${name}: ${estimate.hits} of ${estimate.of}`, BAR_MARGINS.left - 20);
    },
  };
  const frame: Frame = {
    width: WIDTH,
    height: ROW * classes.length + BAR_MARGINS.top + BAR_MARGINS.bottom,
    margins: BAR_MARGINS,
    x: { label: "Probability of capture in one attempt (%)", from: 0, to: 100, log: false },
    y,
  };
  const rows = classes.map((claim, i) => ({ claim, i, end: 100 }));
  const flown = rows.filter(({ claim }) => claim.estimate.of > 0);
  const predicted = rows.filter(({ claim }) => claim.prediction !== null);
  const ends = flown.flatMap(({ claim: { estimate }, i }) =>
    [estimate.lower_1, estimate.upper_1].map((x) => ({ x: 100 * x, i })),
  );
  const marks = [
    Plot.rect(rows, {
      x1: ({ claim }) => 100 * claim.estimate.posterior.lower_1,
      x2: ({ claim }) => 100 * claim.estimate.posterior.upper_1,
      y1: ({ i }) => i + 0.12,
      y2: ({ i }) => i + 0.34,
      ...{ fill: `url(#${id}-posterior)`, stroke: SLATE, strokeWidth: 0.7 },
    }),
    Plot.link(flown, {
      x1: ({ claim }) => 100 * claim.estimate.lower_1,
      x2: ({ claim }) => 100 * claim.estimate.upper_1,
      ...{ y1: "i", y2: "i", dy: -8, stroke: INK, strokeWidth: 2 },
    }),
    Plot.dot(ends, { x: "x", y: "i", dy: -8, r: 2.6, fill: INK }),
    Plot.dot(flown, {
      x: ({ claim }) => 100 * claim.estimate.share_1!,
      ...{ y: "i", dy: -8, symbol: "circle", r: 4.6, fill: "white", stroke: INK, strokeWidth: 1.8 },
    }),
    Plot.dot(predicted, {
      x: ({ claim }) => 100 * claim.prediction!.share_1,
      ...{ y: "i", dy: -8, symbol: "diamond", r: 5, fill: "white", stroke: "#2459a8", strokeWidth: 1.8 },
    }),
    Plot.link(rows, {
      x1: ({ claim }) => 100 * claim.target_1,
      x2: ({ claim }) => 100 * claim.target_1,
      y1: ({ i }) => i - 0.42,
      y2: ({ i }) => i + 0.42,
      ...{ stroke: WARN, strokeWidth: 2.4 },
    }),
    Plot.text(rows, {
      x: "end",
      y: "i",
      text: ({ claim }) => verdictText(claim),
      ...{ textAnchor: "start", dx: 10, fill: INK, fontSize: 12 },
    }),
  ];
  const told = classes
    .map(({ name, estimate, verdict, target_1 }) =>
      estimate.of === 0
        ? `${name}: no attempts`
        : `${name}: at least ${percent(estimate.lower_1)} for ${percent(target_1)}, ${verdict}`,
    )
    .join("; ");
  const legend: LegendItem[] = [
    { kind: "symbol", label: "share seen", symbol: "circle", fill: "#ffffff", stroke: INK },
    { kind: "line", label: `exact bounds, each with ${percent(confidence_1)}`, stroke: INK, width: 2 },
    { kind: "area", label: "posterior, beta prior", fill: `url(#${id}-posterior)`, stroke: SLATE },
    { kind: "line", label: "target", stroke: WARN, width: 2.4 },
    ...(predicted.length === 0
      ? []
      : [{ kind: "symbol", label: "simulated", symbol: "diamond", fill: "#ffffff", stroke: "#2459a8" } as const]),
  ];
  const { tint, hatch } = areaStyle(1);
  return composeFigure({
    id,
    title: `What the attempts claim, by turbulence (${variant})`,
    caption: `A class is demonstrated when the left end of its line reaches the target. ${told}.`,
    description: `One row for each class of turbulence with share, exact bounds, posterior and target. ${told}.`,
    panels: [{ svg: plotFrame(frame, marks, dom), width: frame.width, height: frame.height }],
    legend,
    defs: pattern(`${id}-posterior`, hatch, tint, "#39404a", 0.4),
  });
}

/** Attempts needed over the share, with each class from its lower bound to its share. */
export function attemptsFigure(id: string, variant: string, result: ClaimsResult, dom: FigureDom): Figure | null {
  const { recovery_1, attemptsCarried } = result;
  const flown = result.classes.filter(({ estimate }) => estimate.of > 0 && estimate.lower_1 > 0);
  if (flown.length === 0) return null;
  const least = Math.min(...flown.map(({ estimate }) => estimate.lower_1));
  const from = Math.max(0.02, Math.floor(20 * (least - 0.02)) / 20);
  // one step for each whole number of attempts: from the least share for which it is enough
  const shareFor = (n: number): number => -Math.expm1(Math.log1p(-recovery_1) / n);
  const top = Math.ceil(Math.log1p(-recovery_1) / Math.log1p(-from)) + 1;
  const corners: { x: number; y: number }[] = [{ x: 100, y: 1 }];
  for (let n = 1; n <= top; n++) {
    corners.push({ x: 100 * shareFor(n), y: n }, { x: 100 * shareFor(n), y: n + 1 });
  }
  const steps = corners.filter(({ x }) => x >= 100 * from);
  const last = steps.at(-1)!;
  steps.push({ x: 100 * from, y: last.y });
  const height = Math.max(last.y, attemptsCarried ?? 0) + 1.5;
  const frame: Frame = {
    width: WIDTH,
    height: 340,
    margins: MARGINS,
    x: { label: "Probability of capture in one attempt (%)", from: 100 * from, to: 100, log: false },
    y: { label: "Attempts to carry fuel for (–)", from: 0, to: height, log: false },
  };
  const spans = flown.map(({ name, estimate, attempts }, i) => ({
    ...{ name, style: curveStyle(i), x1: 100 * estimate.lower_1, y1: attempts.atLower! },
    ...{ x2: 100 * estimate.share_1!, y2: attempts.atShare! },
  }));
  const marks = [
    ...(attemptsCarried === null
      ? []
      : [Plot.ruleY([attemptsCarried], { stroke: WARN, strokeWidth: 1.8, strokeDasharray: "9 4" })]),
    Plot.line(steps, { x: "x", y: "y", stroke: SLATE, strokeWidth: 1.6 }),
    ...spans.flatMap(({ style, x1, y1, x2, y2 }) => [
      Plot.link([{ x1, y1, x2, y2 }], {
        ...{ x1: "x1", y1: "y1", x2: "x2", y2: "y2", stroke: style.stroke },
        ...{ strokeWidth: 2, strokeDasharray: style.dash },
      }),
      Plot.dot([{ x: x2, y: y2 }], {
        x: "x",
        y: "y",
        symbol: style.symbol,
        r: 4.4,
        fill: "white",
        stroke: style.stroke,
      }),
      Plot.dot([{ x: x1, y: y1 }], { x: "x", y: "y", symbol: style.symbol, r: 5.4, fill: style.stroke, stroke: INK }),
    ]),
  ];
  const told = flown
    .map(({ name, attempts }) => `${name} ${attempts.atLower} at its lower bound, ${attempts.atShare} at its share`)
    .join("; ");
  return composeFigure({
    id,
    title: `Attempts for at least one capture with ${percent(recovery_1, recovery_1 > 0.99 ? 1 : 0)} (${variant})`,
    caption: `Filled: at the demonstrated lower bound, which is the number to carry fuel for; open: at the share seen. ${told}.`,
    description: `Falling steps of attempts against the probability of capture, with each class from its lower bound to its share. ${told}.`,
    panels: [{ svg: plotFrame(frame, marks, dom), width: frame.width, height: frame.height }],
    legend: [
      { kind: "line", label: "attempts needed", stroke: SLATE, width: 1.6 },
      ...spans.map(({ name, style }) => ({
        ...{ kind: "line" as const, label: name, stroke: style.stroke, dash: style.dash, width: 2 },
        ...{ symbol: style.symbol, fill: style.stroke },
      })),
      ...(attemptsCarried === null
        ? []
        : [{ kind: "line" as const, label: "fuel carried for", stroke: WARN, dash: "9 4", width: 1.8 }]),
    ],
  });
}
