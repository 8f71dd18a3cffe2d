import type { FindingDraft } from "../finding/index.ts";
import { dampingCriterion } from "./criteria.ts";
import type { HoldEvidence } from "./evidence.ts";
import type { HoldInputs } from "./inputs.ts";
import type { ReadGroups } from "./read-groups.ts";
import type { ModePlane } from "./types.ts";

/** What the sections of the boom say, when its tip values come from them. */
export function boomFindings(inputs: HoldInputs, id: string, rests: readonly string[]): FindingDraft[] {
  const { firstMode, fromSections, motions } = inputs.boom.tip;
  if (firstMode === null) return [];
  const taken = `from sections: ${fromSections.join(", ")}`;
  return [
    {
      id: `${id}.boom-first-mode`,
      title: "Lowest frequency of the boom itself with the jack locked, least along the stroke",
      ...{ value: firstMode, unit: "Hz", rests },
      note:
        motions === 0
          ? `${taken}. The boom moves as its effective mass on its tip stiffness: modes near this frequency are not resolved`
          : `${taken}. The hooked pair takes in ${motions} bending motions in each plane, and the inertia of the boom against jack travel`,
    },
  ];
}

export function snubberFindings(
  inputs: HoldInputs,
  evidence: HoldEvidence,
  id: string,
  rests: readonly string[],
): FindingDraft[] {
  const all = evidence.snubber.at(-1);
  if (all === undefined) {
    const title = "Worst longitudinal damping ratio over the speed band with the best snubber rate";
    const note = "no airspeed of the band trims at any mass";
    return [
      {
        id: `${id}.longitudinal.snubber-optimum-damping`,
        title,
        value: null,
        unit: "1",
        verdict: "not analysed",
        note,
        rests,
      },
    ];
  }
  const { rate_N_s_m: rate, dampingRatio: zeta, atAirspeed_m_s_EAS: speed } = all.optimum;
  const range = inputs.sweeps.snubber;
  const criterion = dampingCriterion(inputs, false);
  const text = `the best snubber rate gives a damping ratio of at least ${criterion.limit} over the speed band`;
  const atEnd = rate <= range.from * 1.001 || rate >= range.to * 0.999;
  const where = `worst at ${speed.toFixed(1)} m/s EAS of the band, ${all.mass}; the snubber does not move the lateral modes, which are judged apart`;
  return [
    {
      id: `${id}.longitudinal.snubber-optimum`,
      title: "Snubber rate at the tip with the largest worst longitudinal damping over the speed band",
      ...{ value: rate, unit: "N·s/m", rests },
      note: atEnd ? `${where}. The optimum lies at the end of the searched range` : where,
    },
    {
      id: `${id}.longitudinal.snubber-optimum-damping`,
      title: "Worst longitudinal damping ratio over the speed band with the best snubber rate",
      ...{ value: zeta, unit: "1", criterion: { ...criterion, text }, rests },
      note: where,
    },
  ];
}

export function stiffnessFindings(
  evidence: HoldEvidence,
  id: string,
  mass: string,
  rests: readonly string[],
  groups: ReadGroups,
): FindingDraft[] {
  const drafts: FindingDraft[] = [];
  const need = evidence.stiffness.find((each) => each.mass === mass);
  if (need !== undefined) {
    const bands = need.meetsCriterion.map(
      ({ from_N_m, to_N_m }) => `${kilo(from_N_m)} kN/m to ${to_N_m === null ? "rigid" : `${kilo(to_N_m)} kN/m`}`,
    );
    drafts.push({
      id: `${id}.${mass}.stiffness-without-snubber`,
      title: `Tangential stiffness above which all larger values up to rigid meet the criterion, no snubber, mass ${mass}`,
      ...{ value: need.headline_N_m, unit: "N/m", verdict: "information" },
      rests: [...rests, ...groups.criteria, ...groups.law],
      note:
        (need.headline_N_m === null
          ? `not even a rigid boom meets the criterion; intervals that do: ${bands.join("; ") || "none"}`
          : `intervals that meet it: ${bands.join("; ")}`) +
        (need.classChanges_N_m.length === 0
          ? ""
          : `; an oscillation changes its class, and so its criterion, at ${need.classChanges_N_m.map(kilo).join(", ")} kN/m`),
    });
  }
  const jack = evidence.jackSignShare.find((each) => each.mass === mass);
  if (jack !== undefined) {
    drafts.push({
      id: `${id}.${mass}.jack-sign-share`,
      title: `Weight share at which the jack load changes sign, mass ${mass}`,
      ...{ value: jack.share, unit: "1", verdict: "information", rests },
      note:
        jack.share !== null
          ? "free play of the mechanism acts around this share"
          : jack.searchedTo === null
            ? "not found: the aircraft does not trim here"
            : `the jack load keeps its sign from 0 to ${(100 * jack.searchedTo).toFixed(0)} %, as far as the aircraft trims`,
    });
  }
  return drafts;
}

function kilo(value: number): string {
  return (value / 1e3).toPrecision(4);
}

export function pilotFindings(
  evidence: HoldEvidence,
  id: string,
  mass: string,
  dynamics: Readonly<Record<ModePlane, readonly string[]>>,
  upset: readonly string[],
): FindingDraft[] {
  const point = evidence.points.find((each) => each.mass === mass);
  return evidence.pilotTime
    .filter((entry) => entry.pointId === point?.id)
    .map((entry) => ({
      id: `${id}.${mass}.${entry.plane}.time-to-limit`,
      title: `Time from ${entry.upset_deg}° to ${entry.limit_deg}° of ${entry.plane === "longitudinal" ? "pitch" : "bank"}, nobody acting, mass ${mass}`,
      ...{
        value: entry.time_s,
        unit: "s",
        verdict: "information" as const,
        rests: [...dynamics[entry.plane], ...upset],
      },
      note:
        entry.linearEstimate_s === null
          ? entry.outcome
          : `${entry.outcome}; the growth of the linear model alone gives ${entry.linearEstimate_s.toFixed(1)} s`,
    }));
}
