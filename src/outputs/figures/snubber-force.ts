/** Figure: force of the snubber against speed at the jack, at each oil temperature, with the commanded stroke. */
import * as Plot from "@observablehq/plot";
import type { SnubberResult } from "../../studies/hold-snubber/types.ts";
import { formatFixed, formatQuantity } from "../numbers/index.ts";
import { ownValue } from "./areas.ts";
import { composeFigure } from "./compose.ts";
import { type Frame, plotFrame } from "./frame.ts";
import { curveStyle } from "./style.ts";
import type { Figure, FigureDom } from "./types.ts";

const KILO = 1e-3;

/** Force–speed curves as a bench measures them: one curve an oil temperature, the commanded stroke marked on each. */
export function snubberForceFigure(
  id: string,
  variant: string,
  { force, slow }: SnubberResult,
  dom: FigureDom,
): Figure | null {
  if (force.length === 0) return null;
  const speed = Math.max(...force.flatMap(({ jackSpeed_m_s }) => jackSpeed_m_s));
  const most = Math.max(...force.flatMap(({ jackForce_N }) => jackForce_N));
  const frame: Frame = {
    width: 760,
    height: 320,
    margins: { left: 66, right: 16, top: 8, bottom: 48 },
    x: { label: "Speed of the jack (m/s)", from: 0, to: speed, log: false },
    y: { label: "Force of the snubber at the jack (kN)", from: 0, to: 1.06 * most * KILO, log: false },
  };
  const stroke = slow[0]?.jackSpeed_m_s ?? 0;
  const marks = [
    ...ownValue(stroke, "commanded stroke", frame),
    ...force.flatMap((curve, i) => {
      const style = curveStyle(i);
      const points = curve.jackSpeed_m_s.map((x, k) => ({ x, y: curve.jackForce_N[k]! * KILO }));
      const own = slow.filter(({ temperature }) => temperature === curve.temperature);
      return [
        Plot.line(points, {
          ...{ x: "x", y: "y", stroke: style.stroke, strokeWidth: 2.2, strokeDasharray: style.dash, clip: true },
        }),
        Plot.dot(
          own.map(({ jackSpeed_m_s, jackForce_N }) => ({ x: jackSpeed_m_s, y: jackForce_N * KILO })),
          { x: "x", y: "y", symbol: style.symbol, r: 5, fill: style.stroke, stroke: "white", strokeWidth: 1.2 },
        ),
      ];
    }),
  ];
  const words = slow.map(({ temperature_degC, jackForce_N, capacityShare_1 }) => {
    const share =
      capacityShare_1 === null ? "" : ` (${formatFixed(100 * capacityShare_1, 1)} % of the jack's capacity)`;
    return `${formatFixed(temperature_degC, 0)} °C: ${formatQuantity(jackForce_N, "N")}${share}`;
  });
  return composeFigure({
    id,
    title: `Force of the snubber against speed (${variant})`,
    caption:
      `Force at the jack, seal friction included, ${variant}. The bleed follows the viscosity of the oil, the orifice only its density; ` +
      `where a curve flattens the relief valve has opened. In the commanded stroke, ${words.join("; ")}.`,
    description: `Curves of force against speed for ${force.length} oil temperatures. In the commanded stroke ${words.join("; ")}.`,
    panels: [{ svg: plotFrame(frame, marks, dom), width: frame.width, height: frame.height }],
    legend: force.map(({ temperature_degC }, i) => {
      const { stroke: colour, dash, symbol } = curveStyle(i);
      const label = `oil ${formatFixed(temperature_degC, 0)} °C (symbol: commanded stroke)`;
      return { kind: "line", label, stroke: colour, dash, width: 2.2, symbol, fill: colour };
    }),
  });
}
