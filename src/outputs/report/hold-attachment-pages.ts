/** Report section of the states of attachment of `hold`. */

import type { AttachmentResult, LimitCycle, RetractRule, StatePoint } from "../../studies/hold-attachment/types.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { attachmentStrokeFigure, type FigureDom, poseMapFigure } from "../figures/index.ts";
import { formatFixed, formatNumber, formatQuantity } from "../numbers/index.ts";
import { dampingCriterion } from "../summary/index.ts";
import type { FigureCounter } from "./figure-counter.ts";
import { type Html, html, NOTHING } from "./html.ts";
import { growsMark } from "./marks.ts";
import type { PartPages } from "./part-section.ts";
import { dataTable, type Head } from "./tables.ts";

const RULE_HEADS: readonly Head[] = [
  { text: "Plane", width: 12 },
  { text: "Stability lost at (°)", numeric: true, width: 14 },
  { text: "Where", width: 26 },
  { text: "Uncertainty (°)", numeric: true, width: 12 },
  { text: "Margin (°)", numeric: true, width: 10 },
  { text: "Rule (°)", numeric: true, width: 10 },
  { text: "Driven by", width: 16 },
];
const STATE_HEADS: readonly Head[] = [
  { text: "Held by, mode", width: 36 },
  { text: "Plane", width: 14 },
  { text: "Class", width: 14 },
  { text: "f (Hz)", numeric: true, width: 12 },
  { text: "ζ (–)", numeric: true, width: 12 },
  { text: "Share (%)", numeric: true, width: 12 },
];
const LOAD_HEADS: readonly Head[] = [
  { text: "Held by, mass", width: 30 },
  { text: "Boom (°)", numeric: true, width: 9 },
  { text: "Pitch (°)", numeric: true, width: 9 },
  { text: "Bank (°)", numeric: true, width: 9 },
  { text: "Socket forward", numeric: true, width: 12 },
  { text: "Socket up", numeric: true, width: 11 },
  { text: "Tension of the legs", numeric: true, width: 20 },
];
const CYCLE_HEADS: readonly Head[] = [
  { text: "Boom (°), plane", width: 22 },
  { text: "Balance", width: 18 },
  { text: "f (Hz)", numeric: true, width: 10 },
  { text: "Pin travel (mm)", numeric: true, width: 12 },
  { text: "In time (mm, Hz)", numeric: true, width: 16 },
  { text: "Pin load in time", numeric: true, width: 11 },
  { text: "With friction", width: 11 },
];

function ruleRow(rule: RetractRule): string[] {
  const outcome = rule.outcome === "lost" ? formatFixed(rule.nominal_deg!, 2) : rule.outcome;
  const off = rule.drivers.filter(({ low_deg, high_deg }) => low_deg === null || high_deg === null);
  const unstable = off.length > 0 ? "unstable extended" : "–";
  return [
    rule.plane,
    outcome,
    rule.mass === null ? "–" : `${rule.mass}, ${formatFixed(rule.airspeed_m_s_EAS!, 1)} m/s EAS`,
    rule.uncertainty_deg === null ? unstable : formatFixed(rule.uncertainty_deg, 2),
    formatFixed(rule.margin_deg, 1),
    rule.rule_deg === null ? "–" : String(rule.rule_deg),
    rule.drivers
      .slice(0, 3)
      .map(({ path }) => path)
      .join(", ") || "–",
  ];
}

function modeGroups(points: readonly StatePoint[]) {
  return points.map((point) => ({
    title: `${point.state}, mass ${point.mass}, boom ${formatFixed(point.boomAngle_deg, 0)}°`,
    rows:
      point.outcome === "no trim"
        ? [["no balance"]]
        : point.modes
            .filter((mode) => mode.imag_rad_s > 0)
            .map((mode): (string | Html)[] => [
              html`${mode.name}${mode.real_1_s > 0 ? html` ${growsMark()}` : NOTHING}`,
              mode.plane,
              mode.class === "structural" ? "structural" : "rigid-body",
              formatNumber(mode.frequency_Hz),
              formatFixed(mode.dampingRatio, 4),
              formatFixed(100 * mode.share, 0),
            ]),
  }));
}

