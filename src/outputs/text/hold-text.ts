/** Terminal text of the study `hold`: verdicts first, then modes, findings, limits, cautions. */
import type { HoldPoint, Mode } from "../../studies/hold/types.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { formatFixed, formatNumber, formatQuantity } from "../numbers/index.ts";
import { type Column, paragraph, table } from "./columns.ts";
import { holdPartsText } from "./hold-parts-text.ts";
import { bracketed } from "./signs.ts";
import { headLines, type Look, PLAIN, type StudyTextMeta, tailLines } from "./study-text.ts";
import { type TextOptions, verdictPaint, widthOf } from "./words.ts";

/** Longer than this [s] a motion neither grows nor decays for any practical purpose. */
const FOREVER = 1e5;

function timeText(mode: Mode): string {
  if ((mode.timeToDouble_s ?? mode.timeToHalf_s ?? FOREVER) >= FOREVER) return "neutral";
  if (mode.timeToDouble_s !== null) return `x2 in ${formatNumber(mode.timeToDouble_s, PLAIN)} s`;
  return mode.timeToHalf_s === null ? "neutral" : `1/2 in ${formatNumber(mode.timeToHalf_s, PLAIN)} s`;
}

function modeTable(modes: readonly Mode[], { width, colour }: Look): string[] {
  const columns: Column[] = [
    { heading: "plane", width: 12 },
    { heading: "mode, share", width: width - 66 },
    { heading: "class", width: 7 },
    { heading: "f, Hz", width: 6, align: "right" },
    { heading: "ζ", width: 7, align: "right" },
    { heading: "time", width: 15, align: "right" },
    { heading: "", width: 5, paint: verdictPaint(colour) },
  ];
  const rows = modes.map((mode) => [
    mode.plane,
    `${mode.name}, ${Math.round(100 * mode.share)} %`,
    mode.class === "structural" ? "struct." : "rigid",
    mode.imag_rad_s > 0 ? formatNumber(mode.frequency_Hz, PLAIN) : "real",
    mode.imag_rad_s > 0 ? formatFixed(mode.dampingRatio, 4, "-") : "",
    timeText(mode),
    mode.real_1_s > 0 ? "GROWS" : "",
  ]);
  return table(columns, rows, "  ");
}

function pointHead(point: HoldPoint): string {
  return [
    `${formatFixed(point.airspeed_m_s_EAS, 1)} m/s EAS (${formatFixed(point.airspeed_m_s_TAS, 1)} m/s TAS)`,
    `${formatFixed(point.altitude_m, 0, "-")} m`,
    `boom ${formatFixed(point.boomAngle_deg, 1, "-")}°`,
    `weight share ${formatFixed(100 * point.weightShare_1, 0, "-")} %`,
    `snubber ${formatQuantity(point.snubberRate_N_s_m, "N*s/m", PLAIN)}`,
    `boom bending ${formatQuantity(point.bendingStiffness_N_m, "N/m", PLAIN)}`,
    `accumulator ${formatQuantity(point.accumulatorStiffness_N_m, "N/m", PLAIN)}`,
  ].join(", ");
}

function trimText(point: HoldPoint): string {
  const { trim } = point;
  if (trim === null) return `no modes: ${point.outcome}`;
  const text = [
    `angle of attack ${formatFixed(trim.alpha_deg, 2, "-")}°`,
    `elevator ${formatFixed(trim.elevator_deg, 2, "-")}° ${bracketed("elevator", trim.elevator_deg)}`,
    `tow load ${formatQuantity(trim.towLoad_N, "N", PLAIN)} ${bracketed("tow-load", trim.towLoad_N)}`,
    `jack load ${formatQuantity(trim.jackLoad_N, "N", PLAIN)} ${bracketed("jack-load", trim.jackLoad_N)}`,
    `lift coefficient ${formatFixed(trim.liftCoefficient, 3, "-")}`,
  ].join(", ");
  return point.outcome === "trimmed" ? `trim: ${text}` : `${point.outcome}: ${text}`;
}

function pointText(point: HoldPoint, look: Look): string[] {
  const { width } = look;
  return [
    ...paragraph(`${point.condition} × ${point.mass}: ${pointHead(point)}`, width, "  ", "    "),
    ...paragraph(trimText(point), width, "    "),
    ...(point.modes.length === 0 ? [] : ["", ...modeTable(point.modes, look)]),
    "",
  ];
}

/**
 * Text of one result of `hold` for a terminal: at most 100 columns, understood without colour, a newline at the end.
 */
export function holdText(result: HoldDepthResult, meta: StudyTextMeta, options: TextOptions = {}): string {
  const look = { width: widthOf(options), colour: options.colour === true };
  const lines = [
    ...headLines("Hooked stability", "plane", result, meta, look),
    ...result.points.flatMap((point, i) => [...(i === 0 ? ["MODES"] : []), ...pointText(point, look)]),
    ...holdPartsText(result, look),
    ...tailLines(result, meta, look),
  ];
  return `${lines.join("\n")}\n`;
}
