/** Tables of modes and trims. */
import type { HoldPoint, HoldResult, HoldTrim, Mode } from "../../studies/hold/types.ts";
import { formatFixed, formatNumber, formatQuantity } from "../numbers/index.ts";
import { type Html, html, NOTHING } from "./html.ts";
import { growsMark } from "./marks.ts";
import { dataTable, type Head, type RowGroup } from "./tables.ts";

const MODE_HEADS: readonly Head[] = [
  { text: "Mode", width: 22 },
  { text: "Plane", width: 11 },
  { text: "Class", width: 10 },
  { text: "f (Hz)", numeric: true, width: 7 },
  { text: "ζ (–)", numeric: true, width: 8 },
  { text: "Real (1/s)", numeric: true, width: 8 },
  { text: "Imag. (rad/s)", numeric: true, width: 8 },
  { text: "Half in (s)", numeric: true, width: 8 },
  { text: "Double in (s)", numeric: true, width: 9 },
  { text: "Cycles to half", numeric: true, width: 9 },
];

function optional(value: number | null): string {
  return value === null ? "–" : formatNumber(value);
}

function modeRow(mode: Mode): (string | Html)[] {
  const oscillates = mode.imag_rad_s > 0;
  const grows = mode.real_1_s > 0 ? html` ${growsMark()}` : NOTHING;
  return [
    html`${mode.name} <span class="soft">${Math.round(100 * mode.share)} %</span>${grows}`,
    mode.plane,
    mode.class === "structural" ? "structural" : "rigid-body",
    oscillates ? formatNumber(mode.frequency_Hz) : "real",
    oscillates ? formatFixed(mode.dampingRatio, 4) : "–",
    formatNumber(mode.real_1_s),
    oscillates ? formatNumber(mode.imag_rad_s) : "–",
    optional(mode.timeToHalf_s),
    optional(mode.timeToDouble_s),
    optional(mode.cyclesToHalf),
  ];
}

function pointTitle(point: HoldPoint): string {
  const state = [
    `${formatFixed(point.airspeed_m_s_EAS, 1)} m/s EAS`,
    `${formatFixed(point.altitude_m, 0)} m`,
    `boom ${formatFixed(point.boomAngle_deg, 1)}°`,
    `weight share ${formatFixed(100 * point.weightShare_1, 0)} %`,
    `snubber ${formatQuantity(point.snubberRate_N_s_m, "N*s/m")}`,
  ];
  return `${point.condition} × ${point.mass}: ${state.join(", ")}`;
}

/** Modes of every point of every variant. */
export function modeSection(results: readonly HoldResult[], title: string): Html {
  const tables = results.map((result) => {
    const groups: RowGroup[] = result.points.map((point) => ({
      title: pointTitle(point),
      rows: point.modes.length === 0 ? [[html`no modes: ${point.outcome}`]] : point.modes.map(modeRow),
    }));
    return dataTable(
      `Modes, ${result.variant}; the percentage is the share of the kinetic energy in the motion that names the mode`,
      MODE_HEADS,
      groups,
      "modes",
    );
  });
  return html`<section id="modes"><h2>${title}</h2>
${tables}</section>
`;
}

const TRIM_ROWS: readonly { readonly name: string; readonly print: (trim: HoldTrim) => string }[] = [
  { name: "Angle of attack", print: (trim) => `${formatFixed(trim.alpha_deg, 2)}°` },
  { name: "Elevator, trailing edge down positive", print: (trim) => `${formatFixed(trim.elevator_deg, 2)}°` },
  { name: "Lift coefficient", print: (trim) => formatFixed(trim.liftCoefficient, 3) },
  { name: "Stall margin", print: (trim) => formatFixed(trim.stallMargin, 3) },
  { name: "Lift", print: (trim) => formatQuantity(trim.lift_N, "N") },
  { name: "Tow load, on the aircraft by the tip, forward", print: (trim) => formatQuantity(trim.towLoad_N, "N") },
  { name: "Support load, on the aircraft by the tip, up", print: (trim) => formatQuantity(trim.supportLoad_N, "N") },
  { name: "Tip load along the boom, away from the hinge", print: (trim) => formatQuantity(trim.tipAxialLoad_N, "N") },
  {
    name: "Tip load normal to the boom, down and forward",
    print: (trim) => formatQuantity(trim.tipTangentialLoad_N, "N"),
  },
  {
    name: "Jack load, positive drives the boom down (to a larger angle), negative up",
    print: (trim) => formatQuantity(trim.jackLoad_N, "N"),
  },
  { name: "Boom angle without load", print: (trim) => `${formatFixed(trim.unloadedBoomAngle_deg, 2)}°` },
];

/** Trim of every point, a column for each. */
export function trimSection(results: readonly HoldResult[], title: string): Html {
  const tables = results
    .filter(({ points }) => points.length > 0)
    .map((result) => {
      const heads: Head[] = [
        { text: "Quantity", width: 34 },
        ...result.points.map((point) => ({ text: `${point.condition} × ${point.mass}`, numeric: true })),
      ];
      const rows = TRIM_ROWS.map(({ name, print }) => [
        name,
        ...result.points.map(({ trim, outcome }) => (trim === null ? outcome : print(trim))),
      ]);
      const outcome = ["Outcome", ...result.points.map((point) => point.outcome)];
      return dataTable(`Trim while hooked, ${result.variant}`, heads, [{ rows: [outcome, ...rows] }], "trim");
    });
  return html`<section id="trim"><h2>${title}</h2>
${tables}</section>
`;
}
