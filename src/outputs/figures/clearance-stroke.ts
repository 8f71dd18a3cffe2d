/** Figure: clearance of the tightest pairs against the boom angle, certified band and criteria. */
import * as Plot from "@observablehq/plot";
import type { ClearanceKind, FitResult, PairClearance } from "../../studies/fit/types.ts";
import { standing } from "../fit-tables/index.ts";
import { mirroredPairName, pairName, sidelessName } from "../names/index.ts";
import { formatFixed, formatShort } from "../numbers/index.ts";
import { composeFigure, type LegendItem } from "./compose.ts";
import { type Frame, plotFrame } from "./frame.ts";
import type { Point } from "./isolines.ts";
import { type LeaderLabel, leaderLabels } from "./leader-labels.ts";
import { densify } from "./near-labels.ts";
import { type CurveStyle, curveStyle, INK, pattern, WARN } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const HEIGHT = 380;
const MARGINS = { left: 58, right: 16, top: 8, bottom: 46 };
/** Pairs drawn; all of them are in the table. */
const MOST = 6;
/** The frame reaches to this many times the largest criterion. */
const REACH = 5;
/** Symbols along a curve. */
const SYMBOLS = 6;
const MILLI = 1e3;

/** Clearance after the worst-case stack less its criterion [m]; pairs without a criterion are compared with 0. */
function marginOf(one: PairClearance): number {
  return one.leastAfterStack_m.worst - (one.criterion?.value_m ?? 0);
}

interface Named {
  readonly pair: PairClearance;
  readonly name: string;
}

/** Solid pairs that were followed along the stroke, the one with the least margin first, mirrored ones that agree once. */
function tightestPairs(clearances: readonly PairClearance[], most: number): Named[] {
  const solid = clearances.filter((one) => !one.zone && one.alongStroke.length > 1);
  const names = new Map<string, Named>();
  for (const pair of [...solid].sort((a, b) => marginOf(a) - marginOf(b))) {
    const key = `${pair.pair.map(sidelessName).join("|")}|${Math.round(1e4 * pair.least_m)}`;
    const other = names.get(key);
    names.set(
      key,
      other === undefined ? { pair, name: pairName(pair.pair) } : { ...other, name: mirroredPairName(other.pair.pair) },
    );
  }
  return [...names.values()].slice(0, most);
}

interface Step {
  readonly x1: number;
  readonly x2: number;
  readonly lower: number;
  readonly upper: number;
}

/** Stretches of the stroke with their certified bounds less the stack [mm]; the last pose ends the last stretch. */
function stepsOf({ alongStroke }: PairClearance, stack: number): Step[] {
  return alongStroke.slice(0, -1).map((one, i) => ({
    x1: one.boomAngle_deg,
    x2: alongStroke[i + 1]!.boomAngle_deg,
    lower: (one.lower_m - stack) * MILLI,
    upper: (one.upper_m - stack) * MILLI,
  }));
}

interface Sample {
  readonly x: number;
  readonly y: number;
}

/** The lower bound as a staircase. */
function staircase(steps: readonly Step[]): Sample[] {
  return steps.flatMap(({ x1, x2, lower }) => [
    { x: x1, y: lower },
    { x: x2, y: lower },
  ]);
}

interface Limit {
  readonly kind: ClearanceKind;
  readonly value: number;
  readonly dash: string;
}

/** Criteria of the pairs, one for each kind and value. */
function limitsOf(clearances: readonly PairClearance[]): Limit[] {
  const found = new Map<string, Limit>();
  for (const { kind, criterion } of clearances) {
    if (criterion === null) continue;
    const value = criterion.value_m * MILLI;
    found.set(`${kind} ${value}`, { kind, value, dash: kind === "moving" ? "9 4" : "3 3" });
  }
  return [...found.values()].sort((a, b) => b.value - a.value);
}

const limitName = ({ kind, value }: Limit) =>
  `criterion, ${kind === "moving" ? "in motion" : "at rest (ends)"}: ${formatShort(value)} mm`;

function curveMarks(id: string, steps: readonly Step[], style: CurveStyle, index: number, top: number): unknown[] {
  const line = staircase(steps);
  const stride = Math.max(1, Math.round(steps.length / SYMBOLS));
  const dots = steps.flatMap(({ x1, x2, lower }, i) =>
    i % stride === Math.floor(stride / 2) && lower <= top ? [{ x: (x1 + x2) / 2, y: lower }] : [],
  );
  const band = steps.filter(({ lower }) => lower < top);
  return [
    Plot.rect(
      band.map((one) => ({ ...one, upper: Math.min(top, one.upper) })),
      { x1: "x1", x2: "x2", y1: "lower", y2: "upper", fill: `url(#${id}-band${index})`, stroke: "none" },
    ),
    Plot.line(line, {
      x: "x",
      y: "y",
      stroke: style.stroke,
      strokeWidth: 1.9,
      strokeDasharray: style.dash,
      clip: true,
    }),
    Plot.dot(dots, {
      x: "x",
      y: "y",
      symbol: style.symbol,
      r: 3.8,
      fill: "white",
      stroke: style.stroke,
      strokeWidth: 1.5,
    }),
  ];
}

