/** Figure: least damping ratio at single point over boom angle and airspeed, with the rule for retracting. */
import * as Plot from "@observablehq/plot";
import type { PoseMap, RetractRule } from "../../studies/hold-attachment/types.ts";
import { formatFixed, formatShort } from "../numbers/index.ts";
import { criterionLegend, unstableLegend, unstablePattern } from "./areas.ts";
import { composeFigure, type LegendItem } from "./compose.ts";
import { type Frame, plotFrame } from "./frame.ts";
import { isolines } from "./isolines.ts";
import { INK, pattern, SLATE, WARN } from "./style.ts";
import { fitText } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const COLUMN = 380;
const HEIGHT = 290;
const MARGINS = { left: 58, right: 16, top: 6, bottom: 46 };
const LEVELS = [-0.3, -0.2, -0.1, -0.05, 0.05, 0.1, 0.15];
const MET = "#dfe9f5";

function frameOf(map: PoseMap, width: number): Frame {
  const [x, y] = [map.boomAngle_deg, map.airspeed_m_s_EAS];
  return {
    width,
    height: HEIGHT,
    margins: MARGINS,
    x: { label: "Boom angle (°), stowed left, extended right", from: x[0]!, to: x.at(-1)!, log: false },
    y: { label: "Airspeed, EAS (m/s)", from: y[0]!, to: y.at(-1)!, log: false },
  };
}

function panelMarks(id: string, map: PoseMap, rule: RetractRule | undefined, frame: Frame, criterion: number | null) {
  const { x, y } = frame;
  const points = map.worst.map((value, i) => ({
    x: map.boomAngle_deg[i % map.boomAngle_deg.length]!,
    y: map.airspeed_m_s_EAS[Math.floor(i / map.boomAngle_deg.length)]!,
    value,
  }));
  const fills = [
    { level: 0, fill: `url(#${id}-marginal)` },
    { level: criterion ?? 0, fill: MET },
  ];
  const marks: unknown[] = [
    Plot.rect([{ x1: x.from, x2: x.to, y1: y.from, y2: y.to }], {
      ...{ x1: "x1", x2: "x2", y1: "y1", y2: "y2" },
      fill: `url(#${id}-unstable)`,
    }),
    Plot.contour(points, {
      ...{ x: "x", y: "y", value: "value", interpolate: "barycentric", stroke: "none", pixelSize: 3 },
      thresholds: [...new Set(fills.map(({ level }) => level))],
      fill: {
        value: (area: { value: number }) => fills.filter(({ level }) => level <= area.value).at(-1)!.fill,
        scale: null,
      },
    }),
  ];
  for (const level of LEVELS) {
    for (const line of isolines(map.boomAngle_deg, map.airspeed_m_s_EAS, map.worst, level)) {
      marks.push(Plot.line(line, { stroke: SLATE, strokeWidth: 0.8 }));
      const at = line[Math.floor(line.length / 2)];
      if (at !== undefined && line.length > 6) marks.push(label(at, formatShort(level)));
    }
  }
  for (const line of map.boundary) marks.push(Plot.line(line, { stroke: WARN, strokeWidth: 2.6, clip: true }));
  if (rule?.rule_deg != null && rule.rule_deg >= x.from && rule.rule_deg <= x.to) {
    marks.push(Plot.ruleX([rule.rule_deg], { stroke: INK, strokeWidth: 2, strokeDasharray: "2 2.5" }));
    marks.push(
      Plot.text([{ x: rule.rule_deg, y: y.from + 0.08 * (y.to - y.from) }], {
        ...{ x: "x", y: "y", text: () => `rule ${rule.rule_deg}°`, textAnchor: "end", dx: -6 },
        ...{ fontWeight: 700, fill: INK, stroke: "white", strokeWidth: 4 },
      }),
    );
  }
  return marks;
}

function label(at: readonly [number, number], text: string): unknown {
  return Plot.text([{ x: at[0], y: at[1] }], {
    ...{ x: "x", y: "y", text: () => text, fontSize: 11, fill: INK, stroke: "white", strokeWidth: 4 },
  });
}

/**
 * Maps of one plane, a panel for each mass: unstable side hatched, the boundary drawn, the rule as a dotted line.
 *
 * @param criterion damping ratio to be met; null when there is none
 */
export function poseMapFigure(
  id: string,
  variant: string,
  maps: readonly PoseMap[],
  rule: RetractRule | undefined,
  criterion: number | null,
  dom: FigureDom,
): Figure | null {
  const first = maps[0];
  if (first === undefined) return null;
  const columns = maps.length === 1 ? 1 : 2;
  const width = columns === 1 ? 2 * COLUMN : COLUMN;
  const panels = maps.map((map) => {
    const frame = frameOf(map, width);
    const svg = plotFrame(frame, panelMarks(id, map, rule, frame, criterion), dom);
    return { svg, width, height: HEIGHT, heading: `Mass ${fitText(map.mass, 300)}` };
  });
  const legend: LegendItem[] = [
    unstableLegend(id),
    { kind: "line", label: "limit of stability ζ = 0", stroke: WARN, width: 2.6 },
    ...(criterion === null
      ? []
      : [
          {
            ...{ kind: "area" as const, fill: `url(#${id}-marginal)`, stroke: SLATE },
            label: `stable, below ζ = ${formatShort(criterion)}`,
          },
          { kind: "area" as const, label: criterionLegend(criterion).label, fill: MET, stroke: SLATE },
        ]),
    ...(rule?.rule_deg == null
      ? []
      : [
          {
            kind: "line" as const,
            label: `rule: ${rule.rule_deg}° for all masses and airspeeds`,
            stroke: INK,
            dash: "2 2.5",
          },
        ]),
  ];
  const unstable = maps.map(({ mass, worst }) => {
    const share = worst.filter((value) => value < 0).length / worst.length;
    return `mass ${mass}: ${formatFixed(100 * share, 0)} % unstable`;
  });
  return composeFigure({
    id,
    title: `${variant}: single point, ${first.plane} motion, over boom angle and airspeed, condition ${first.condition}`,
    caption: `Least damping ratio ζ of the oscillations of rigid-body type with the aft pins not latched; a structural one counts where it grows. ${saying(rule)} ${unstable.join("; ")}.`,
    description: `Contour map, boom angle across, airspeed up, one panel for each mass. ${unstable.join("; ")}. ${saying(rule)}`,
    panels,
    legend,
    columns,
    defs: `${unstablePattern(id)}${pattern(`${id}-marginal`, "dots", "#fbf4e4", "#7a5b13", 0.7)}`,
  });
}

function saying(rule: RetractRule | undefined): string {
  if (rule === undefined) return "";
  if (rule.outcome === "unstable extended") return "Unstable already with the boom extended: no pose is enough.";
  if (rule.rule_deg === null)
    return rule.uncertainty_deg === null
      ? "Within the uncertainty of the pair it is unstable at every pose."
      : "No pose is lost.";
  return `The boom must not come up past ${rule.rule_deg}° (to smaller angles) before the aft pins are latched.`;
}
