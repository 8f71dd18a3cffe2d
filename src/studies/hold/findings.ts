import {
  type Criterion,
  type Finding,
  type FindingContext,
  type FindingDraft,
  findingMaker,
} from "../finding/index.ts";
import type { HoldCondition, HoldInputs } from "./inputs.ts";
import type { SpeedBands } from "./speed-limits.ts";
import type { HoldPoint, HoldTrim, Mode, ModePlane, PilotTime, SnubberCurve, StiffnessNeed } from "./types.ts";

/** Pair paths by what they feed, so that each finding rests on what it uses and nothing else. */
export interface ReadGroups {
  /** Geometry and airloads of the carried aircraft. */
  readonly aircraft: readonly string[];
  /** Mass, c.g. and inertia by mass state; condition by name. */
  readonly masses: ReadonlyMap<string, readonly string[]>;
  readonly conditions: ReadonlyMap<string, readonly string[]>;
  readonly stall: readonly string[];
  readonly travel: readonly string[];
  /** Axial and lateral springs, tip mass, structural damping. */
  readonly boom: readonly string[];
  /** Bending, accumulator, snubber and the ratio along the stroke. */
  readonly swing: readonly string[];
  readonly ratio: readonly string[];
  readonly law: readonly string[];
  readonly criteria: readonly string[];
  readonly band: readonly string[];
  readonly sweeps: readonly string[];
  readonly upset: readonly string[];
}

/** Paths of one condition at some of its masses, by purpose. */
function restsOf(groups: ReadGroups, condition: string, masses: readonly string[]) {
  const own = masses.flatMap((mass) => groups.masses.get(mass) ?? []);
  const trim = [...groups.aircraft, ...own, ...(groups.conditions.get(condition) ?? []), ...groups.boom];
  const dynamics = [...trim, ...groups.swing, ...groups.law];
  return { trim, dynamics, judged: [...dynamics, ...groups.criteria] };
}

export interface HoldEvidence {
  readonly condition: HoldCondition;
  readonly points: readonly HoldPoint[];
  readonly snubber: readonly SnubberCurve[];
  readonly stiffness: readonly StiffnessNeed[];
  readonly pilotTime: readonly PilotTime[];
  readonly bands: readonly SpeedBands[];
  /** Weight share at which the jack load changes sign, by mass; `null` when it does not between 0 and 100 %. */
  readonly jackSignShare: readonly { readonly mass: string; readonly share: number | null }[];
}

const PLANES: readonly ModePlane[] = ["longitudinal", "lateral"];

/** The analogy every reader asks for; shown, never used as the criterion. */
const NO_PUBLISHED =
  "No published criterion is known for an aircraft hooked at one point on a compliant boom. Nearest published, for a free aircraft: MIL-F-8785C Table VI, Dutch roll, ζ at least 0.02 for Level 2 and 0.08 for Level 1 (Category B).";

/** All findings of one condition. */
export function holdFindings(
  inputs: HoldInputs,
  evidence: HoldEvidence,
  groups: ReadGroups,
  context: FindingContext,
): Finding[] {
  const make = findingMaker(context);
  const { condition, points } = evidence;
  const all = restsOf(groups, condition.name, condition.masses);
  const drafts: FindingDraft[] = [];
  const id = `hold.${condition.name}`;
  for (const plane of PLANES) drafts.push(planeSummary(inputs, evidence, plane, `${id}.${plane}`, all.judged));
  for (const point of points) {
    const own = restsOf(groups, condition.name, [point.mass]);
    drafts.push(...trimFindings(inputs, point, `${id}.${point.mass}`, own.trim, groups));
    if (point.trim === null) continue;
    for (const plane of PLANES) {
      drafts.push(...modeFindings(inputs, point, plane, `${id}.${point.mass}.${plane}`, own.judged));
    }
  }
  drafts.push(...boomFindings(inputs, id, [...groups.boom, ...groups.swing]));
  drafts.push(...snubberFindings(inputs, evidence, id, [...all.judged, ...groups.band, ...groups.sweeps]));
  for (const mass of condition.masses) {
    const own = restsOf(groups, condition.name, [mass]);
    drafts.push(...stiffnessFindings(evidence, id, mass, own.trim, groups));
    drafts.push(...pilotFindings(evidence, id, mass, [...own.dynamics, ...groups.upset]));
  }
  return drafts.map(make);
}

function dampingCriterion(inputs: HoldInputs, structural: boolean): Criterion {
  const { value, source } = structural ? inputs.criteria.structuralDamping : inputs.criteria.rigidBodyDamping;
  const kind = structural ? "structural" : "rigid-body-type";
  return {
    text: `damping ratio of every ${kind} oscillation at least ${value}`,
    sense: "at least",
    limit: value,
    source,
  };
}