function loadRow(point: StatePoint): string[] {
  const loads = point.loads!;
  return [
    `${point.state}, ${point.mass}`,
    formatFixed(point.boomAngle_deg, 0),
    formatFixed(point.pitch_deg!, 2),
    formatFixed(point.bank_deg!, 2),
    formatQuantity(loads.socketForward_N, "N"),
    formatQuantity(loads.socketUp_N, "N"),
    loads.pins.map(({ name, tension_N }) => `${name} ${formatQuantity(tension_N, "N")}`).join(", "),
  ];
}

function cycleRow(cycle: LimitCycle): string[] {
  const { inTime, withFriction } = cycle;
  const kind = cycle.stable === true ? "stable limit cycle" : "unstable limit cycle";
  return [
    `${formatFixed(cycle.boomAngle_deg, 0)}, ${cycle.plane}`,
    cycle.outcome === "found" ? kind : cycle.outcome,
    cycle.frequency_Hz === null ? "–" : formatNumber(cycle.frequency_Hz),
    cycle.travel_mm === null ? "–" : formatFixed(cycle.travel_mm, 3),
    inTime === null ? "–" : `${formatFixed(inTime.travel_mm, 3)}, ${formatNumber(inTime.frequency_Hz)}`,
    inTime === null ? "–" : formatQuantity(inTime.pinLoad_N, "N"),
    withFriction === null ? "–" : withFriction.outcome,
  ];
}

function variantPart(
  result: HoldDepthResult,
  found: AttachmentResult,
  index: number,
  counter: FigureCounter,
  dom: FigureDom,
): Html {
  const criterion = dampingCriterion([result]);
  const id = (what: string) => `fig-v${index + 1}-attachment-${what}`;
  const figures = [...new Set(found.rules.map(({ condition }) => condition))].flatMap((condition, c) => [
    ...(["longitudinal", "lateral"] as const).map((plane) =>
      poseMapFigure(
        id(`${c + 1}-${plane}`),
        result.variant,
        found.maps.filter((map) => map.condition === condition && map.plane === plane),
        found.rules.find((rule) => rule.condition === condition && rule.plane === plane),
        criterion,
        dom,
      ),
    ),
    ...found.stroke
      .filter((stroke) => stroke.condition === condition)
      .map((stroke, i) => attachmentStrokeFigure(id(`${c + 1}-stroke${i + 1}`), result.variant, stroke, dom)),
  ]);
  const loaded = found.states.filter(({ loads }) => loads !== null);
  const first = found.states.filter((point) => point.mass === found.states[0]?.mass);
  return html`<h3>${result.variant}</h3>
${dataTable(`Retracting at single point, ${result.variant}`, RULE_HEADS, [{ rows: found.rules.map(ruleRow) }])}${figures.filter((figure) => figure !== null).map((figure) => counter.print(figure))}${dataTable(`Oscillations by state of attachment, ${result.variant}; the share is that of the motion in the name`, STATE_HEADS, modeGroups(first))}${loaded.length === 0 ? NOTHING : dataTable(`Loads on the carried aircraft with pins latched, ${result.variant}; tension pulls towards the yoke's hinge`, LOAD_HEADS, [{ rows: loaded.map(loadRow) }])}${found.limitCycles.length === 0 ? NOTHING : dataTable(`Pins latched and unloaded in their clearance, ${result.variant}: harmonic balance, and the motion in time`, CYCLE_HEADS, [{ rows: found.limitCycles.map(cycleRow) }])}`;
}

/** States of attachment of every variant that asks for them. */
export const attachmentPages: PartPages = (results, title, counter, dom) => {
  if (!results.some((result) => result.parts?.attachment !== undefined)) return null;
  const name = title("States of attachment");
  const parts = results.map((result, i) => {
    const found = result.parts?.attachment;
    return found === undefined ? NOTHING : variantPart(result, found, i, counter, dom);
  });
  return {
    id: "states-of-attachment",
    title: name,
    markup: html`<section id="states-of-attachment"><h2>${name}</h2>
<p>From which boom angle on the aft pins must be latched, and what happens with one of them, with both, and inside their clearance. The rule is the
boundary at its worst over masses and airspeeds, plus what uncertain values add, plus the declared margin, rounded up to the whole degree.</p>
${parts}</section>
`,
  };
};