/** Where gear and doors stand meanwhile. */
function still({ groups }: FitResult): string {
  return groups.length === 0 ? "" : ` (${standing(groups)})`;
}

function sentence({ pair: one, name }: Named): string {
  const limit = one.criterion === null ? "" : `, criterion ${formatShort(one.criterion.value_m * MILLI)} mm`;
  return `${name} ${formatFixed(one.leastAfterStack_m.worst * MILLI, 1)} mm at ${formatFixed(one.at.boomAngle_deg, 1)}°${limit}`;
}

/** Least clearance of the tightest pairs along the stroke: a staircase of the certified lower bound with its band. */
export function clearanceStrokeFigure(id: string, result: FitResult, dom: FigureDom): Figure | null {
  const pairs = tightestPairs(result.clearances, MOST);
  const first = pairs[0];
  if (first === undefined) return null;
  const limits = limitsOf(result.clearances.filter((one) => !one.zone));
  const drawn = pairs.map(({ pair, name }, i) => ({
    name,
    style: curveStyle(i),
    steps: stepsOf(pair, result.stack.worst_m),
    index: i,
  }));
  const angles = drawn.flatMap(({ steps }) => steps.flatMap(({ x1, x2 }) => [x1, x2]));
  const highest = Math.max(...drawn.flatMap(({ steps }) => steps.map(({ upper }) => upper)));
  const lowest = Math.min(...drawn.flatMap(({ steps }) => steps.map(({ lower }) => lower)));
  const wanted = REACH * Math.max(...limits.map(({ value }) => value), 20);
  const frame: Frame = {
    width: WIDTH,
    height: HEIGHT,
    margins: MARGINS,
    x: {
      label: "Boom angle below horizontal (deg), stowed → extended",
      from: Math.min(...angles),
      to: Math.max(...angles),
      log: false,
    },
    y: {
      label: "Clearance after the worst-case stack (mm)",
      from: lowest < 0 ? 1.12 * lowest : 0,
      to: Math.min(1.1 * highest, wanted),
      log: false,
    },
  };
  const worst = Math.max(0, ...limits.map(({ value }) => value));
  const shown = drawn.map(({ steps }) => staircase(steps).filter(({ y }) => y <= frame.y.to));
  const labels = drawn.map(({ name, style }, i): LeaderLabel => {
    const own = shown[i]!;
    const least = own.reduce((a, b) => (b.y < a.y ? b : a), own[0] ?? { x: frame.x.from, y: frame.y.to });
    return { text: name, at: [least.x, least.y], color: style.stroke, bold: true };
  });
  const obstacles = shown.flatMap((own) =>
    densify(
      frame,
      own.map(({ x, y }): Point => [x, y]),
    ),
  );
  const marks = [
    Plot.rect([{ x1: frame.x.from, x2: frame.x.to, y1: frame.y.from, y2: worst }], {
      x1: "x1",
      x2: "x2",
      y1: "y1",
      y2: "y2",
      fill: `url(#${id}-below)`,
    }),
    ...(frame.y.from < 0 ? [Plot.ruleY([0], { stroke: INK, strokeWidth: 0.9 })] : []),
    ...limits.map(({ value, dash }) => Plot.ruleY([value], { stroke: WARN, strokeWidth: 1.6, strokeDasharray: dash })),
    ...drawn.flatMap(({ style, steps, index }) => curveMarks(id, steps, style, index, frame.y.to)),
    ...leaderLabels(frame, labels, obstacles),
  ];
  const legend: LegendItem[] = [
    ...limits.map(
      (limit): LegendItem => ({
        kind: "line",
        label: limitName(limit),
        stroke: WARN,
        dash: limit.dash,
        width: 1.6,
      }),
    ),
    { kind: "area", label: "below the largest criterion", fill: `url(#${id}-below)`, stroke: WARN },
    { kind: "area", label: "certified band above the bound", fill: `url(#${id}-band0)`, stroke: curveStyle(0).stroke },
  ];
  return composeFigure({
    id,
    title: `Clearance against stroke, the ${drawn.length} tightest pairs (${result.variant})`,
    caption:
      `Certified lower bound of the least clearance between one boom angle and the next${still(result)}, less the worst-case stack of ` +
      `${formatShort(result.stack.worst_m * MILLI)} mm; the band above a curve reaches to the upper bound. The criterion in motion holds everywhere, the one at rest at ` +
      `both ends. ` +
      `Least values: ${pairs.map(sentence).join("; ")}.`,
    description: `${drawn.length} staircase curves of clearance in millimetres. ${pairs.map(sentence).join("; ")}.`,
    panels: [{ svg: plotFrame(frame, marks, dom), width: WIDTH, height: HEIGHT }],
    legend,
    defs:
      pattern(`${id}-below`, "rising", "#f6f0f0", WARN, 0.35) +
      drawn.map(({ style, index }) => pattern(`${id}-band${index}`, "upright", "#ffffff", style.stroke, 0.35)).join(""),
  });
}