function doublingCriterion(inputs: HoldInputs): Criterion {
  const { value, source } = inputs.criteria.timeToDouble;
  return { text: `no real root doubles in less than ${value} s`, sense: "at least", limit: value, source };
}

/** Least damped oscillation of a plane and class, with where it is. */
function leastDamped(points: readonly HoldPoint[], plane: ModePlane, structural: boolean) {
  let found: { point: HoldPoint; mode: Mode } | null = null;
  for (const point of points) {
    for (const mode of point.modes) {
      if (mode.plane !== plane || (mode.class === "structural") !== structural || mode.imag_rad_s === 0) continue;
      if (found === null || mode.dampingRatio < found.mode.dampingRatio) found = { point, mode };
    }
  }
  return found;
}

function planeSummary(
  inputs: HoldInputs,
  evidence: HoldEvidence,
  plane: ModePlane,
  id: string,
  rests: readonly string[],
): FindingDraft {
  const title = `Hooked at one point, ${plane} motion, ${inputs.lawName}: worst over the masses`;
  const missing = evidence.points.filter((point) => point.trim === null);
  const worst = leastDamped(evidence.points, plane, false);
  const criterion = dampingCriterion(inputs, false);
  if (missing.length > 0 || worst === null) {
    const note = `no trim at ${missing.map((point) => point.mass).join(", ")}`;
    return { id, title, value: null, unit: "1", criterion, verdict: "not met", note, rests };
  }
  const allMet = evidence.points.every((point) =>
    point.modes.every((mode) => mode.plane !== plane || meetsCriteria(inputs, mode)),
  );
  const { point, mode } = worst;
  const growing = mode.timeToDouble_s === null ? "" : `, grows, doubling in ${mode.timeToDouble_s.toFixed(2)} s`;
  return {
    ...{ id, title, value: mode.dampingRatio, unit: "1", criterion, rests },
    verdict: allMet ? "met" : "not met",
    note: `${mode.name}, ${mode.frequency_Hz.toFixed(3)} Hz${growing}, mass ${point.mass}. The verdict also counts the structural modes and real roots of this plane. ${NO_PUBLISHED}`,
  };
}

/** True when a mode meets the criterion of its class, or of a real root. */
export function meetsCriteria(inputs: HoldInputs, mode: Mode): boolean {
  if (mode.imag_rad_s === 0) {
    return mode.timeToDouble_s === null || mode.timeToDouble_s >= inputs.criteria.timeToDouble.value;
  }
  const { structuralDamping, rigidBodyDamping } = inputs.criteria;
  return mode.dampingRatio >= (mode.class === "structural" ? structuralDamping : rigidBodyDamping).value;
}

function modeFindings(
  inputs: HoldInputs,
  point: HoldPoint,
  plane: ModePlane,
  id: string,
  rests: readonly string[],
): FindingDraft[] {
  const drafts: FindingDraft[] = [];
  for (const structural of [false, true]) {
    const worst = leastDamped([point], plane, structural);
    if (worst === null) continue;
    const kind = structural ? "structural" : "rigid-body-type";
    const { mode } = worst;
    drafts.push({
      id: `${id}.${structural ? "structural-damping" : "damping"}`,
      title: `Least damped ${plane} ${kind} oscillation, mass ${point.mass}`,
      ...{ value: mode.dampingRatio, unit: "1", criterion: dampingCriterion(inputs, structural), rests },
      note: `${mode.name} (${Math.round(100 * mode.share)} % of the kinetic energy) at ${mode.frequency_Hz.toFixed(3)} Hz`,
    });
  }
  const doubling = point.modes
    .filter((mode) => mode.plane === plane && mode.imag_rad_s === 0)
    .map((mode) => mode.timeToDouble_s)
    .filter((time) => time !== null);
  const fastest = doubling.length > 0 ? Math.min(...doubling) : null;
  drafts.push({
    id: `${id}.time-to-double`,
    title: `Shortest time to double of a ${plane} real root, mass ${point.mass}`,
    ...{ value: fastest, unit: "s", criterion: doublingCriterion(inputs), rests },
    ...(fastest === null ? { verdict: "met" as const, note: "no real root grows" } : {}),
  });
  return drafts;
}

