/** Figure: response to one vertical gust that reaches carrier and carried aircraft. */
import * as Plot from "@observablehq/plot";
import type { CarrierPoint, GustCurve } from "../../studies/hold-carrier/types.ts";
import { formatFixed, formatNumber } from "../numbers/index.ts";
import { composeFigure, type Panel } from "./compose.ts";
import { type Frame, plotFrame } from "./frame.ts";
import { curveStyle } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const WIDTH = 380;
const HEIGHT = 220;
const MARGINS = { left: 62, right: 12, top: 8, bottom: 46 };
const SYMBOLS = 6;

const OUTPUTS = [
  { key: "shear_N_per_m_s", heading: "Tip load normal to the boom", label: "Amplitude (N per m/s)" },
  { key: "tension_N_per_m_s", heading: "Tip load along the boom", label: "Amplitude (N per m/s)" },
  { key: "relativePitch_deg_per_m_s", heading: "Pitch against the carrier", label: "Amplitude (° per m/s)" },
  { key: "loadFactor_1_per_m_s", heading: "Load factor, carried aircraft", label: "Amplitude (1 per m/s)" },
] as const satisfies readonly { key: keyof GustCurve; heading: string; label: string }[];

function panel(
  frequency: readonly number[],
  curves: readonly GustCurve[],
  { key, heading, label }: (typeof OUTPUTS)[number],
  dom: FigureDom,
): Panel {
  const highest = Math.max(...curves.flatMap((curve) => curve[key]));
  const frame: Frame = {
    ...{ width: WIDTH, height: HEIGHT, margins: MARGINS },
    x: { label: "Frequency (Hz)", from: frequency[0]!, to: frequency.at(-1)!, log: true },
    y: { label, from: 0, to: highest > 0 ? 1.06 * highest : 1, log: false },
  };
  const marks = curves.flatMap((curve, i) => {
    const { stroke, dash, symbol } = curveStyle(i);
    const points = frequency.map((x, k) => ({ x, y: curve[key][k]! }));
    const stride = Math.max(1, Math.round(points.length / SYMBOLS));
    // symbols of different curves stand apart, so that coinciding curves still show
    const spots = points.filter((_, k) => k % stride === Math.floor(((i + 0.5) * stride) / curves.length));
    return [
      Plot.line(points, { x: "x", y: "y", stroke, strokeWidth: 1.8, strokeDasharray: dash, clip: true }),
      Plot.dot(spots, { x: "x", y: "y", symbol, r: 3.8, fill: "white", stroke, strokeWidth: 1.4 }),
    ];
  });
  return { svg: plotFrame(frame, marks, dom), width: WIDTH, height: HEIGHT, heading };
}

/** Amplitudes per gust velocity against frequency, or `null` where the pair grows by itself. */
export function gustPenetrationFigure(id: string, variant: string, point: CarrierPoint, dom: FigureDom): Figure | null {
  const { gust } = point;
  if (gust === null || gust.curves.length === 0) return null;
  const { curves, frequency_Hz: frequency } = gust;
  const peaks = curves.map(({ model, shear_N_per_m_s: shear }) => {
    const greatest = Math.max(...shear);
    return `${model} ${formatNumber(greatest)} N per m/s at ${formatFixed(frequency[shear.indexOf(greatest)]!, 2)} Hz`;
  });
  const aside = gust.distance_m >= 0 ? "aft" : "ahead";
  const where = `its c.g. hangs ${formatFixed(Math.abs(gust.distance_m), 2)} m ${aside} of the carrier's, so the gust reaches it ${formatFixed(Math.abs(1000 * gust.lag_s), 0)} ms ${gust.lag_s >= 0 ? "later" : "earlier"}`;
  return composeFigure({
    id,
    title: `One vertical gust at both aircraft (${variant}, condition ${point.condition}, mass ${point.mass})`,
    caption: `Amplitude per amplitude of the gust velocity; ${where}. Greatest tip load normal to the boom: ${peaks.join("; ")}.`,
    description: `Four panels with ${curves.length} curves of amplitude against frequency. ${peaks.join("; ")}.`,
    panels: OUTPUTS.map((output) => panel(frequency, curves, output, dom)),
    columns: 2,
    legend: curves.map(({ model }, i) => {
      const { stroke, dash, symbol } = curveStyle(i);
      return { kind: "line" as const, label: `carrier ${model}`, stroke, dash, symbol, fill: "#ffffff", width: 1.8 };
    }),
  });
}
