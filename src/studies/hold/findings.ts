import { type Finding, type FindingContext, type FindingDraft, findingMaker } from "../finding/index.ts";
import { dampingCriterion, doublingCriterion, meetsCriteria, noPublished } from "./criteria.ts";
import { boomFindings, pilotFindings, snubberFindings, stiffnessFindings } from "./design-findings.ts";
import type { HoldEvidence } from "./evidence.ts";
import type { HoldInputs } from "./inputs.ts";
import { type ReadGroups, restsOf } from "./read-groups.ts";
import { trimFindings } from "./trim-findings.ts";
import type { HoldPoint, Mode, ModePlane } from "./types.ts";

const PLANES: readonly ModePlane[] = ["longitudinal", "lateral"];

/** All findings of one condition. */
export function holdFindings(
  inputs: HoldInputs,
  evidence: HoldEvidence,
  groups: ReadGroups,
  context: FindingContext,
): Finding[] {
  const make = findingMaker(context);
  const { condition, points } = evidence;
  const symmetric = isSymmetric(inputs);
  const all = restsOf(groups, condition.name, condition.masses, symmetric);
  const drafts: FindingDraft[] = [];
  const id = `hold.${condition.name}`;
  for (const plane of PLANES) drafts.push(planeSummary(inputs, evidence, plane, `${id}.${plane}`, all.judged[plane]));
  for (const point of points) {
    const own = restsOf(groups, condition.name, [point.mass], symmetric);
    drafts.push(...trimFindings(inputs, point, `${id}.${point.mass}`, own.trim, groups));
    if (point.trim === null) continue;
    for (const plane of PLANES) {
      drafts.push(...modeFindings(inputs, point, plane, `${id}.${point.mass}.${plane}`, own.judged[plane]));
    }
  }
  drafts.push(...boomFindings(inputs, id, [...groups.boom, ...groups.swing]));
  drafts.push(...snubberFindings(inputs, evidence, id, [...all.judged.longitudinal, ...groups.band, ...groups.sweeps]));
  for (const mass of condition.masses) {
    const own = restsOf(groups, condition.name, [mass], symmetric);
    drafts.push(...stiffnessFindings(evidence, id, mass, own.trim, groups));
    drafts.push(...pilotFindings(evidence, id, mass, own.dynamics, groups.upset));
  }
  return drafts.map(make);
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
  if (missing.length > 0) {
    const note = `no trim at ${missing.map((point) => point.mass).join(", ")}`;
    return {
      id,
      title,
      value: null,
      unit: "1",
      criterion: dampingCriterion(inputs, false),
      verdict: "not met",
      note,
      rests,
    };
  }
  const decides = decidingMode(inputs, evidence.points, plane);
  if (decides === null) {
    const note = `no ${plane} oscillation of rigid-body type, and no other mode of the plane misses its criterion`;
    return {
      id,
      title,
      value: null,
      unit: "1",
      criterion: dampingCriterion(inputs, false),
      verdict: "met",
      note,
      rests,
    };
  }
  const { point, mode } = decides;
  const real = mode.imag_rad_s === 0;
  const criterion = real ? doublingCriterion(inputs) : dampingCriterion(inputs, mode.class === "structural");
  const value = real ? mode.timeToDouble_s : mode.dampingRatio;
  const growing =
    mode.timeToDouble_s === null || real ? "" : `, grows, doubling in ${mode.timeToDouble_s.toFixed(2)} s`;
  const rate = real ? "real root" : `${mode.frequency_Hz.toFixed(3)} Hz, ${mode.class}`;
  return {
    ...{ id, title, value, unit: real ? "s" : "1", criterion, rests },
    verdict: meetsCriteria(inputs, mode) ? "met" : "not met",
    note: `${mode.name}, ${rate}${growing}, mass ${point.mass}: of all modes of this plane the one that decides. ${noPublished(plane)}`,
  };
}

/** The mode that misses its criterion by most in proportion, or when none does the least damped rigid-body-type oscillation. */
function decidingMode(inputs: HoldInputs, points: readonly HoldPoint[], plane: ModePlane) {
  let found: { point: HoldPoint; mode: Mode } | null = null;
  let worst = 0;
  for (const point of points) {
    for (const mode of point.modes) {
      if (mode.plane !== plane || meetsCriteria(inputs, mode)) continue;
      const { rigidBodyDamping, structuralDamping, timeToDouble } = inputs.criteria;
      const limit = (mode.class === "structural" ? structuralDamping : rigidBodyDamping).value;
      const share =
        mode.imag_rad_s === 0 ? (mode.timeToDouble_s ?? 0) / timeToDouble.value - 1 : mode.dampingRatio / limit - 1;
      if (found === null || share < worst) {
        found = { point, mode };
        worst = share;
      }
    }
  }
  return found ?? leastDamped(points, plane, false);
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

/** True when nothing of the carried aircraft lies off its middle plane. */
export function isSymmetric({ carried }: HoldInputs): boolean {
  const { massStates, probe, momentReference, thrustPoint } = carried;
  return massStates.every(
    ({ cg, properties }) =>
      properties.Ixy === 0 &&
      properties.Iyz === 0 &&
      [probe, momentReference, thrustPoint].every((point) => point.BL === cg.BL),
  );
}