function trimFindings(
  inputs: HoldInputs,
  point: HoldPoint,
  id: string,
  rests: readonly string[],
  groups: ReadGroups,
): FindingDraft[] {
  const { trim } = point;
  if (trim === null) {
    const note = "no angle of attack and control position balance the aircraft here";
    return [
      { id: `${id}.trim`, title: `Trim, mass ${point.mass}`, value: null, unit: "1", verdict: "not met", note, rests },
    ];
  }
  const stall: Criterion = {
    text: "lift coefficient not above the maximum",
    sense: "at least",
    limit: 0,
    source: "stall; common practice, no source",
  };
  const information = (
    key: string,
    title: string,
    value: number,
    unit: string,
    from: readonly string[] = rests,
  ): FindingDraft => ({
    ...{ id: `${id}.${key}`, title: `${title}, mass ${point.mass}`, value, unit, rests: from },
  });
  const stallTitle = "Maximum over required lift coefficient, less one";
  const stallRests = [...rests, ...groups.stall];
  return [
    { ...information("stall-margin", stallTitle, trim.stallMargin, "1", stallRests), criterion: stall },
    information("tow-load", "Tow load on the probe, forward", trim.towLoad_N, "N"),
    information("jack-load", "Load on the jack by the boom, towards extension positive", trim.jackLoad_N, "N", [
      ...rests,
      ...groups.ratio,
    ]),
    elevatorFinding(inputs, trim, information("elevator", "Elevator at trim", trim.elevator_deg, "deg"), groups),
    information("unloaded-angle", "Boom angle without load on the tip", trim.unloadedBoomAngle_deg, "deg", [
      ...rests,
      ...groups.swing,
    ]),
  ];
}

/** Elevator at trim, against its travel on the side to which it is deflected. */
function elevatorFinding(inputs: HoldInputs, trim: HoldTrim, draft: FindingDraft, groups: ReadGroups): FindingDraft {
  const note = "trailing edge down positive";
  const travel = inputs.carried.elevatorTravel;
  if (travel === null) return { ...draft, note: `${note}; the pair states no travel to compare with` };
  const down = trim.elevator_deg >= 0;
  const limit = ((down ? 1 : -1) * travel * 180) / Math.PI;
  const criterion: Criterion = {
    text: "elevator at trim within its travel",
    sense: down ? "at most" : "at least",
    limit,
    source: "control travel of the pair",
  };
  return { ...draft, criterion, note, rests: [...draft.rests, ...groups.travel] };
}

/** What the sections of the boom say, when its tip values come from them. */
function boomFindings(inputs: HoldInputs, id: string, rests: readonly string[]): FindingDraft[] {
  const { firstMode, fromSections } = inputs.boom.tip;
  if (firstMode === null) return [];
  const taken = `from sections: ${fromSections.join(", ")}`;
  return [
    {
      id: `${id}.boom-first-mode`,
      title: "Lowest frequency of the boom itself with the jack locked, least along the stroke",
      ...{ value: firstMode, unit: "Hz", rests },
      note: `${taken}. The boom moves as its effective mass on its tip stiffness: modes near this frequency are not resolved`,
    },
  ];
}

function snubberFindings(
  inputs: HoldInputs,
  evidence: HoldEvidence,
  id: string,
  rests: readonly string[],
): FindingDraft[] {
  const all = evidence.snubber.at(-1);
  if (all === undefined) return [];
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

function stiffnessFindings(
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
        need.headline_N_m === null
          ? `not even a rigid boom meets the criterion; intervals that do: ${bands.join("; ") || "none"}`
          : `intervals that meet it: ${bands.join("; ")}`,
    });
  }
  const jack = evidence.jackSignShare.find((each) => each.mass === mass);
  if (jack !== undefined) {
    drafts.push({
      id: `${id}.${mass}.jack-sign-share`,
      title: `Weight share at which the jack load changes sign, mass ${mass}`,
      ...{ value: jack.share, unit: "1", verdict: "information", rests },
      note:
        jack.share === null
          ? "the jack load keeps its sign from 0 to 100 %"
          : "free play of the mechanism acts around this share",
    });
  }
  return drafts;
}

function kilo(value: number): string {
  return (value / 1e3).toPrecision(4);
}

function pilotFindings(evidence: HoldEvidence, id: string, mass: string, rests: readonly string[]): FindingDraft[] {
  const point = evidence.points.find((each) => each.mass === mass);
  return evidence.pilotTime
    .filter((entry) => entry.pointId === point?.id)
    .map((entry) => ({
      id: `${id}.${mass}.${entry.plane}.time-to-limit`,
      title: `Time from ${entry.upset_deg}° to ${entry.limit_deg}° of ${entry.plane === "longitudinal" ? "pitch" : "bank"}, nobody acting, mass ${mass}`,
      ...{ value: entry.time_s, unit: "s", verdict: "information" as const, rests },
      note:
        entry.linearEstimate_s === null
          ? entry.outcome
          : `${entry.outcome}; the growth of the linear model alone gives ${entry.linearEstimate_s.toFixed(1)} s`,
    }));
}
