/** Terminal text of the states of attachment of `hold`. */

import type { Mode } from "../../studies/hold/types.ts";
import type { LimitCycle, RetractRule, StatePoint } from "../../studies/hold-attachment/types.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { formatFixed, formatNumber, formatQuantity } from "../numbers/index.ts";
import { type Column, paragraph, table } from "./columns.ts";
import { type Look, PLAIN } from "./study-text.ts";

/** What each state does to the modes, from which boom angle on the pins must be latched, what pins do in their clearance. */
export function holdAttachmentText(result: HoldDepthResult, { width }: Look): string[] {
  const found = result.parts?.attachment;
  if (found === undefined) return [];
  const lines = ["STATES OF ATTACHMENT"];
  const columns: Column[] = [
    { heading: "held by", width: 27 },
    { heading: "mass", width: width - 89 },
    { heading: "boom", width: 6, align: "right" },
    { heading: "least ζ, longitudinal", width: 22, align: "right" },
    { heading: "least ζ, lateral", width: 22, align: "right" },
  ];
  lines.push(...table(columns, found.states.map(row), "  "), "");
  for (const rule of found.rules) lines.push(...paragraph(ruleText(rule), width, "  ", "    "));
  for (const cycle of found.limitCycles) {
    if (cycle.outcome === "found") lines.push(...paragraph(cycleText(cycle), width, "  ", "    "));
  }
  if (found.limitCycles.length > 0 && !found.limitCycles.some(({ outcome }) => outcome === "found")) {
    lines.push("  pins latched and unloaded, in their clearance: no limit cycle");
  }
  return [...lines, ""];
}

function row(point: StatePoint): string[] {
  const least = (plane: Mode["plane"]): string => {
    if (point.outcome === "no trim") return "no trim";
    const own = point.modes.filter((mode) => mode.plane === plane && mode.imag_rad_s > 0);
    if (own.length === 0) return "none";
    const worst = own.reduce((a, b) => (b.dampingRatio < a.dampingRatio ? b : a));
    return `${formatFixed(worst.dampingRatio, 4, "-")} at ${formatNumber(worst.frequency_Hz, PLAIN)} Hz`;
  };
  return [
    point.state,
    point.mass,
    `${formatFixed(point.boomAngle_deg, 0, "-")}°`,
    least("longitudinal"),
    least("lateral"),
  ];
}

function ruleText(rule: RetractRule): string {
  const head = `retracting at single point, ${rule.plane}: `;
  if (rule.outcome === "unstable extended")
    return `${head}unstable with the boom extended (mass ${rule.mass}); no pose is enough`;
  const nominal =
    rule.outcome === "lost"
      ? `stability is lost at ${formatFixed(rule.nominal_deg!, 2)}° (mass ${rule.mass}, ${formatFixed(rule.airspeed_m_s_EAS!, 1)} m/s EAS)`
      : "stable along the whole stroke";
  if (rule.uncertainty_deg === null) {
    const off = rule.drivers.filter(({ low_deg, high_deg }) => low_deg === null || high_deg === null);
    return `${head}${nominal}; with ${off.map(({ path }) => path).join(", ")} off by ${rule.deviations} σ unstable extended`;
  }
  if (rule.rule_deg === null) return `${head}${nominal}`;
  return `${head}${nominal}, uncertainty ${formatFixed(rule.uncertainty_deg, 2)}°, margin ${formatFixed(rule.margin_deg, 1)}°: the boom must not come up past ${rule.rule_deg}° (to smaller angles) before the aft pins are latched`;
}

function cycleText(cycle: LimitCycle): string {
  const time =
    cycle.inTime === null
      ? ""
      : `; in time ${formatFixed(cycle.inTime.travel_mm, 3)} mm, pin load up to ${formatQuantity(cycle.inTime.pinLoad_N, "N", PLAIN)}`;
  const rubbing = cycle.withFriction === null ? "" : `; with friction in the socket it ${cycle.withFriction.outcome}`;
  const kind = cycle.stable === true ? "limit cycle" : "unstable limit cycle";
  return `pins latched and unloaded, boom ${formatFixed(cycle.boomAngle_deg, 0)}°, ${cycle.plane}: ${kind}, pin travel ${formatFixed(cycle.travel_mm!, 3)} mm at ${formatNumber(cycle.frequency_Hz!, PLAIN)} Hz${time}${rubbing}`;
}
