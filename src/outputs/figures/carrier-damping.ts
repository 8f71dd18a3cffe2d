/** Figure: frequency and damping ratio of each hooked mode by how the carrier is taken. */
import * as Plot from "@observablehq/plot";
import type { CarrierCase, CarrierMode, CarrierModel, CarrierPoint } from "../../studies/hold-carrier/types.ts";
import { formatFixed } from "../numbers/index.ts";
import { criterionLegend, dampingGround, unstableLegend, unstablePattern } from "./areas.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Frame, padded, plotFrame } from "./frame.ts";
import type { Point } from "./isolines.ts";
import { nearLabels } from "./near-labels.ts";
import { curveStyle, INK, type SymbolName } from "./style.ts";
import { capitalise, fitText } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 760;
const HEIGHT = 230;
const MARGINS = { left: 62, right: 20, top: 8, bottom: 46 };
/** Oscillations faster than this are the boom's; they hardly change [Hz]. */
const FASTEST = 2.5;
/** Modes damped better than this with a steady carrier would press the others together; the table has them. */
const DRAWN_DAMPING = 0.4;

interface Look {
  readonly symbol: SymbolName;
  readonly filled: boolean;
  readonly color: number;
}

const LOOKS: Readonly<Record<CarrierModel, Look>> = {
  steady: { symbol: "circle", filled: false, color: 0 },
  "free mass": { symbol: "triangle", filled: false, color: 2 },
  rigid: { symbol: "square", filled: false, color: 1 },
  "steady, uniform flow": { symbol: "diamond", filled: false, color: 3 },
  "steady, flow with gradients": { symbol: "diamond", filled: true, color: 3 },
  "rigid, flow with gradients": { symbol: "square", filled: true, color: 1 },
};

interface Spot {
  readonly model: CarrierModel;
  readonly x: number;
  readonly y: number;
}

/** Places of one mode of the base under every model that has it. */
function spotsOf(base: CarrierMode, cases: readonly CarrierCase[]): Spot[] {
  return cases.flatMap(({ model, modes }) => {
    const same = modes.find(({ from, plane }) => from === base.from && plane === base.plane);
    return same === undefined ? [] : [{ model, x: same.frequency_Hz, y: same.dampingRatio }];
  });
}

function shownModes({ cases }: CarrierPoint): CarrierMode[] {
  const steady = cases.find(({ model }) => model === "steady");
  return (steady?.modes ?? []).filter(
    ({ imag_rad_s, frequency_Hz, dampingRatio, class: kind }) =>
      imag_rad_s > 0 && frequency_Hz < FASTEST && dampingRatio < DRAWN_DAMPING && kind !== "structural",
  );
}

function panel(id: string, point: CarrierPoint, criterion: number | null, frame: Frame, dom: FigureDom): Panel {
  const tracks = shownModes(point).map((mode) => ({ mode, spots: spotsOf(mode, point.cases) }));
  const marks = [
    ...dampingGround(id, frame, criterion),
    ...tracks.map(({ spots }) => Plot.line(spots, { x: "x", y: "y", stroke: INK, strokeWidth: 0.8, clip: true })),
    ...tracks.flatMap(({ spots }) =>
      spots.map((spot) => {
        const { symbol, filled, color } = LOOKS[spot.model];
        const { stroke } = curveStyle(color);
        return Plot.dot([spot], {
          x: "x",
          y: "y",
          symbol,
          r: 4.6,
          fill: filled ? stroke : "white",
          stroke,
          strokeWidth: 1.6,
        });
      }),
    ),
    ...nearLabels(
      frame,
      tracks.flatMap(({ mode, spots }) => {
        const name = mode.plane === "lateral" ? `${mode.name} (lat.)` : mode.name;
        return spots.slice(0, 1).map(({ x, y }) => ({ text: name, x, y, color: INK }));
      }),
      tracks.flatMap(({ spots }) => spots.map(({ x, y }): Point => [x, y])),
    ),
  ];
  return {
    svg: plotFrame(frame, marks, dom),
    width: WIDTH,
    height: HEIGHT,
    heading: `Mass ${fitText(point.mass, 300)}`,
  };
}

/** What changes the least damped of the drawn modes, in words. */
function sentence(point: CarrierPoint): string {
  const last = point.cases.filter(({ outcome }) => outcome === "trimmed").at(-1);
  const [least] = shownModes(point)
    .filter(({ plane }) => plane === "longitudinal")
    .sort((a, b) => a.dampingRatio - b.dampingRatio);
  if (least === undefined || last === undefined) return `mass ${point.mass}: no longitudinal oscillation`;
  const spots = spotsOf(least, [last]);
  const to = spots.length === 0 ? "none near it" : formatFixed(spots[0]!.y, 4);
  return `mass ${point.mass}, ${least.name}: ζ ${formatFixed(least.dampingRatio, 4)} with a steady carrier, ${to} with ${last.model}`;
}

/**
 * Frequency and damping ratio of the rigid-body-type oscillations of one condition, a symbol for each model of the carrier, a
 * panel for each mass; a thin line joins what is one mode.
 *
 * @param criterion damping ratio that rigid-body-type oscillations must have; null when there is none
 */
export function carrierDampingFigure(
  id: string,
  variant: string,
  points: readonly CarrierPoint[],
  criterion: number | null,
  dom: FigureDom,
): Figure | null {
  const drawn = points.filter((point) => shownModes(point).length > 0);
  if (drawn.length === 0) return null;
  const spots = drawn.flatMap((point) => shownModes(point).flatMap((mode) => spotsOf(mode, point.cases)));
  const [from, to] = padded([0, ...(criterion === null ? [] : [criterion]), ...spots.map(({ y }) => y)], 0.08);
  const [left, right] = padded(
    spots.map(({ x }) => x),
    0.08,
  );
  const frame: Frame = {
    ...{ width: WIDTH, height: HEIGHT, margins: MARGINS },
    x: { label: "Frequency (Hz)", from: left, to: right, log: false },
    y: { label: "Damping ratio ζ (–)", from, to, log: false },
  };
  const models = [...new Set(drawn.flatMap(({ cases }) => cases.map(({ model }) => model)))];
  const said = drawn.map((point) => capitalise(sentence(point))).join("; ");
  return composeFigure({
    id,
    title: `Frequency and damping with the carrier's motion and flow (${variant}, condition ${drawn[0]!.condition})`,
    caption: `Rigid-body-type oscillations of the hooked pair; a thin line joins one mode under all models of the carrier. Modes with ζ above ${DRAWN_DAMPING} and structural ones stand in the table. ${said}.`,
    description: `${drawn.length} panels of damping ratio against frequency with ${models.length} symbols. ${said}.`,
    panels: drawn.map((point) => panel(id, point, criterion, frame, dom)),
    legend: [
      ...models.map((model) => {
        const { symbol, filled, color } = LOOKS[model];
        const { stroke } = curveStyle(color);
        return { kind: "symbol" as const, label: model, symbol, stroke, fill: filled ? stroke : "#ffffff" };
      }),
      unstableLegend(id),
      ...(criterion === null ? [] : [criterionLegend(criterion)]),
    ],
    defs: unstablePattern(id),
  });
}
